//! House rules of a track file: they choose the lane where none is named, and a broken one is named.
//! Each test writes its files into a folder of its own.

use crate::answer::texts;
use crate::venue::{plan_of, refused_plan};
use serde_json::Value;

const RULES: &str = "
house_rules:
  lanes:
    - { over: 400, lanes: [1, 2] }
    - { from: 120, up_to: 400, lanes: [3, 4] }
    - { up_to: 100, lanes: [5, 6, 7], on: straights }
  direction: anticlockwise
  infield_crossing: forbidden
  notes: [Spikes of 6 mm at most.]
";

fn plan(block: &str, more: &str) -> Value {
    plan_of(&format!("{RULES}{more}"), &format!("title: T\ntrack: track.yaml\nblocks:\n  - {block}\n"))
}

fn lane(plan: &Value) -> u64 {
    plan["blocks"][0]["reps"][0]["lane"].as_u64().expect("a lane is a number")
}

#[test]
fn a_rule_chooses_the_lane_and_is_named_where_it_is_broken() {
    let one_closed = "closed_lanes: [1]\n";
    let two_closed = "closed_lanes: [1, 2]\n";
    for (block, closed, chosen, said) in [
        ("600", "", 1, ": lane 1, by the house rule: runs over 400 m in lanes 1 and 2."),
        ("400", "", 3, ": lane 3, by the house rule: runs of 120 m to 400 m in lanes 3 and 4."),
        ("120", "", 3, ": lane 3, by the house rule: runs of 120 m to 400 m in lanes 3 and 4."),
        ("60", "", 5, ": lane 5, by the house rule: runs up to 100 m in lanes 5 to 7 on the straights."),
        // Between two rules.
        ("110", one_closed, 2, ": no lane named, so lane 2, the innermost open."),
        // Of the lanes of a rule the first that is open.
        ("600", one_closed, 2, ": lane 2, by the house rule: runs over 400 m in lanes 1 and 2."),
        (
            "600",
            two_closed,
            3,
            ": lane 3, the innermost open, as the house rule's lanes are closed: runs over 400 m in lanes 1 and 2.",
        ),
        // A broken rule is named, and the coach decides.
        (
            "300 in lanes 2-4",
            "",
            2,
            " breaks a house rule: runs of 120 m to 400 m in lanes 3 and 4, not in lane 2.",
        ),
        (
            "60 in lane 5 on the home straight the other way",
            "",
            5,
            " breaks a house rule: run anticlockwise, on the straights as well.",
        ),
    ] {
        let plan = plan(block, closed);
        assert_eq!(lane(&plan), chosen, "{block}, {closed}");
        assert_eq!(texts(&plan["warnings"]), [format!("{block}{said}")], "{closed}");
    }
    assert_eq!(texts(&plan("300 in lanes 3-4", "")["warnings"]), [""; 0], "a rule that is kept is not named");
}

#[test]
fn a_rule_for_the_straights_lays_the_run_there() {
    assert_eq!(plan("60", "")["blocks"][0]["reps"][0]["course"], "home straight");
}

#[test]
fn the_etiquette_says_what_is_posted() {
    let plan = plan("300", "");
    let lines = texts(&plan["etiquette"]);
    for line in [
        "Run anticlockwise, on the straights as well.",
        "Do not cross the infield.",
        "Runs over 400 m in lanes 1 and 2.",
        "Spikes of 6 mm at most.",
    ] {
        assert!(lines.contains(&line), "`{line}` is missing: {lines:?}");
    }
}

#[test]
fn the_reason_of_closed_lanes_is_said() {
    let plan = plan("300", "closed_lanes: { lanes: [1, 2], reason: new surface }\n");
    let said = "Closed lanes 1 and 2 stay closed (new surface): do not run, walk or wait in them.";
    assert!(texts(&plan["cautions"]).contains(&said), "{plan}");
}

#[test]
fn a_rule_for_a_lane_that_is_not_there_is_refused_at_its_place() {
    let rules = "house_rules:\n  lanes:\n    - { over: 400, lanes: [9] }\n";
    let said = refused_plan(rules, "title: T\ntrack: track.yaml\nblocks: [300]\n");
    assert!(said.starts_with("error: there is no lane 9: the track has lanes 1 to 8"), "{said}");
    assert!(said.contains("track.yaml:13:"), "{said}");
}

#[test]
fn lanes_of_a_rule_are_named_in_order() {
    let rules = "house_rules: { lanes: [{ lanes: [2, 7, 8, 5] }] }\n";
    let plan = plan_of(rules, "title: T\ntrack: track.yaml\nblocks: [200]\n");
    assert_eq!(lane(&plan), 2);
    let warnings = plan["warnings"].to_string();
    assert!(warnings.contains("runs in lanes 2, 5, 7 and 8"), "{warnings}");
}

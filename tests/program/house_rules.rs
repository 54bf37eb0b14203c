//! House rules of a track file: they choose the lane where none is named, and a broken one is named.
//! Each test writes its files into a folder of its own.

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

fn texts(list: &Value) -> Vec<&str> {
    list.as_array().expect("it is a list").iter().filter_map(Value::as_str).collect()
}

fn lane(plan: &Value) -> u64 {
    plan["blocks"][0]["reps"][0]["lane"].as_u64().expect("a lane is a number")
}

#[test]
fn where_no_lane_is_named_the_rule_chooses() {
    for (block, chosen, rule) in [
        ("600", 1, "runs over 400 m in lanes 1 and 2"),
        ("400", 3, "runs of 120 m to 400 m in lanes 3 and 4"),
        ("120", 3, "runs of 120 m to 400 m in lanes 3 and 4"),
        ("60", 5, "runs up to 100 m in lanes 5 to 7 on the straights"),
    ] {
        let plan = plan(block, "");
        assert_eq!(lane(&plan), chosen, "{block}");
        let said = format!("{block}: lane {chosen}, by the house rule: {rule}.");
        assert_eq!(texts(&plan["warnings"]), [said]);
    }
}

#[test]
fn a_rule_for_the_straights_lays_the_run_there() {
    assert_eq!(plan("60", "")["blocks"][0]["reps"][0]["course"], "home straight");
}

#[test]
fn between_two_rules_the_innermost_open_lane_is_used() {
    let plan = plan("110", "closed_lanes: [1]\n");
    assert_eq!(lane(&plan), 2);
    let said = "110: no lane named, so lane 2, the innermost open.";
    assert_eq!(texts(&plan["warnings"]), [said]);
}

#[test]
fn of_the_lanes_of_a_rule_the_first_that_is_open_is_used() {
    assert_eq!(lane(&plan("600", "closed_lanes: [1]\n")), 2);
    let none = plan("600", "closed_lanes: [1, 2]\n");
    assert_eq!(lane(&none), 3);
    let said = "600: lane 3, the innermost open, as the house rule's lanes are closed: runs over 400 m in \
                lanes 1 and 2.";
    assert_eq!(texts(&none["warnings"]), [said]);
}

#[test]
fn a_broken_rule_is_named_and_the_coach_decides() {
    let plan = plan("300 in lanes 2-4", "");
    let said =
        "300 in lanes 2-4 breaks a house rule: runs of 120 m to 400 m in lanes 3 and 4, not in lane 2.";
    assert_eq!(texts(&plan["warnings"]), [said]);
    assert_eq!(lane(&plan), 2);
}

#[test]
fn a_rule_that_is_kept_is_not_named() {
    assert_eq!(texts(&plan("300 in lanes 3-4", "")["warnings"]), [""; 0]);
}

#[test]
fn the_other_way_breaks_the_rule_of_direction() {
    let block = "60 in lane 5 on the home straight the other way";
    let said = format!("{block} breaks a house rule: run anticlockwise, on the straights as well.");
    assert_eq!(texts(&plan(block, "")["warnings"]), [said]);
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

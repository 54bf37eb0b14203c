//! Hazards of a track file and their hours: what is avoided, what is passed with a caution, what is
//! never run through. Each test writes its files into a folder of its own.

use crate::answer::{list, number, texts};
use crate::venue::{plan_of, refused_plan};
use serde_json::Value;

/// A hammer cage whose sector lies across the 200 m starts, in use in the early evening.
const CAGE: &str = "
hazards:
  - { kind: cage sector, from: 215, to: 185, side: across, hours: 17:00-18:30 }
";

fn session(hours: &str) -> String {
    format!("title: Tuesday\ntrack: track.yaml\n{hours}\nblocks:\n  - 200 in lane 2\n")
}

fn first_rep(plan: &Value) -> &Value {
    &plan["blocks"][0]["reps"][0]
}

fn start(plan: &Value) -> &str {
    first_rep(plan)["start"]["words"].as_str().expect("a start is said in words")
}

fn cautions(plan: &Value) -> Vec<&str> {
    texts(&first_rep(plan)["cautions"])
}

#[test]
fn within_its_hours_nobody_starts_in_it() {
    for hours in ["hours: 18:00-19:30", "hours: 17:30-18:00", "hours: 16:56-17:01"] {
        let plan = plan_of(CAGE, &session(hours));
        assert_ne!(start(&plan), "on the 200 m start line", "{hours}");
        let to_finish_m = number(&first_rep(&plan)["start"]["to_finish_line_m"]);
        assert!((to_finish_m - 200.0).abs() > 10.0, "{hours}: {to_finish_m} m");
    }
}

#[test]
fn outside_its_hours_it_is_as_if_it_were_not_there() {
    for hours in ["hours: 18:36-19:30", "hours: 09:00-11:00"] {
        let plan = plan_of(CAGE, &session(hours));
        assert_eq!(start(&plan), "on the 200 m start line", "{hours}");
        assert_eq!(cautions(&plan), [""; 0], "{hours}");
    }
}

#[test]
fn it_counts_when_a_run_goes_by() {
    // Three 200s at 16:30 are done long before the cage is in use at 17:00; those at 17:30 are not.
    let plan = plan_of(
        CAGE,
        "title: Tuesday\ntrack: track.yaml\nhours: 16:30-18:00\nblocks:\n  - 3 x 200 in lane 2 @ 32 rest 2min\n  \
         - talk 50 min\n  - 3 x 200 in lane 2 @ 32 rest 2min\n",
    );
    let starts: Vec<&str> = [0, 2]
        .iter()
        .filter_map(|&block| plan["blocks"][block]["reps"][0]["start"]["words"].as_str())
        .collect();
    assert_eq!(starts[0], "on the 200 m start line");
    assert_ne!(starts[1], "on the 200 m start line");
}

#[test]
fn a_run_is_warned_of_what_is_in_use_when_it_goes_by() {
    let javelin = "
hazards:
  - { kind: javelin runway, from: 110, to: 80, side: inside, hours: 17:00-18:30 }
";
    let plan = plan_of(
        javelin,
        "title: Tuesday\ntrack: track.yaml\nhours: 16:30-18:00\nblocks:\n  - 8 x 200 in lane 2 @ 32 off 5min\n",
    );
    let reps = list(&plan["blocks"][0]["reps"]);
    let warned: Vec<bool> = reps.iter().map(|rep| !list(&rep["cautions"]).is_empty()).collect();
    // They go at 16:30, 16:35 and so on; what is 5 min away from a run counts.
    assert_eq!(warned, [false, false, false, false, false, true, true, true]);
}

#[test]
fn it_is_avoided_while_it_may_be_in_use() {
    let cage = |hours: &str| CAGE.replace(", hours: 17:00-18:30", hours);
    for (what, cage, hours, is_avoided) in [
        ("the hours of the session are not known", cage(", hours: 17:00-18:30"), "", true),
        ("the hazard has no hours", cage(""), "hours: 09:00-11:00", true),
        ("its first hours", cage(", hours: [08:00-09:30, 17:00-18:30]"), "hours: 09:00-11:00", true),
        ("between its hours", cage(", hours: [08:00-09:30, 17:00-18:30]"), "hours: 10:00-11:00", false),
        ("its second hours", cage(", hours: [08:00-09:30, 17:00-18:30]"), "hours: 18:00-19:00", true),
    ] {
        let start_is_kept = start(&plan_of(&cage, &session(hours))) == "on the 200 m start line";
        assert_eq!(start_is_kept, !is_avoided, "{what}");
    }
}

#[test]
fn a_run_that_comes_by_carries_the_caution() {
    let gate = "
hazards:
  - { kind: gate, from: 60, to: 55, side: outside, note: the changing rooms }
";
    let text =
        "title: Tuesday\ntrack: track.yaml\nblocks:\n  - 200 in lane 2\n  - 60 in lane 2 on the bend\n";
    let plan = plan_of(gate, text);
    let said = "Passes the gate outside (the changing rooms): look for people stepping on to the track.";
    assert_eq!(cautions(&plan), [said]);
    // A run on the bend does not come by.
    assert_eq!(texts(&plan["blocks"][1]["reps"][0]["cautions"]), [""; 0]);
}

#[test]
fn a_hazard_in_one_lane_leaves_the_others_alone() {
    let inside = CAGE.replace("hours: 17:00-18:30", "lanes: [1]");
    let plan = plan_of(&inside, &session(""));
    assert_eq!(start(&plan), "on the 200 m start line");
    // It is passed all the same.
    assert_eq!(cautions(&plan).len(), 1, "{plan}");
}

#[test]
fn nobody_is_sent_through_a_closed_stretch() {
    // Half of the back straight is fenced off: a lap does not lead past it, a run on the home straight does not meet it.
    let fence = "
hazards:
  - { kind: closed stretch, from: 240, to: 205, side: across, note: works }
";
    let text = "title: Tuesday\ntrack: track.yaml\nblocks:\n  - 60 in lane 3\n  - 400 in lane 3\n";
    let said = refused_plan(fence, text);
    assert!(
        said.contains("session.yaml:5:5")
            && said.contains("no place is left for 400 m in lane 3: hazards in use or a closed stretch"),
        "{said}"
    );
    assert!(!said.contains("session.yaml:4:"), "60 m fit on the home straight: {said}");
}

#[test]
fn a_run_that_leaves_its_chute_meets_a_closed_stretch_on_the_oval() {
    let fence = "
hazards:
  - { kind: closed stretch, from: 240, to: 205, side: across, note: works }
";
    let said = refused_plan(
        fence,
        "title: T\ntrack: track.yaml\nblocks: [300 from the 110 m hurdles start in lane 3]\n",
    );
    assert!(said.contains("closed stretch"), "{said}");
}

/// Works that shut lane 3 of the back straight: 400 m still lead from one side of them to the other.
const WORKS: &str = "
hazards:
  - { kind: closed stretch, from: 229, to: 215, side: inside, lanes: [3], note: works }
";

/// Three athletes who run one lap.
fn three_over_a_lap(block: &str) -> String {
    let athletes = "{ name: Ada, target: 60 }, { name: Ben, target: 62 }, { name: Cleo, target: 64 }";
    format!(
        "title: T\ntrack: track.yaml\ngroups: [{{ name: squad, athletes: [{athletes}] }}]\nblocks: [{block}]\n"
    )
}

#[test]
fn a_lane_that_cannot_start_with_the_others_is_left_out() {
    let plan = plan_of(WORKS, &three_over_a_lap("400"));
    let reps = plan["blocks"][0]["reps"].as_array().expect("there are runs");
    let lanes: Vec<u64> = reps.iter().filter_map(|rep| rep["lane"].as_u64()).collect();
    assert_eq!(lanes, [1, 2, 4]);
    assert!(reps.iter().all(|rep| rep["finish"]["words"] == "on the finish line"), "{plan}");
}

#[test]
fn lanes_that_the_block_names_may_start_and_finish_apart_and_the_plan_says_so() {
    // A lap of lane 2 leads from one side of the works to the other, and one of lane 3 by other works.
    let works = "
hazards:
  - { kind: closed stretch, from: 96, to: 91, side: inside, lanes: [2], note: works }
  - { kind: closed stretch, from: 398, to: 390, side: inside, lanes: [3], note: works }
";
    let plan = plan_of(works, &three_over_a_lap("\"400 in lanes 2, 3\""));
    let block = &plan["blocks"][0];
    let wave = |rep: &&Value| rep["wave"] == 1;
    let starts: Vec<&str> = block["reps"]
        .as_array()
        .into_iter()
        .flatten()
        .filter(wave)
        .filter_map(|rep| rep["start"]["words"].as_str())
        .collect();
    assert_eq!(starts, ["on the exit of yellow zone 3", "on the 400 m start line"]);
    let finding = block["findings"]
        .as_array()
        .into_iter()
        .flatten()
        .find(|finding| finding["kind"] == "no common place")
        .unwrap_or_else(|| panic!("{block}"));
    assert_eq!(finding["lanes"], serde_json::json!([2, 3]));
    assert_eq!(
        finding["words"],
        "Lanes 2 and 3 start and finish apart in run 1: what is in use leaves no place in common."
    );
}

#[test]
fn a_closed_stretch_is_open_outside_its_hours() {
    let fence = "
hazards:
  - { kind: closed stretch, from: 240, to: 205, side: across, hours: 08:00-16:00 }
";
    let text =
        |hours: &str| format!("title: T\ntrack: track.yaml\nhours: {hours}\nblocks: [400 in lane 3]\n");
    assert!(refused_plan(fence, &text("15:30-17:00")).contains("no place is left"));
    assert_eq!(start(&plan_of(fence, &text("16:00-17:00"))), "on the 400 m start line");
}

/// A gate outside lane 8 and a long-jump pit inside lane 1, both level with the finish line.
const BOTH_SIDES: &str = "
hazards:
  - { kind: gate, from: 3, to: 399, side: outside, lanes: [8] }
  - { kind: long-jump pit, from: 5, to: 395, side: inside, lanes: [1] }
";

#[test]
fn the_coach_is_sent_into_no_hazard() {
    let text = "title: Tuesday\ntrack: track.yaml\nblocks: [2 x 200 in lane 4]\n";
    for (hazards, words) in [
        ("", "outside lane 8, level with the finish line"),
        (
            &BOTH_SIDES[..BOTH_SIDES.find("  - { kind: long").expect("it is there")],
            "on the infield side of lane 1",
        ),
    ] {
        let plan = plan_of(hazards, text);
        let said = plan["blocks"][0]["coach"]["words"].as_str().expect("there is a place");
        assert!(said.starts_with(words), "{said}");
    }
    let block = &plan_of(BOTH_SIDES, text)["blocks"][0];
    assert!(block["coach"].is_null(), "{block}");
    assert!(texts(&block["remarks"]).iter().any(|remark| remark.contains("both sides")), "{block}");
}

#[test]
fn the_coach_goes_to_another_finish_where_one_has_no_safe_side() {
    let text = "title: Tuesday\ntrack: track.yaml\nblocks: [2 x 200 in lane 4 jog 100]\n";
    let block = &plan_of(BOTH_SIDES, text)["blocks"][0];
    let (coach, finish) = (&block["coach"], &block["reps"][1]["finish"]);
    assert_eq!(block["reps"][0]["finish"]["to_finish_line_m"], 0.0, "{block}");
    assert_ne!(finish["to_finish_line_m"], 0.0, "{block}");
    let metres = |place: &Value, key: &str| number(&place[key]);
    let apart_m =
        (metres(coach, "x_m") - metres(finish, "x_m")).hypot(metres(coach, "y_m") - metres(finish, "y_m"));
    // From the measure line of lane 4, 0.20 m from its inner line, over lanes 4 to 8, and 1.50 m.
    assert!((apart_m - (5.0 * 1.22 - 0.20 + 1.50)).abs() < 0.001, "{apart_m} m: {block}");
}

#[test]
fn a_place_that_is_named_or_painted_is_refused_while_a_hazard_is_there() {
    let blocks = [
        "150 in lane 2 from the 200 m start",
        "150 in lane 2 to the 200 m start",
        "exchange zone 2 in lane 2",
    ];
    for block in blocks {
        let session = format!("title: t\ntrack: track.yaml\nhours: 18:00-19:30\nblocks:\n  - {block}\n");
        let refused = refused_plan(CAGE, &session);
        assert!(refused.contains("the cage sector is in the way of "), "{block}: {refused}");
        assert!(
            refused.contains("help: try another lane, another place or another time"),
            "{block}: {refused}"
        );
        let after = session.replace("18:00-19:30", "18:36-19:30");
        assert_eq!(list(&plan_of(CAGE, &after)["blocks"]).len(), 1, "{block}");
    }
}

#[test]
fn a_squad_leaves_out_the_lanes_that_a_hazard_forbids() {
    let works = "\nhazards:\n  - { kind: closed stretch, from: 150, to: 140, side: across, lanes: [3, 4] }\n";
    let session = "title: t\ntrack: track.yaml\ngroups: [{ name: g, athletes: [A, B, C, D, E, F, G] }]\nblocks:\n  \
                   - 2 x 400 @ 70 rest 2min\n";
    let plan = plan_of(works, session);
    let reps = list(&plan["blocks"][0]["reps"]);
    assert_eq!(reps.len(), 14);
    let lanes: Vec<&Value> = reps.iter().map(|rep| &rep["lane"]).collect();
    assert!(lanes.iter().all(|lane| **lane != 3 && **lane != 4), "{lanes:?}");
}

#[test]
fn a_ladder_with_a_short_first_run_is_not_held_on_the_straight_by_a_house_rule() {
    let rules = "\nhouse_rules:\n  lanes:\n    - { up_to: 100, lanes: [5, 6, 7], on: straights }\n    \
                 - { from: 120, lanes: [2, 3, 4] }\n";
    let session = "title: t\ntrack: track.yaml\ngroups: [{ name: g, athletes: [A, B] }]\nblocks:\n  \
                   - 100 + 200 + 300 rest 90s\n";
    let plan = plan_of(rules, session);
    let reps = list(&plan["blocks"][0]["reps"]);
    assert_eq!(reps.len(), 6);
    assert!(
        reps.iter().all(|rep| [2, 3, 4].iter().any(|lane| rep["lane"] == *lane)),
        "lanes for the longest"
    );
}

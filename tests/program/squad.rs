//! Squads: waves, lanes and start times of the built program.

use std::collections::{BTreeMap, BTreeSet};

use crate::answer::{json, list, number, told};
use crate::folder::Folder;
use crate::run::toeline;
use serde_json::Value;
use snapbox::str;

fn plan(arguments: &[&str]) -> Value {
    json(&[&["plan"], arguments].concat())
}

fn reps(plan: &Value) -> &[Value] {
    list(&plan["blocks"][0]["reps"])
}

/// The wave of each athlete.
fn waves(plan: &Value) -> BTreeMap<String, u64> {
    let runs = reps(plan).iter().map(|rep| {
        let name = rep["athletes"][0].as_str().expect("it is a name").to_owned();
        (name, rep["wave"].as_u64().expect("it is a number"))
    });
    runs.collect()
}

const FOURTEEN: [&str; 9] = [
    "6 x 200 @ 34 rest 3min",
    "--athletes",
    "14",
    "--lanes",
    "2-6",
    "--track",
    "standard-6",
    "--closed",
    "1",
];

#[test]
fn fourteen_athletes_run_six_200s_in_three_waves_in_lanes_2_to_6() {
    let plan = plan(&FOURTEEN);
    assert_eq!(reps(&plan).len(), 6 * 14);
    let sizes = waves(&plan).values().fold(BTreeMap::new(), |mut sizes: BTreeMap<u64, u32>, &wave| {
        *sizes.entry(wave).or_default() += 1;
        sizes
    });
    assert_eq!((sizes.len(), sizes.values().max()), (3, Some(&5)));
    let lanes: BTreeSet<u64> = reps(&plan).iter().filter_map(|rep| rep["lane"].as_u64()).collect();
    assert_eq!(lanes, (2..=6).collect());
    for rep in reps(&plan) {
        assert_eq!(
            (&rep["start"]["mark"], number(&rep["start"]["past_mark_m"])),
            (&"200 m start".into(), 0.0)
        );
        assert_eq!(rep["start"]["lane"], rep["lane"]);
        assert!(rep["rest_s"].is_null() || number(&rep["rest_s"]) >= 180.0 - 1e-6, "{rep}");
    }
    // With equal targets the slowest wave's own end, and a start gap of 10 s for each wave behind it.
    let end_s = reps(&plan).iter().map(|rep| number(&rep["done_s"])).fold(0.0, f64::max);
    assert!((end_s - (6.0 * 34.0 + 5.0 * 180.0 + 2.0 * 10.0)).abs() < 1e-3, "{end_s}");
}

#[test]
fn every_athlete_has_each_lane_as_often_as_the_numbers_allow() {
    let plan = plan(&FOURTEEN);
    let mut used: BTreeMap<(String, u64), u32> = BTreeMap::new();
    for rep in reps(&plan) {
        let name = rep["athletes"][0].to_string();
        *used.entry((name, rep["lane"].as_u64().expect("it is a number"))).or_default() += 1;
    }
    // Six repetitions in five lanes: each lane once, one of them twice.
    assert!(used.values().all(|&count| count <= 2), "{used:?}");
    assert_eq!(used.len(), 14 * 5);
}

#[test]
fn a_whistle_at_the_finish_needs_its_time_to_the_start() {
    let plan = plan(&FOURTEEN);
    let rep = &reps(&plan)[0];
    let metre = |end: &str, key: &str| number(&rep[end][key]);
    let away_m = (metre("start", "x_m") - metre("finish", "x_m"))
        .hypot(metre("start", "y_m") - metre("finish", "y_m"));
    // Sound travels 343 m/s at 20 °C; a 200 m start lies about 115 m away across the infield.
    assert!((number(&rep["sound_s"]) - away_m / 343.0).abs() < 1e-9);
    assert!((0.3..=0.6).contains(&number(&rep["sound_s"])));
}

#[test]
fn without_targets_the_waves_are_made_and_the_plan_says_so() {
    let plan = plan(&["6 x 200 rest 3min", "--athletes", "14", "--lanes", "2-6"]);
    assert!(reps(&plan).iter().all(|rep| rep["target_s"].is_null() && rep["go_s"].is_number()));
    assert!(reps(&plan).iter().all(|rep| rep["about"] == true), "nobody gave a time: {plan}");
    assert_eq!(waves(&plan).len(), 14);
    let mut findings = list(&plan["blocks"][0]["findings"]).iter();
    assert!(findings.any(|finding| finding["kind"] == "times estimated"), "{plan}");
}

#[test]
fn an_absent_athlete_leaves_the_waves_of_the_others_alone() {
    let before = waves(&plan(&FOURTEEN));
    for absent in ["1", "7", "14"] {
        let after = waves(&plan(&[FOURTEEN.as_slice(), &["--without", absent]].concat()));
        assert_eq!(after.len(), 13);
        let moved: Vec<_> = after.iter().filter(|(name, wave)| before[*name] != **wave).collect();
        assert!(moved.is_empty(), "without {absent}: {moved:?}");
    }
    toeline(&["plan", "6 x 200 @ 34 rest 3min", "--athletes", "3", "--without", "Zoe"]).assert().code(2);
}

#[test]
fn a_lane_that_closes_is_not_used() {
    let plan =
        plan(&["6 x 200 @ 34 rest 3min", "--athletes", "14", "--track", "standard-6", "--closed", "1,4"]);
    assert!(reps(&plan).iter().all(|rep| rep["lane"] != 1 && rep["lane"] != 4));
    assert_eq!(waves(&plan).values().max(), Some(&4));
}

#[test]
fn two_groups_at_once_never_finish_together_nor_share_a_lane() {
    let text = "
title: two groups
track: standard-6
closed_lanes: [1]
groups:
  - name: sprinters
    athletes: [{ name: Ada, target: 18.5 }, { name: Ben, target: 19 }, { name: Cy, target: 20, lanes: [5, 6] }]
    blocks: [4 x 150 rest 4min]
  - name: middle distance
    athletes: [{ name: Fay, target: 1:52 }, { name: Gil, target: 1:58 }]
    blocks: [4 x 600 rest 2min]
";
    let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml"]);
    let all: Vec<&Value> = (0..2).flat_map(|block| list(&plan["blocks"][block]["reps"])).collect();
    for (index, a) in all.iter().enumerate() {
        assert!(a["athletes"] != Value::from(vec!["Cy"]) || a["lane"].as_u64() >= Some(5), "{a}");
        for b in &all[index + 1..] {
            if a["group"] != b["group"] {
                assert_ne!(a["lane"], b["lane"]);
                assert!((number(&a["go_s"]) - number(&b["go_s"])).abs() >= 10.0 - 1e-3);
            }
        }
    }
    assert_eq!(plan["warnings"].to_string().matches("Clash").count(), 0);
}

#[test]
fn squads_that_make_no_sense_are_refused() {
    for (athletes, block, says) in [
        ("Ada, Ben, Ada", "4 x 100 @ 14 rest 2min", "two athletes are called `Ada`"),
        ("{ name: Ada, target: 0 }", "4 x 100 rest 2min", "`0` is out of range"),
        (
            "{ name: Ada, lanes: [3] }, { name: Ben, lanes: [3] }",
            "4 x 200 in lanes 2-5 @ 30 rest 2min",
            "are too few",
        ),
    ] {
        let group = format!("{{ name: a, athletes: [{athletes}] }}");
        let text = format!("{{ title: t, track: standard-6, groups: [{group}], blocks: [{block}] }}");
        let said = told(&Folder::with("s.yaml", text).toeline(&["plan", "s.yaml"]).assert().code(2));
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(says), "{athletes}: {said}");
    }
    toeline(&["plan", "200 @ 30", "--athletes", "4", "--closed", "1,2,3,4,5,6,7,8"]).assert().code(2);
}

#[test]
fn forty_one_athletes_in_one_lane_are_planned_with_a_warning() {
    let plan = plan(&["6 x 200 @ 34 rest 3min", "--athletes", "41", "--lanes", "2"]);
    assert_eq!(waves(&plan).values().max(), Some(&41));
    assert!(
        plan["blocks"][0]["remarks"].to_string().contains("open more lanes, or split the squad"),
        "{}",
        plan["blocks"][0]["remarks"]
    );
}

/// The text and the message of a session file.
fn views(session: &str) -> [String; 2] {
    let folder = Folder::with("session.yaml", session);
    ["plan.txt", "plan.md"].map(|name| {
        folder.toeline(&["plan", "session.yaml", "--out", name]).assert().success();
        folder.read(name).split_whitespace().collect::<Vec<_>>().join(" ")
    })
}

#[test]
fn a_squad_whose_starts_creep_is_told_each_of_them() {
    let [text, message] = views(
        "{ title: Jog, groups: [{ name: g, athletes: [Ada, Bela] }], blocks: [3 x 300 in lanes 2-3 jog exactly 200] }",
    );
    // Rep 2 of lane 3 starts 85.30 m past the 300 m start, by the lane's lap of 414.70 m.
    for words in
        ["run 2, 300 m in lane 3: start 0.30 m past the 5th green tick", "run 1, 300 m in lane 2: start"]
    {
        assert!(message.contains(words), "`{words}` is missing in {message}");
    }
    assert!(!message.contains("runs 1 to 3"), "{message}");
    assert!(
        text.contains("2 3 300 cone 7: 0.30 m past the cone 1: 9.36 m back along 5th green tick"),
        "start and finish in their columns: {text}"
    );
    // Whoever jogs on along a lane stays in it; starts that lie apart have a go of their own.
    assert!(text.contains("1 1 2: Ada") && text.contains("1 2 3: Bela"), "{text}");
    assert!(text.contains("Bela: wave 2, lane 3"), "{text}");
}

#[test]
fn a_squad_that_runs_several_distances_is_told_all_of_them() {
    let session = "{ title: Mixed, groups: [{ name: g, athletes: [Ada, Bela] }], \
                   blocks: [400 @ 70 + 800 @ 2:30 + 400 @ 70 in lanes 1-2 rest 3min] }";
    let [text, message] = views(session);
    assert!(text.contains("Total 1600 m for each athlete."), "{text}");
    for words in ["runs 1, 3, 400 m in lane 1", "run 2, 800 m in lane 1"] {
        assert!(message.contains(words), "`{words}` is missing in {message}");
    }
}

#[test]
fn runs_that_differ_in_their_run_in_or_the_range_of_their_target_are_told_apart() {
    let [text, message] = views(
        "{ title: Flying, blocks: [flying 30 with 20 run-in in lane 3 + flying 30 with 30 run-in in lane 3] }",
    );
    assert!(
        message.contains("run 1, 30 m in lane 3") && message.contains("stand on the 100 m start line"),
        "{message}"
    );
    assert!(
        message.contains("run 2, 30 m in lane 3")
            && message.contains("stand on the 110 m hurdles start line"),
        "{message}"
    );
    assert!(text.contains("2 3 30 on the 110 m the 80 m start on the 50 m"), "{text}");
    assert!(text.contains("No cones: paint shows every place."), "{text}");
    let [text, _] = views("{ title: Ranges, blocks: [300 in 48-50s in lane 2 + 300 in 44-50s in lane 2] }");
    assert!(text.contains("48 s to 50 s") && text.contains("44 s to 50 s"), "{text}");
}

#[test]
fn lanes_that_are_not_side_by_side_are_named_in_order() {
    for (lanes, named) in [("2,7,8,5", "lanes 2, 5, 7 and 8"), ("5,3,2", "lanes 2, 3 and 5")] {
        let plan = plan(&["4 x 200 @ 32 rest 3min", "--athletes", "3", "--lanes", lanes]);
        let remarks = plan["blocks"][0]["remarks"].to_string();
        assert!(remarks.contains(named), "{lanes}: {remarks}");
    }
}

#[test]
fn lanes_are_kept_over_hurdles_and_from_blocks_and_turn_else() {
    let folder = Folder::new();
    for (lanes, block, are_kept) in [
        ("", "3 x 60 rest 3min in lanes 5-7", false),
        ("", "3 x 60 from blocks rest 3min in lanes 5-7", true),
        ("", "3 x 110h to hurdle 3 rest 3min in lanes 5-7", true),
        ("squad: { lanes: keep }\n", "3 x 60 rest 3min in lanes 5-7", true),
        ("squad: { lanes: turn }\n", "3 x 110h to hurdle 3 rest 3min in lanes 5-7", false),
        ("squad: { lanes: [5, 6, 7] }\n", "3 x 60 on the home straight rest 3min", false),
    ] {
        let text = format!(
            "title: t\n{lanes}groups: [{{ name: g, athletes: [Ada, Ben, Cy] }}]\nblocks: [\"{block}\"]\n"
        );
        folder.write("t.yaml", text);
        let plan = folder.json(&["plan", "t.yaml"]);
        let reps = plan["blocks"][0]["reps"].as_array().expect("it is a list");
        let ada: BTreeSet<u64> = (reps.iter())
            .filter(|rep| rep["athletes"][0] == "Ada")
            .filter_map(|rep| rep["lane"].as_u64())
            .collect();
        assert_eq!(ada.len(), if are_kept { 1 } else { 3 }, "{lanes}{block}: {ada:?}");
    }
    folder.write("t.yaml", "title: t\nsquad: { lanes: swap }\nblocks: [200]\n");
    folder.toeline(&["plan", "t.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: `swap` is not a valid `lanes`
 --> t.yaml:2:17
  |
2 | squad: { lanes: swap }
  |                 ^^^^
  |
help: write one of `keep`, `turn`

"#]]);
    folder.write("t.yaml", "title: t\nsquad: { lanes: 5 }\nblocks: [200]\n");
    folder.toeline(&["plan", "t.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: `lanes` must be a list of lanes, `keep` or `turn`, not `5`
 --> t.yaml:2:17
  |
2 | squad: { lanes: 5 }
  |                 ^
  |
help: write for example `lanes: [2, 3]`

"#]]);
}

#[test]
fn flat_runs_through_the_standing_hurdles_of_another_group_are_warned_of() {
    let session = |lanes: &str| {
        format!(
            "title: Hurdles
squad: {{ timers: each group }}
groups:
  - name: hurdlers
    athletes: [{{ name: Ada, target: 6.5 }}, {{ name: Ben, target: 6.5 }}]
    blocks: [\"6 x 110h to hurdle 3 in lanes 6,7 rest 3min\"]
  - name: sprinters
    athletes: [{{ name: Cyd, target: 29 }}, {{ name: Dan, target: 30 }}]
    blocks: [\"2 x 200 in lanes {lanes} rest 4min\"]
  - name: jumpers
    athletes: [{{ name: Eve, target: 5 }}]
    blocks: [\"3 x 30 on the bend in lane 7 rest 1min\"]
"
        )
    };
    let through = |lanes: &str| -> Vec<serde_json::Value> {
        let folder = Folder::with("session.yaml", session(lanes));
        let plan = folder.json(&["plan", "session.yaml"]);
        let findings = plan["findings"].as_array().expect("there is a list");
        findings.iter().filter(|finding| finding["kind"] == "through hurdles").cloned().collect()
    };
    let [one] = &through("5-6")[..] else { panic!("one block runs through hurdles") };
    assert_eq!((&one["hurdles"], &one["lanes"]), (&serde_json::json!(1), &serde_json::json!([6])));
    let words = one["words"].as_str().unwrap_or_default();
    assert!(words.contains("runs through the hurdles of block 1 in lane 6 from "), "{words}");
    assert_eq!(through("4-5"), [] as [serde_json::Value; 0]);
}

#[test]
fn runs_over_hurdles_that_stand_elsewhere_are_warned_of() {
    let kinds = |text: &str| -> Vec<String> {
        let folder = Folder::with("evening.txt", text);
        let plan = folder.json(&["plan", "evening.txt"]);
        let findings = plan["findings"].as_array().expect("there is a list");
        findings.iter().filter_map(|finding| Some(finding["kind"].as_str()?.to_owned())).collect()
    };
    let two = |first: &str, second: &str| {
        kinds(&format!("Hurdles\nGroup A: 4 x {first} in lane 3\nGroup B: 4 x {second} in lane 3"))
    };
    // The first hurdle of 100 m stands 13.00 m from the start, that of 110 m 13.72 m (World Athletics, Technical Rules, hurdle races).
    assert!(two("100H", "110H").contains(&"through hurdles".to_owned()));
    assert!(!two("100H", "100H").contains(&"through hurdles".to_owned()));
}

#[test]
fn groups_of_which_nobody_is_named_have_a_lane_each() {
    let lanes = |text: &str| -> Vec<(String, u64)> {
        let folder = Folder::with("evening.txt", text);
        let plan = folder.json(&["plan", "evening.txt"]);
        let blocks = plan["blocks"].as_array().expect("there are blocks").iter();
        let reps = blocks.flat_map(|block| block["reps"].as_array().into_iter().flatten());
        let mut lanes: Vec<(String, u64)> =
            reps.filter_map(|rep| Some((rep["group"].as_str()?.to_owned(), rep["lane"].as_u64()?))).collect();
        lanes.sort();
        lanes.dedup();
        lanes
    };
    let own = |lanes: &[(&str, u64)]| -> Vec<(String, u64)> {
        lanes.iter().map(|(group, lane)| ((*group).to_owned(), *lane)).collect()
    };
    let three = "Group A: 6 x 200\nGroup B: 4 x 300\nGroup C: 4 x 60";
    assert_eq!(lanes(three), own(&[("Group A", 1), ("Group B", 2), ("Group C", 3)]));
    // Lanes that others name are theirs; those that the session gives are shared.
    let named = "Group A: 6 x 200\nGroup B: 4 x 300 in lane 1\nGroup C: 4 x 60";
    assert_eq!(lanes(named), own(&[("Group A", 2), ("Group B", 1), ("Group C", 3)]));
    let given = format!("Tuesday, lanes 5-7\n{three}");
    assert_eq!(lanes(&given), own(&[("Group A", 5), ("Group B", 6), ("Group C", 7)]));
    // Where there are fewer lanes than groups, two share one.
    let given = format!("Tuesday, lanes 5-6\n{three}");
    assert_eq!(lanes(&given), own(&[("Group A", 5), ("Group B", 6), ("Group C", 5)]));
    // A squad with names keeps out of the lane of those without.
    let mixed = lanes("Group A (Ada, Ben): 6 x 200\nGroup B: 4 x 300");
    assert!(
        mixed.contains(&("Group B".to_owned(), 1)) && !mixed.contains(&("Group A".to_owned(), 1)),
        "{mixed:?}"
    );
}

#[test]
fn who_is_alone_in_a_group_keeps_a_lane() {
    let folder =
        Folder::with("evening.txt", "Tuesday 6pm\nSprints (Ada, Ben): 4 x 150\nDistance (Cyd): 4 x 300");
    let plan = folder.json(&["plan", "evening.txt"]);
    let reps = plan["blocks"].as_array().expect("there are blocks").iter();
    let reps = reps.flat_map(|block| block["reps"].as_array().into_iter().flatten());
    let lanes = |name: &str| -> std::collections::BTreeSet<u64> {
        let own = reps.clone().filter(|rep| rep["athletes"][0] == name);
        own.filter_map(|rep| rep["lane"].as_u64()).collect()
    };
    assert_eq!(lanes("Cyd").len(), 1);
    // Two of a group turn through its lanes.
    assert!(lanes("Ada").len() > 1);
}

#[test]
fn the_other_choice_is_in_a_lane_of_those_who_have_it() {
    let folder = Folder::with(
        "session.yaml",
        "title: Two
groups:
  - name: milers
    athletes: [Ada, Ben]
    blocks: [\"2 x 350 in lanes 2,3 rest 5min\"]
  - name: sprinters
    athletes: [Cyd, Dan]
    blocks: [\"2 x 350 rest 5min\"]
",
    );
    let plan = folder.json(&["plan", "session.yaml"]);
    for block in plan["blocks"].as_array().expect("there is a list") {
        let reps = block["reps"].as_array().expect("there is a list");
        let findings = block["findings"].as_array().expect("there is a list");
        let other = findings.iter().find(|finding| finding["kind"] == "other choice").expect("there is one");
        assert!(reps.iter().any(|rep| rep["lane"] == other["lane"]), "{other}");
    }
}

//! Targets of athletes: how a pack that is not of one speed is shown, and what is questioned.

use serde_json::Value;
use snapbox::str;

use crate::answer::parsed;
use crate::folder::Folder;
use crate::run::toeline;

#[test]
fn a_pack_that_is_not_of_one_speed_has_splits_for_each() {
    let text = "\
title: Pack
groups:
  - name: g
    athletes: [{ name: Ada, targets: { 800: 2:40 } }, { name: Ben, targets: { 800: 2:48 } }]
squad: { mode: a group to a lane }
blocks: [800 in lane 2]
";
    let folder = Folder::with("pack.yaml", text);
    folder.toeline(&["plan", "--full", "pack.yaml"]).assert().success().stdout_eq(str![[r#"
Pack
Track: standard
Lasts 2:48

Block 1, g: 800 m in lane 2
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane     Metres   Stand                              Finish
════════════════════════════════════════════════════════════════════════════════
 1      2      800 ±0.1   cone 1: 3.75 m past the later      on the finish line
                          4x400 m takeover zone exit line
                          along the inner line
────────────────────────────────────────────────────────────────────────────────
Total 800 m for each athlete.

Who goes when
────────────────────────────────────────────────────────
 Go    Rep   Wave   Lane: who     From     In at
════════════════════════════════════════════════════════
 0 s   1     1      2: Ada, Ben   cone 1   2:40 to 2:48
────────────────────────────────────────────────────────
- Ada 2:40: lane 2
- Ben 2:48: lane 2
- Splits of 800 m for Ada in 2:40: 100 m 20 s, 200 m 40 s, 300 m 1:00, 400 m
  1:20, 500 m 1:40, 600 m 2:00, 700 m 2:20
- Splits of 800 m for Ben in 2:48: 100 m 21 s, 200 m 42 s, 300 m 1:03, 400 m
  1:24, 500 m 1:45, 600 m 2:06, 700 m 2:27
- Coach: outside lane 8, level with the finish line.
! 2 together in lane 2, 3 min.

Setting out: one lap from the finish line
────────────────────────────────────────────────────────────────────────────────
 Cone   Lane   Where                                          Steps   For
════════════════════════════════════════════════════════════════════════════════
    1   2      3.75 m past the later 4x400 m takeover zone    5       800 start
               exit line along the inner line
────────────────────────────────────────────────────────────────────────────────
1 cone, 407 m, 5 min without taping.
1 step is 0.75 m.

[CAUTIONS]

"#]]);
    let csv = folder.toeline(&["plan", "--full", "pack.yaml", "--format", "csv"]).assert().success();
    let csv = String::from_utf8_lossy(&csv.get_output().stdout).into_owned();
    assert!(csv.contains("Ada: 100 m 20 s; 200 m 40 s;") && csv.contains("; Ben: 100 m 21 s;"), "{csv}");
    let rep = &folder.json(&["plan", "pack.yaml"])["blocks"][0]["reps"][0];
    assert_eq!(rep["own_times"][1]["athlete"], "Ben");
    assert_eq!(rep["own_times"][1]["splits"].as_array().map(Vec::is_empty), Some(false));
    folder.toeline(&["plan", "--full", "pack.yaml", "--out", "pack.html"]).assert().success();
    assert!(folder.read("pack.html").contains("200 m: Ada 40 s, Ben 42 s"), "the page names both");
}

#[test]
fn what_makes_no_sense_is_questioned() {
    let session = |athlete: &str, block: &str| {
        format!("title: t\ngroups:\n  - name: g\n    athletes: [{athlete}]\nblocks:\n  - {block}\n")
    };
    let folder = Folder::new();
    let check = |athlete: &str, block: &str, error| {
        folder.write("t.yaml", session(athlete, block));
        folder.toeline(&["plan", "t.yaml"]).assert().code(2).stdout_eq("").stderr_eq(error);
    };
    check(
        "{ name: Ada, targets: { 1000: 30 } }",
        "2 x 1000 rest 3min",
        str![[r#"
error: 1000 m in 30 s for Ada is faster than anybody has ever run
 --> t.yaml:6:9
  |
6 |   - 2 x 1000 rest 3min
  |         ^^^^
  |
help: check the distance and the time; to plan it all the same, use `--force`, or `force: true` in a session file

"#]],
    );
    check(
        "{ name: Ada, targets: { 200: 30min } }",
        "2 x 200 rest 3min",
        str![[r#"
error: 200 m in 30:00 is slower than walking
 --> t.yaml:4:45
  |
4 |     athletes: [{ name: Ada, targets: { 200: 30min } }]
  |                                             ^^^^^
  |
help: write the distance and its time, for example `targets: { 200: 30, 1000: 3:20 }`

"#]],
    );
    check(
        "{ name: Ada, targets: { hill: 30 } }",
        "2 x 200 rest 3min",
        str![[r#"
error: `hill` is not the distance of a race
 --> t.yaml:4:40
  |
4 |     athletes: [{ name: Ada, targets: { hill: 30 } }]
  |                                        ^^^^
  |
help: write for example `800`, `5k` or `mile`

"#]],
    );
    check(
        "{ name: Ada, targets: { 200: fast } }",
        "2 x 200 rest 3min",
        str![[r#"
error: expected a time, found `fast`
 --> t.yaml:4:45
  |
4 |     athletes: [{ name: Ada, targets: { 200: fast } }]
  |                                             ^^^^
  |
help: write for example `48`, `48s` or `1:12`

"#]],
    );
    check(
        "{ name: Ada, target: 75 }",
        "4 x 400 every 70s",
        str![[r#"
error: a cycle of 1:10 is shorter than Ada's run, which takes 1:15
 --> t.yaml:6:9
  |
6 |   - 4 x 400 every 70s
  |         ^^^
  |
help: write a longer cycle, or a rest; to plan it all the same, use `--force`, or `force: true` in a session file

"#]],
    );
    check(
        "Ada",
        "4 x 400 every 40s",
        str![[r#"
error: a cycle of 40 s is shorter than anybody has ever needed for the run
 --> t.yaml:6:9
  |
6 |   - 4 x 400 every 40s
  |         ^^^
  |
help: write a longer cycle, or a rest; to plan it all the same, use `--force`, or `force: true` in a session file

"#]],
    );
}

#[test]
fn a_question_can_be_answered_by_force() {
    toeline(&["plan", "6 x 200 in lane 2 @ 15 rest 2min"]).assert().code(2).stderr_eq(str![[r#"
error: 200 m in 15 s is faster than anybody has ever run
 --> workout:1:19
  |
1 | 6 x 200 in lane 2 @ 15 rest 2min
  |                   ^^^^
  |
help: check the distance and the time; to plan it all the same, use `--force`, or `force: true` in a session file

"#]]);
    for (workout, target_s) in
        [("6 x 200 in lane 2 @ 15 rest 2min", 15.0), ("4 x 400 in lane 2 @ 75 every 70s", 75.0)]
    {
        toeline(&["plan", workout]).assert().code(2);
        let json = parsed(&toeline(&["plan", workout, "--force", "--format", "json"]).assert());
        assert_eq!(json["blocks"][0]["reps"][0]["target_s"], target_s);
    }
    let folder = Folder::with("t.yaml", "title: t\nforce: true\nblocks: [200 in lane 2 @ 15]\n");
    folder.toeline(&["plan", "t.yaml"]).assert().success();
    folder.write("t.yaml", "title: t\nforce: perhaps\nblocks: [200 in lane 2]\n");
    folder.toeline(&["plan", "t.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: `perhaps` is not a valid `force`
 --> t.yaml:2:8
  |
2 | force: perhaps
  |        ^^^^^^^
  |
help: write one of `true`, `false`

"#]]);
}

#[test]
fn a_pace_that_gives_some_of_a_squad_no_target_says_why() {
    let session = |bests: &str| {
        format!(
            "{{ title: t, groups: [{{ name: g, athletes: [{{ name: Ada{bests} }}, Bela, 3] }}], \
             blocks: [2 x 400 @ 1500 pace rest 3min in lanes 2-4] }}"
        )
    };
    let remarks = |bests: &str| {
        let plan = Folder::with("s.yaml", session(bests)).json(&["plan", "s.yaml"]);
        plan["blocks"][0]["remarks"].to_string()
    };
    let some = remarks(", bests: { 1500: 4:40 }");
    assert!(
        some.contains(
            "No target for Bela and no. 3 @ 1500 pace: no best is known for 1500 m; add one, as `Bests: 400 56` in a \
             text or `bests: { 400: 56 }` in a session file."
        ),
        "{some}"
    );
    assert!(some.contains("\"Go times are about right only.\""), "{some}");
    let all = remarks("");
    assert!(all.contains("No target @ 1500 pace: no best is known for 1500 m"), "{all}");
}

#[test]
fn those_of_a_pack_with_one_target_share_their_splits() {
    let text = "{ title: t, squad: { mode: a group to a lane }, groups: [{ name: g, athletes: [{ name: Ada, target: 2:40 }, \
                { name: Ben, target: 2:48 }, { name: 3, target: 2:48 }] }], blocks: [2 laps in lane 2 rest 3min] }";
    let folder = Folder::with("s.yaml", text);
    let said = crate::answer::printed(&folder.toeline(&["plan", "s.yaml"]).assert().success());
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Splits of 814.08 m for Ada in 2:40: 100 m"), "{said}");
    assert!(said.contains("Splits of 814.08 m for Ben and no. 3 in 2:48: 100 m"), "{said}");
    assert_eq!(said.matches("Splits of").count(), 2, "{said}");
}

#[test]
fn only_the_lanes_that_a_squad_runs_in_are_said_of_its_waves() {
    let text = "{ title: t, groups: [{ name: g, athletes: [Ada, Ben, Cy, { name: Di, guide: Em }] }], \
                squad: { lanes: keep, most: 2 }, blocks: [2 x 60 in lanes 4-8 @ 9 rest 2min] }";
    let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml"]);
    let remarks = plan["blocks"][0]["remarks"].to_string();
    assert!(remarks.contains("2 waves of 2 in lanes 4 to 6"), "{remarks}");
}

#[test]
fn best_times_in_a_text_give_targets_and_stand_in_its_session_file() {
    let text =
        "Thursday 6.15pm\nBests: Bo 400 60, 5k 18:20\nSprints (Ada 400 56, Bo)\n2 x 400 @ 80%, 8 min\n";
    let folder = Folder::with("t.txt", text);
    let plan = folder.json(&["plan", "t.txt"]);
    let targets = |plan: &Value| -> Vec<(String, f64)> {
        let reps = plan["blocks"][0]["reps"].as_array().expect("it has runs").iter();
        let of = |rep: &Value| {
            let name = rep["athletes"][0].as_str().unwrap_or_default().to_owned();
            (name, rep["target_s"].as_f64().unwrap_or_default())
        };
        reps.map(of).collect()
    };
    // The percentage is of the speed: 56 s / 0.8 and 60 s / 0.8.
    let all = targets(&plan);
    assert!(!all.is_empty());
    for (name, target_s) in &all {
        let expected = if name == "Ada" { 70.0 } else { 75.0 };
        assert!((target_s - expected).abs() < 1e-9, "{all:?}");
    }
    folder.toeline(&["session", "t.txt", "--out", "s.yaml"]).assert().success();
    assert_eq!(targets(&folder.json(&["plan", "s.yaml"])), all);
}

#[test]
fn one_target_of_a_squad_that_its_block_does_not_say_stands_with_the_places() {
    let folder = Folder::with("t.txt", "Juniors (Al, Bo, Cy):\n4 x 200 @ 800 pace, 3 min\nBests: 800 2:40\n");
    let shown = folder.toeline(&["plan", "t.txt"]).assert().success();
    let shown = String::from_utf8_lossy(&shown.get_output().stdout).into_owned();
    // A quarter of 2:40.
    assert!(shown.contains("finish line  40 s\n"), "{shown}");
    // What the block says stands nowhere else.
    let said = Folder::with("t.txt", "Juniors (Al, Bo, Cy):\n4 x 200 @ 40, 3 min\n");
    let shown = said.toeline(&["plan", "t.txt"]).assert().success();
    let shown = String::from_utf8_lossy(&shown.get_output().stdout).into_owned();
    assert_eq!(shown.matches("40 s").count(), 1, "{shown}");
}

#[test]
fn athletes_with_their_own_targets_have_them_beside_their_names_whatever_else_they_run() {
    let text = "Monday 6pm\nMilers (Hal 1500 4:00, Ivy 1500 5:00):\n2 x (1200 + 400) @ 1500 pace, 3 min / 6 min\n\
                Ivy 10 min late";
    let shown = Folder::with("t.txt", text).toeline(&["plan", "t.txt"]).assert().success();
    let shown = String::from_utf8_lossy(&shown.get_output().stdout).into_owned();
    // 4:00 and 5:00 are 64 s and 80 s a lap; who runs alone has one target, which stands with the place.
    assert!(shown.contains("3:12") && shown.contains("1:04"), "{shown}");
    assert!(shown.contains("4:00") && shown.contains("1:20"), "{shown}");
    let together = Folder::with("t.txt", text.replace("\nIvy 10 min late", ""));
    let shown = together.toeline(&["plan", "t.txt"]).assert().success();
    let shown = String::from_utf8_lossy(&shown.get_output().stdout).into_owned();
    // The names go on in the next line of their column.
    assert!(shown.contains("Hal 3:12/1:04, Ivy ") && shown.contains("\n          4:00/1:20 "), "{shown}");
}

#[test]
fn those_of_one_group_who_come_late_at_one_time_run_together() {
    let text = "Monday 6pm\nMilers (Hal, Ivy, Jo, Kit, Lou):\n4 x 400 @ 80, 2 min\nIvy & Kit 10 min late, Lou from 6.20";
    let folder = Folder::with("t.txt", text);
    folder.toeline(&["session", "t.txt", "--out", "s.yaml"]).assert().success();
    let file = folder.read("s.yaml");
    assert!(file.contains("- name: Ivy and Kit\n    start: 18:10\n    athletes: [Ivy, Kit]"), "{file}");
    assert!(file.contains("- name: Lou\n    start: 18:20\n    athletes: [Lou]"), "{file}");
    assert_eq!(folder.json(&["plan", "s.yaml"])["blocks"].as_array().map(Vec::len), Some(3));
}

//! Texts that name groups in front of what they do, in its line.

use crate::answer::{json, list};
use crate::console::{answered, refused};
use crate::folder::Folder;
use serde_json::Value;
use snapbox::str;

#[test]
fn names_in_front_of_runs_are_groups() {
    answered(str![[r##"
# each in a line of its own
$ cat notes.txt
WU 10 min
U13s: 4 x 150, walk back
U15s: 5 x 150, walk back
CD
$ toeline session notes.txt
title: notes
before_groups:
  - WU 10 min
groups:
  - name: U13s
    blocks:
      - 4 x 150 walk back
  - name: U15s
    blocks:
      - 5 x 150 walk back
after_groups:
  - CD

# in one line, with a rest behind them
$ toeline session 'Girls: 4 x 200, boys 5 x 200, 2 min rest'
title: "Girls: 4 x 200, boys 5 x 200, 2 min rest"
groups:
  - name: Girls
    blocks:
      - 4 x 200 rest 2:00
  - name: boys
    blocks:
      - 5 x 200 rest 2:00

"##]]);
    let plan = json(&["plan", "Girls: 4 x 200, boys 5 x 200, 2 min rest"]);
    let groups: Vec<&Value> = list(&plan["blocks"]).iter().map(|block| &block["reps"][0]["group"]).collect();
    assert_eq!(groups, ["Girls", "boys"]);
}

#[test]
fn a_group_behind_runs_of_nobody_is_refused() {
    refused(str![[r#"
# whoever does the first runs is not said
$ toeline plan '6 x 200, girls: 4 x 200'
error: `girls` are another group
 --> workout:1:10
  |
1 | 6 x 200, girls: 4 x 200
  |          ^^^^^
  |
help: write each group on its own line, with its name in front

"#]]);
}

#[test]
fn who_is_named_in_a_heading_is_in_its_group_or_left_out() {
    answered(str![[r#"
# names behind a colon or in brackets, whatever stands below; who is out is left out
$ cat notes.txt
Tuesday 18:30
All: 800 easy
Sprints: Ann, Bob, Max
Drills
4 x 60, 3 min
Endurance (Eve, Flo)
Ladder 200-400-200, 90s
Max missing tonight
$ toeline plan notes.txt
Tuesday
Track: standard. 18:30 to about 18:48. Distances assume the measure line.

Block 1, all groups: 800 m easy
Block 2, Sprints: Drills, from about 18:38
! Max is left out.
! No time is allowed for it; write how long it takes, for example `Drills 10
  min`.
Block 3, Sprints: 4 × 60 m, 3 min rest
Block 4, Endurance: Ladder: (200 m, 400 m, 200 m), 90 s rest
! Lane 1: 1:30 rest is too short to walk 200 m to the next start, which takes
  2:23; rest 2:25, change ends, or jog.

Who goes when
Go         Sprints                         Endurance
~18:30:00  1, lane 1: Ann, Bob             1, lane 1: Eve, Flo
~18:38:52  3, lanes 5–8 in turn: Ann, Bob
           every 3:09 to ~18:48:19
~18:39:02                                  4, lanes 1–4 in turn: Eve, Flo
                                           then 400 m ~18:41:04, 200 m ~18:43:49

Block  Reps  Lane  Metres  Stand             Finish
1      1     1     800     400 m start line  finish line
3      1–4   5–8   60      60 m start line   finish line
4      1     1–2   200     200 m start line  finish line
       2     2–3   400     400 m start line  finish line
       3     3–4   200     200 m start line  finish line

- Allows 5 min between blocks, as no break is given.
- Start by arm, not by whistle: sound takes 0.4 s to the 200 m start.

No cones: paint shows every place.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]]);
    let text = "All: 2 miles easy\nMilers (Uma, Vic):\n5 x 1000\nSprints (Xan, Yve):\n6 x 60";
    let plan = json(&["plan", text]);
    let rep = &plan["blocks"][0]["reps"][0];
    assert_eq!((&rep["group"], &rep["groups"]), (&Value::Null, &serde_json::json!(["Milers", "Sprints"])));
    let folder = Folder::new();
    folder.write("notes.txt", text);
    folder.toeline(&["session", "notes.txt", "--out", "week.yaml"]).assert().success();
    let week = folder.json(&["week", "week.yaml"]);
    let metres: Vec<f64> =
        list(&week["entries"]).iter().filter_map(|entry| entry["load"]["metres"].as_f64()).collect();
    assert_eq!(metres, [2.0 * 1609.344 + 5000.0, 2.0 * 1609.344 + 360.0]);
}

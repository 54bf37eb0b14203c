//! Lanes that are closed for a part of the evening: blocks that are over before are run there, the others are not.

use std::collections::BTreeSet;

use serde_json::Value;
use snapbox::str;

use crate::answer::printed;
use crate::console::{answered, refused};
use crate::folder::Folder;

/// An evening whose second block begins long after 18:30.
const TUESDAY: &str = "Tuesday 18:00-19:30\nSprints: Ada, Ben\n4 x 150 in lanes 3-4 @ 20, 2 min\ntalk 30 min\n\
                       4 x 150 in lanes 3-4 @ 20, 2 min\n";

/// The lanes in which each block is run.
fn lanes(plan: &Value) -> Vec<BTreeSet<u64>> {
    let blocks = plan["blocks"].as_array().expect("a list");
    let lanes = |block: &Value| {
        block["reps"].as_array().into_iter().flatten().filter_map(|rep| rep["lane"].as_u64()).collect()
    };
    blocks.iter().map(lanes).filter(|lanes: &BTreeSet<u64>| !lanes.is_empty()).collect()
}

#[test]
fn only_what_is_run_while_it_is_closed_moves() {
    let folder = Folder::with("e.txt", TUESDAY);
    for (said, expected) in [
        ("4=18:30", [[3, 4], [3, 5]]),
        ("4=-18:20", [[3, 5], [3, 4]]),
        ("4=18:30-19:30", [[3, 4], [3, 5]]),
        ("4 from 18:30", [[3, 4], [3, 5]]),
        ("4 until 18:20", [[3, 5], [3, 4]]),
        ("4=19:15", [[3, 4], [3, 4]]),
        // Evenings run late: five minutes are to spare.
        ("4=18:12", [[3, 5], [3, 5]]),
    ] {
        let plan = folder.json(&["plan", "e.txt", "--closed", said]);
        assert_eq!(lanes(&plan), expected.map(BTreeSet::from), "{said}");
        assert_eq!(plan["track"]["closed_lanes"].as_array().map(Vec::len), Some(0), "{said}");
    }
}

#[test]
fn a_text_and_its_session_file_say_the_same() {
    let folder = Folder::with(
        "e.txt",
        format!("{TUESDAY}Juniors: Cyd, Dot\n4 x 100, 2 min\n").replacen(
            "\n",
            "\nLane 4 shut from 6.30\n",
            1,
        ),
    );
    let plan = folder.json(&["plan", "e.txt"]);
    assert_eq!(plan["changes"][0]["from"], "18:30:00", "{}", plan["changes"]);
    folder.toeline(&["session", "e.txt", "--out", "e.yaml"]).assert().success();
    assert!(folder.read("e.yaml").contains("lane_closures:\n  - { lanes: [4], from: 18:30 }\n"));
    let again = folder.json(&["plan", "e.yaml"]);
    assert_eq!(lanes(&plan), lanes(&again));
    let told = printed(&folder.toeline(&["plan", "e.yaml"]).assert().success());
    assert!(told.starts_with("Changed: lane 4 closed from 18:30 (4 x 150"), "{told}");
}

#[test]
fn what_cannot_be_is_said() {
    answered(str![[r#"
# of one workout, from the time that it starts
$ toeline plan '6 x 200, 3 min' --start 18:00 --closed 1=18:05
Changed: start at 18:00; lane 1 closed from 18:05.

6 × 200 m, 3 min rest
Track: standard. 18:00 to about 18:18. Distances assume the measure line.

Reps  Lane  Metres  Stand             Finish
1–6   2     200     200 m start line  finish line
Go at ~18:00:00, every 3:32 to ~18:17:40.
- 6 x 200, 3 min: no lane named, so lane 2, the innermost open.
- Coach: outside lane 8, level with the finish line.

No cones: paint shows every place.

Look both ways; mind throws and jumps; venue rules come first. More: --full

"#]]);
    refused(str![[r#"
# nobody knows when it begins
$ toeline plan '6 x 200' --closed 3=18:45
error: --closed: nothing says when the session starts, so lane 3 cannot close for a part of it; add `hours` to the session file, or write --start 18:00

# not a time of day
$ toeline plan '6 x 200' --start 18:00 --closed 3=soon
error: invalid value '3=soon' for '--closed <LANES[=TIME]>': `soon` is no time of day; write for example 3=18:45 or 3=18:45-19:15

For more information, try '--help'.

# no time at all
$ toeline plan '6 x 200' --start 18:00 --closed 3=
error: invalid value '3=' for '--closed <LANES[=TIME]>': write when as well, for example 3=18:45 or 3=18:45-19:15

For more information, try '--help'.

# backwards
$ toeline plan '6 x 200' --start 18:00 --closed 3=19:00-18:30
error: --closed: lanes cannot be closed from 19:00 until 18:30; write the earlier time first

# an answer that is not about an evening
$ toeline spots 200 --closed 3=18:45
error: --closed: this answer knows no time of day; write --closed 3

# not a lane of the track
$ toeline plan '6 x 200' --start 18:00 --closed 9=18:45
error: --closed: there is no lane 9 on the oval; open there: lanes 1 to 8

# in a session file
$ cat evening.yaml
title: Tuesday
hours: 18:00-19:30
lane_closures: [{ lanes: [3], from: 20:15 }]
blocks: [6 x 200]
$ toeline plan evening.yaml
error: 20:15 is outside the booking, 18:00-19:30; write a time within it
 --> evening.yaml:3:16
  |
3 | lane_closures: [{ lanes: [3], from: 20:15 }]
  |                ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^

"#]]);
}

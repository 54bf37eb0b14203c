//! Wrong input: a clear error, exit status 2, and nothing written.

use crate::console::refused;
use crate::folder::Folder;
use crate::run::toeline;
use serde_json::{Value, json};
use snapbox::str;

#[test]
fn workouts() {
    refused(str![[r#"
# a lane that is not there
$ toeline plan '6 x 200 in lane 9' --out plan.txt
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> workout:1:17
  |
1 | 6 x 200 in lane 9
  |                 ^
  |
help: use open lanes, for example lane 1

# a group that starts together needs each of its lanes
$ toeline plan '1500 in lanes 2-9 starting together' --out plan.txt
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> workout:1:15
  |
1 | 1500 in lanes 2-9 starting together
  |               ^^^
  |
help: use open lanes, for example lane 1

# a closed lane
$ toeline plan '200 in lane 1' --closed 1 --out plan.txt
error: lane 1 is closed; open on the oval: lanes 2 to 8
 --> workout:1:13
  |
1 | 200 in lane 1
  |             ^
  |
help: use open lanes, for example lane 2

# no repetitions
$ toeline plan '0 x 200' --out plan.txt
error: `0` is not a number of repetitions
 --> workout:1:1
  |
1 | 0 x 200
  | ^
  |
help: write a whole number from 1 to 500

# no distance
$ toeline plan '6 x' --out plan.txt
error: expected a distance, found the end of the text
 --> workout:1:4
  |
1 | 6 x
  |    ^
  |
help: write for example `6 x 200 in lane 2`

# a negative distance
$ toeline plan '6 x -200' --out plan.txt
error: a repetition of `-200` is out of range
 --> workout:1:5
  |
1 | 6 x -200
  |     ^^^^
  |
help: write a distance from 10 m to 10000 m

# too short a distance
$ toeline plan '5 x 5 m' --out plan.txt
error: a repetition of `5 m` is out of range
 --> workout:1:5
  |
1 | 5 x 5 m
  |     ^^^
  |
help: write a distance from 10 m to 10000 m

# a number too large to hold
$ toeline plan 1e400 --out plan.txt
error: a repetition of `1e400` is out of range
 --> workout:1:1
  |
1 | 1e400
  | ^^^^^
  |
help: write a distance from 10 m to 10000 m

# an empty workout
$ toeline plan '' --out plan.txt
error: the workout is empty
 --> workout:1:1
  |
1 |
  | ^
  |
help: write for example `6 x 200 in lane 2`

# two faults in one workout are both told
$ toeline plan '6 x 200 @ 1:75 in lane 0' --out plan.txt
error: expected seconds below 60 after the colon
 --> workout:1:11
  |
1 | 6 x 200 @ 1:75 in lane 0
  |           ^
  |
help: write for example `@ 48s`, `@ 1:12`, `@ 75/400`, `@ 90%` or `@ 800 pace`
error: `0` is not a lane
 --> workout:1:24
  |
1 | 6 x 200 @ 1:75 in lane 0
  |                        ^
  |
help: write a lane from 1 to 10, for example `in lane 2`

# an unknown track
$ toeline plan 200 --track standart --out plan.txt
error: there is no built-in track `standart`; write one of standard, standard-6, double-bend-1, double-bend-2, double-bend-3, indoor-200, oval-300, yards-440, or the name of a track file

# an unknown ending of the file to write
$ toeline plan 200 --out plan.docx
error: `plan.docx` is an unknown kind of file; write a name that ends in .txt, .json or .csv, or for plans in .pdf, .png, .html, .md, .ics or .svg

"#]]);
}

#[test]
fn files() {
    refused(str![[r##"
# a session file with an unknown key
$ cat s.yaml
title: Tuesday
date: 2027-04-13
block:
  - 6 x 200
$ toeline plan s.yaml
error: unknown key `block`
 --> s.yaml:3:1
  |
3 | block:
  | ^^^^^
  |
help: did you mean `blocks`?

# a key that is written one level too high
$ cat s.yaml
title: Tuesday
timers: each group
blocks:
  - 6 x 200
$ toeline plan s.yaml
error: unknown key `timers`
 --> s.yaml:2:1
  |
2 | timers: each group
  | ^^^^^^
  |
help: it belongs below `squad`: `squad: { timers: … }`

# a session file with faults in two blocks
$ cat s.yaml
title: Tuesday
blocks:
  - 6 x 200 in lain 2
  - "0 x 300"
$ toeline plan s.yaml
error: expected `lane` after `in`, found `lain`
 --> s.yaml:3:16
  |
3 |   - 6 x 200 in lain 2
  |                ^^^^
  |
help: write for example `in lane 2` or `in lanes 2-5`
error: `0` is not a number of repetitions
 --> s.yaml:4:6
  |
4 |   - "0 x 300"
  |      ^
  |
help: write a whole number from 1 to 500

# a session file that runs in a lane that its track closes
$ cat track.yaml
name: home
path:
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
lanes: 8
lane_width: 1.22
closed_lanes: [1]
marks: { sets: [standard] }
$ cat s.yaml
title: Tuesday
track: track.yaml
blocks:
  - 6 x 200 in lane 2
  - 3 x 300 in lane 1
$ toeline plan s.yaml
error: lane 1 is closed; open on the oval: lanes 2 to 8
 --> s.yaml:5:21
  |
5 |   - 3 x 300 in lane 1
  |                     ^
  |
help: use open lanes, for example lane 2

# places that get a cone by a word that is not known
$ cat s.yaml
title: Tuesday
cones: all
blocks:
  - 6 x 200 in lane 2
$ toeline plan s.yaml
error: `all` is not a valid `cones`
 --> s.yaml:2:8
  |
2 | cones: all
  |        ^^^
  |
help: write one of `off paint`, `every spot`

# a session file that closes every lane that it runs in
$ cat s.yaml
title: Tuesday
closed_lanes: [1, 2, 3, 4, 5, 6, 7, 8]
blocks:
  - 6 x 200 in lane 2
$ toeline plan s.yaml
error: no lane would be left open; leave at least one open
 --> s.yaml:2:15
  |
2 | closed_lanes: [1, 2, 3, 4, 5, 6, 7, 8]
  |               ^^^^^^^^^^^^^^^^^^^^^^^^

# a track whose path does not close
$ cat t.yaml
name: open
path:
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
  - { radius: 36.50, turn: 180 }
  - straight: 80
lanes: 6
lane_width: 1.22
$ toeline plan 200 --track t.yaml
error: the path does not close: after a whole lap it ends 4.390 m from where it began (-4.390 m along the home straight, +0.000 m across); the most allowed is 0.001 m
 --> t.yaml:3:3
  |
3 |   - { radius: 36.50, turn: 180 }
  |   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^

# a name that says nothing
$ cat session.yaml
title: ""
groups:
  - { name: " ", athletes: [Ada, ""] }
blocks:
  - 200 in lane 2
$ toeline plan session.yaml
error: the session's title is empty
 --> session.yaml:1:8
  |
1 | title: ""
  |        ^^
  |
help: write for example `title: Tuesday`
error: a group's name is empty
 --> session.yaml:3:13
  |
3 |   - { name: " ", athletes: [Ada, ""] }
  |             ^^^
  |
help: write for example `name: sprinters`
error: an athlete's name is empty
 --> session.yaml:3:34
  |
3 |   - { name: " ", athletes: [Ada, ""] }
  |                                  ^^
  |
help: write for example `Ada`, or a number such as `7`

# a year of five digits
$ cat session.yaml
title: Tuesday
date: +20270-04-13
blocks:
  - 200 in lane 2
$ toeline plan session.yaml
error: the year 20270 is out of range: 1900 to 9999
 --> session.yaml:2:7
  |
2 | date: +20270-04-13
  |       ^^^^^^^^^^^^
  |
help: write for example `date: 2027-04-13`

"##]]);
}

#[test]
fn a_file_that_is_not_utf_8_or_of_100_mb() {
    let folder = Folder::new();
    for (bytes, said) in [
        (&b"title: Tuesday\nblocks: [\xff]\n"[..], "not UTF-8 text: line 2, column 10; save it as UTF-8"),
        (&vec![b'#'; 100_000_000], "too large: at most 1048576 bytes"),
    ] {
        folder.write("s.yaml", bytes);
        let run = folder.toeline(&["plan", "s.yaml"]).assert().code(2);
        run.stdout_eq(str![]).stderr_eq(format!("error: `s.yaml` is {said}\n"));
        assert_eq!(folder.count(), 1, "a file was written: {said}");
    }
}

#[test]
fn a_note_that_says_nothing_is_left_out() {
    let session = "{ title: Tuesday, wind: \" \", notes: [\"\", spikes, \" \"], blocks: [200 in lane 2] }\n";
    let plan = Folder::with("session.yaml", session).json(&["plan", "session.yaml"]);
    assert_eq!((&plan["notes"], &plan["wind"]), (&json!(["spikes"]), &Value::Null));
}

#[test]
fn what_no_watch_could_show_is_not_a_target_even_if_forced() {
    for force in [&[][..], &["--force"]] {
        toeline(&[&["plan", "200 @ 0.001"], force].concat()).assert().code(2).stderr_eq(str![[r#"
error: 0.001 s is not a time for 200 m
 --> workout:1:5
  |
1 | 200 @ 0.001
  |     ^^^^^^^
  |
help: write for example `@ 32` or `@ 1:12`

"#]]);
    }
}

#[test]
fn numbers_that_mean_nobody_or_one_spot_for_all_are_refused() {
    refused(str![[r##"
# waves of nobody
$ cat evening.yaml
title: Evening
groups: [{ name: sprinters, athletes: [Ada, Ben] }]
squad: { most: 0 }
blocks: [6 x 200]
$ toeline plan evening.yaml
error: a number of athletes of 0 is out of range: 1 to 255
 --> evening.yaml:3:16
  |
3 | squad: { most: 0 }
  |                ^

# hurdles on one spot
$ cat track.yaml
name: Wrenbeck
path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.39 }]
lanes: 8
lane_width: 1.22
marks:
  own:
    - { name: "tick {n}", colour: red, form: tick, for: x, hurdles: { race: 400, first: 45, between: 0, count: 255 } }
$ toeline lanes --track track.yaml
error: 0 m is out of range for `between`: 1 to 10000 m
 --> track.yaml:7:102
  |
7 | ... { race: 400, first: 45, between: 0, count: 255 } }
  |                                      ^

# a lane that is not there, for a group that starts together
$ cat group.yaml
title: Group
groups: [{ name: all, athletes: [Ada, Ben], lanes: [9] }]
blocks: [1500 starting together]
$ cat squad.yaml
title: Squad
groups: [{ name: all, athletes: [Ada, Ben] }]
squad: { lanes: [9] }
blocks: [1500 starting together]
$ cat athlete.yaml
title: Athlete
groups: [{ name: all, athletes: [{ name: Ada, lanes: [9] }, Ben] }]
blocks: [1500 starting together]
$ toeline plan 1500 --athletes 9 --lanes 9
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> workout:1:1
  |
1 | 1500
  | ^^^^
  |
help: use open lanes, for example lane 1
$ toeline plan '1500 starting together' --athletes 9 --lanes 9
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> workout:1:1
  |
1 | 1500 starting together
  | ^^^^
  |
help: use open lanes, for example lane 1
$ toeline plan group.yaml
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> group.yaml:3:10
  |
3 | blocks: [1500 starting together]
  |          ^^^^
  |
help: use open lanes, for example lane 1
$ toeline plan squad.yaml
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> squad.yaml:4:10
  |
4 | blocks: [1500 starting together]
  |          ^^^^
  |
help: use open lanes, for example lane 1
$ toeline plan athlete.yaml
error: lanes of Ada: there is no lane 9 on the oval; open there: lanes 1 to 8
$ toeline plan '1500 in lanes 2-4 starting together' --athletes 9 --lanes 9
error: lanes of the squad: there is no lane 9 on the oval; open there: lanes 1 to 8

"##]]);
}

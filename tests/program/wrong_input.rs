//! Wrong input: a clear error, exit status 2, and nothing written.

use std::fs;

use crate::run::toeline;
use snapbox::{IntoData, str};

/// The program refuses the arguments with this on standard error, and writes nothing.
fn refused(arguments: &[&str], stderr: impl IntoData) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let out = folder.path().join("plan.txt");
    let out = out.to_str().expect("the path is UTF-8");
    let arguments = [arguments, &["--out", out]].concat();
    toeline(&arguments).assert().code(2).stdout_eq(str![]).stderr_eq(stderr);
    let left = fs::read_dir(folder.path()).expect("the folder is still there").count();
    assert_eq!(left, 0, "a file was written");
}

#[test]
fn a_lane_that_is_not_there() {
    refused(
        &["plan", "6 x 200 in lane 9"],
        str![[r#"
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> workout:1:17
  |
1 | 6 x 200 in lane 9
  |                 ^
  |
help: write for example `in lane 1`

"#]],
    );
}

#[test]
fn a_group_that_starts_together_needs_each_of_its_lanes() {
    refused(
        &["plan", "1500 in lanes 2-9 starting together"],
        str![[r#"
error: there is no lane 9 on the oval; open there: lanes 1 to 8
 --> workout:1:15
  |
1 | 1500 in lanes 2-9 starting together
  |               ^^^
  |
help: write for example `in lane 1`

"#]],
    );
}

#[test]
fn a_closed_lane() {
    refused(
        &["plan", "200 in lane 1", "--closed", "1"],
        str![[r#"
error: lane 1 is closed; open on the oval: lanes 2 to 8
 --> workout:1:13
  |
1 | 200 in lane 1
  |             ^
  |
help: write for example `in lane 2`

"#]],
    );
}

#[test]
fn no_repetitions() {
    refused(
        &["plan", "0 x 200"],
        str![[r#"
error: `0` is not a number of repetitions
 --> workout:1:1
  |
1 | 0 x 200
  | ^
  |
help: write a whole number from 1 to 500

"#]],
    );
}

#[test]
fn no_distance() {
    refused(
        &["plan", "6 x"],
        str![[r#"
error: expected a distance, found the end of the text
 --> workout:1:4
  |
1 | 6 x
  |    ^
  |
help: write for example `6 x 200 in lane 2`

"#]],
    );
}

#[test]
fn a_negative_distance() {
    refused(
        &["plan", "6 x -200"],
        str![[r#"
error: a repetition of `-200` is out of range
 --> workout:1:5
  |
1 | 6 x -200
  |     ^^^^
  |
help: write a distance from 10 m to 10000 m

"#]],
    );
}

#[test]
fn too_short_a_distance() {
    refused(
        &["plan", "5 x 5 m"],
        str![[r#"
error: a repetition of `5 m` is out of range
 --> workout:1:5
  |
1 | 5 x 5 m
  |     ^^^
  |
help: write a distance from 10 m to 10000 m

"#]],
    );
}

#[test]
fn a_number_too_large_to_hold() {
    refused(
        &["plan", "1e400"],
        str![[r#"
error: a repetition of `1e400` is out of range
 --> workout:1:1
  |
1 | 1e400
  | ^^^^^
  |
help: write a distance from 10 m to 10000 m

"#]],
    );
}

#[test]
fn an_empty_workout() {
    refused(
        &["plan", ""],
        str![[r#"
error: the workout is empty
 --> workout:1:1
  |
1 |
  | ^
  |
help: write for example `6 x 200 in lane 2`

"#]],
    );
}

#[test]
fn two_faults_in_one_workout_are_both_told() {
    refused(
        &["plan", "6 x 200 @ 1:75 in lane 0"],
        str![[r#"
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

"#]],
    );
}

#[test]
fn an_unknown_track() {
    refused(
        &["plan", "200", "--track", "standart"],
        str![[r#"
error: there is no built-in track `standart`; write one of standard, standard-6, double-bend-1, double-bend-2, double-bend-3, indoor-200, oval-300, yards-440, or the name of a track file

"#]],
    );
}

#[test]
fn an_unknown_ending_of_the_file_to_write() {
    toeline(&["plan", "200", "--out", "plan.docx"]).assert().code(2).stderr_eq(str![[r#"
error: `plan.docx` is an unknown kind of file; write a name that ends in .txt, .json or .csv, or for plans in .pdf, .png, .html, .md, .ics or .svg

"#]]);
}

/// A file with a fixed name, so that messages are the same everywhere, in a folder of its own.
fn refused_file(name: &str, bytes: &[u8], arguments: &[&str], stderr: impl IntoData) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    fs::write(folder.path().join(name), bytes).expect("the folder can be written");
    toeline(arguments).current_dir(folder.path()).assert().code(2).stdout_eq(str![]).stderr_eq(stderr);
    let left = fs::read_dir(folder.path()).expect("the folder is still there").count();
    assert_eq!(left, 1, "a file was written");
}

#[test]
fn a_session_file_with_an_unknown_key() {
    let text = "title: Tuesday\ndate: 2027-04-13\nblock:\n  - 6 x 200\n";
    refused_file(
        "s.yaml",
        text.as_bytes(),
        &["plan", "s.yaml"],
        str![[r#"
error: unknown key `block`
 --> s.yaml:3:1
  |
3 | block:
  | ^^^^^
  |
help: did you mean `blocks`?

"#]],
    );
}

#[test]
fn a_session_file_with_faults_in_two_blocks() {
    let text = "title: Tuesday\nblocks:\n  - 6 x 200 in lain 2\n  - \"0 x 300\"\n";
    refused_file(
        "s.yaml",
        text.as_bytes(),
        &["plan", "s.yaml"],
        str![[r#"
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

"#]],
    );
}

#[test]
fn a_session_file_that_runs_in_a_closed_lane() {
    let text = "title: Tuesday\nclosed_lanes: [1]\nblocks:\n  - 6 x 200 in lane 2\n  - 3 x 300 in lane 1\n";
    refused_file(
        "s.yaml",
        text.as_bytes(),
        &["plan", "s.yaml"],
        str![[r#"
error: lane 1 is closed; open on the oval: lanes 2 to 8
 --> s.yaml:5:21
  |
5 |   - 3 x 300 in lane 1
  |                     ^
  |
help: write for example `in lane 2`

"#]],
    );
}

#[test]
fn a_track_whose_path_does_not_close() {
    let text = "name: open\npath:\n  - { radius: 36.50, turn: 180 }\n  - straight: 84.39\n  - { radius: 36.50, turn: 180 }\n  - straight: 80\nlanes: 6\nlane_width: 1.22\n";
    refused_file(
        "t.yaml",
        text.as_bytes(),
        &["plan", "200", "--track", "t.yaml"],
        str![[r#"
error: the path does not close: after a whole lap it ends 4.390 m from where it began (-4.390 m along the home straight, +0.000 m across); the most allowed is 0.001 m
 --> t.yaml:3:3
  |
3 |   - { radius: 36.50, turn: 180 }
  |   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^

"#]],
    );
}

#[test]
fn a_file_that_is_not_utf_8() {
    refused_file(
        "s.yaml",
        b"title: Tuesday\nblocks: [\xff]\n",
        &["plan", "s.yaml"],
        str![[r#"
error: `s.yaml` is not UTF-8 text: line 2, column 10; save it as UTF-8

"#]],
    );
}

#[test]
fn a_file_of_100_mb_is_refused_by_its_size() {
    refused_file(
        "s.yaml",
        &vec![b'#'; 100_000_000],
        &["plan", "s.yaml"],
        str![[r#"
error: `s.yaml` is too large: at most 1048576 bytes

"#]],
    );
}

#[test]
fn a_name_that_says_nothing() {
    refused_file(
        "session.yaml",
        b"title: \"\"\ngroups:\n  - { name: \" \", athletes: [Ada, \"\"] }\nblocks:\n  - 200 in lane 2\n",
        &["plan", "session.yaml"],
        str![[r#"
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

"#]],
    );
}

#[test]
fn a_note_that_says_nothing_is_left_out() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    fs::write(
        folder.path().join("session.yaml"),
        "{ title: Tuesday, wind: \" \", notes: [\"\", spikes, \" \"], blocks: [200 in lane 2] }\n",
    )
    .expect("the folder can be written");
    let shown = toeline(&["plan", "session.yaml", "--format", "json"]).current_dir(folder.path()).assert();
    let plan: serde_json::Value =
        serde_json::from_slice(&shown.success().get_output().stdout).expect("it is one JSON value");
    assert_eq!(plan["notes"], serde_json::json!(["spikes"]));
    assert_eq!(plan["wind"], serde_json::Value::Null);
}

#[test]
fn a_year_of_five_digits() {
    refused_file(
        "session.yaml",
        b"title: Tuesday\ndate: +20270-04-13\nblocks:\n  - 200 in lane 2\n",
        &["plan", "session.yaml"],
        str![[r#"
error: the year 20270 is out of range: 1900 to 9999
 --> session.yaml:2:7
  |
2 | date: +20270-04-13
  |       ^^^^^^^^^^^^
  |
help: write for example `date: 2027-04-13`

"#]],
    );
}

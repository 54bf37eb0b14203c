//! `toeline check`: every fault of a file is named in one run, with its place, and no other.
//!
//! `tests/broken-tracks/expected.txt` lists the faults of each file beside it: file, line, column and how
//! the message begins.

use std::collections::BTreeMap;
use std::fs;

use crate::answer::told;
use crate::console::answered;
use crate::folder::Folder;
use crate::run::toeline;
use snapbox::str;

const EXPECTED: &str = include_str!("../broken-tracks/expected.txt");

const FOLDER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/broken-tracks");

/// What is said of a file: `line:column: message` of each fault.
fn faults_of(file: &str) -> Vec<String> {
    let output = toeline(&["check", file]).current_dir(FOLDER).assert().code(2).stdout_eq(str![]);
    let stderr = told(&output);
    let mut faults = Vec::new();
    let mut message = None;
    for line in stderr.lines() {
        if let Some(sentence) = line.strip_prefix("error: ") {
            assert_eq!(message.replace(sentence.to_owned()), None, "a fault of {file} has no place");
        } else if let Some(place) = line.trim_start().strip_prefix(&format!("--> {file}:")) {
            let message = message.take().unwrap_or_else(|| panic!("a place without a fault: {stderr}"));
            faults.push(format!("{place}: {message}"));
        }
    }
    assert_eq!(message, None, "a fault of {file} has no place");
    faults
}

/// The faults that each file is to have, in the order of the text.
fn expected() -> BTreeMap<&'static str, Vec<&'static str>> {
    let mut files: BTreeMap<_, Vec<_>> = BTreeMap::new();
    for line in EXPECTED.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let (file, fault) = line.split_once(':').unwrap_or_else(|| panic!("no place: {line}"));
        files.entry(file).or_default().push(fault);
    }
    files
}

#[test]
fn every_broken_track_has_exactly_the_faults_that_are_listed() {
    let mut wrong = Vec::new();
    for (file, faults) in expected() {
        let told = faults_of(file);
        let is_right = told.len() == faults.len()
            && told.iter().zip(&faults).all(|(told, beginning)| told.starts_with(beginning));
        if !is_right {
            wrong.push(format!(
                "{file} is to have\n  {}\nand has\n  {}",
                faults.join("\n  "),
                told.join("\n  ")
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_broken_track_is_listed_and_there_are_thirty_at_least() {
    let files = fs::read_dir(FOLDER).expect("the folder is there").map(|entry| {
        let name = entry.expect("it can be listed").file_name();
        name.into_string().expect("names are text")
    });
    let mut files: Vec<String> = files.filter(|name| name.ends_with(".yaml")).collect();
    files.sort_unstable();
    let expected = expected();
    assert_eq!(files, expected.keys().copied().collect::<Vec<_>>());
    assert!(files.len() >= 30, "only {} files", files.len());
}

/// A file of a coach is read with a coach's eyes: no words of the program's inside.
#[test]
fn no_message_speaks_of_the_programs_inside() {
    for file in expected().into_keys() {
        let stderr = told(&toeline(&["check", file]).current_dir(FOLDER).assert().code(2));
        for word in
            ["struct ", "enum ", "variant", "u8", "f64", "serde", " field", " sequence", "Some(", "None"]
        {
            let is_said = stderr.lines().any(|line| {
                (line.starts_with("error: ") || line.starts_with("help: ")) && line.contains(word)
            });
            assert!(!is_said, "{file}: `{word}` in {stderr}");
        }
    }
}

#[test]
fn several_files_are_all_checked() {
    let files = ["sessions/wrenbeck/track.yaml", "tests/broken-tracks/06-no-path.yaml"];
    toeline(&["check", files[0], files[1]])
        .assert()
        .code(2)
        .stdout_eq(str![[r#"
sessions/wrenbeck/track.yaml: no faults; a track with 6 lanes on the oval

"#]])
        .stderr_eq(str![[r#"
error: the key `path` is missing
 --> tests/broken-tracks/06-no-path.yaml:1:1
  |
1 | name: No path
  | ^^^^^^^^^^^^^
  |
help: add `path:` with a list of its pieces, such as `- straight: 84.39`
error: a lane width of 0.2 m is out of range: 0.5 m to 3 m
 --> tests/broken-tracks/06-no-path.yaml:3:13
  |
3 | lane_width: 0.2
  |             ^^^

"#]]);
}

#[test]
fn a_file_that_is_not_there_weighs_more_than_one_that_is_wrong() {
    let files = ["tests/broken-tracks/06-no-path.yaml", "no-such-file.yaml"];
    toeline(&["check", files[0], files[1]]).assert().code(1);
}

#[test]
fn more_lanes_than_can_be_counted() {
    let folder = Folder::new();
    let path = "[{radius: 36.5, turn: 180}, {straight: 84.39}, {radius: 36.5, turn: 180}, {straight: 84.39}]";
    let widths = "1.22, ".repeat(255);
    folder.write("widths.yaml", format!("name: Wide\npath: {path}\nlanes: 8\nlane_width: [{widths}]\n"));
    folder.write("session.yaml", "title: Group\nblocks: [1500 in lanes 2-9 starting together]\n");
    for (file, said) in [
        ("widths.yaml", "error: 255 lane widths are given for 8 lanes"),
        ("session.yaml", "error: there is no lane 9 on the oval"),
    ] {
        let stderr = told(&folder.toeline(&["check", file]).assert().code(2));
        assert!(stderr.starts_with(said), "{stderr}");
    }
}

#[test]
fn what_could_be_read_in_another_way_is_told_of_a_file_without_faults() {
    answered(str![[r#"
# a file without a fault
$ cat notes.txt
Tues 6.30
6 x 400, 90s, no gimmicks
4 x 75mH
$ toeline check notes.txt
notes.txt: no faults; a session of 2 blocks with 10 runs
  block 1, 6 x 400, 90s, no gimmicks: Or 90 s could be the time of each run.
  block 1, 6 x 400, 90s, no gimmicks: Start taken for 18:30; write am for the morning.
  block 1, 6 x 400, 90s, no gimmicks: Not read: no gimmicks.

"#]]);
}

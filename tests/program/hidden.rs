//! Characters that a terminal, a page or a table would obey: none comes out of the program as it went in.

use snapbox::str;

use crate::answer::{printed, told};
use crate::folder::Folder;
use crate::run::toeline;

/// A title that would name the window of a terminal, and colour what follows.
const TITLE: &str = "title: \"A\\e]0;x\\aB\\x9b31m\"\nblocks: [6 x 200 in lane 2]\n";

fn is_hidden(letter: char) -> bool {
    letter.is_control() && !matches!(letter, '\n' | '\r')
        || matches!(letter, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}')
}

#[test]
fn what_a_title_hides_is_shown_in_each_command_and_view() {
    let folder = Folder::with("evening.yaml", TITLE);
    for arguments in [
        &["plan", "evening.yaml", "--color", "always"][..],
        &["week", "evening.yaml"],
        &["plan", "evening.yaml", "--format", "csv"],
        &["plan", "evening.yaml", "--format", "json"],
    ] {
        let answer = printed(&folder.toeline(arguments).assert().success());
        assert!(answer.contains("A\u{fffd}]0;x\u{fffd}B\u{fffd}31m"), "{arguments:?}: {answer}");
        let plain = answer.replace("\u{1b}[", "").replace("\u{1b}", "\u{0}");
        assert!(!plain.contains(is_hidden), "{arguments:?}: {answer:?}");
    }
}

#[test]
fn what_is_hidden_in_a_place_that_is_wrong_is_shown_too() {
    let folder = Folder::with("evening.yaml", "titel\u{9b}31m: A\u{202e}B\nblocks: [200]\n");
    folder.toeline(&["check", "evening.yaml"]).assert().code(2).stderr_eq(str![[r#"
error: unknown key `titel�31m`
 --> evening.yaml:1:1
  |
1 | titel�31m: A�B
  | ^^^^^^^^^
  |
help: did you mean `title`?

"#]]);
    toeline(&["plan", "6 x 200 in \u{1b}]0;x\u{7}lain 2"]).assert().code(2).stderr_eq(str![[r#"
error: `�` is not understood here
 --> workout:1:12
  |
1 | 6 x 200 in �]0;x�lain 2
  |            ^
  |
help: after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`
error: unmatched `)`
 --> workout:1:13
  |
1 | 6 x 200 in �]0;x�lain 2
  |             ^
  |
help: leave it out, or add `(` before it
error: a repetition of `0` is out of range
 --> workout:1:14
  |
1 | 6 x 200 in �]0;x�lain 2
  |              ^
  |
help: write a distance from 10 m to 10000 m
error: expected a distance, found `x`
 --> workout:1:16
  |
1 | 6 x 200 in �]0;x�lain 2
  |                ^
  |
help: write for example `6 x 200 in lane 2`
error: `lain` is not understood here
 --> workout:1:18
  |
1 | 6 x 200 in �]0;x�lain 2
  |                  ^^^^
  |
help: did you mean `lane`?

"#]]);
}

#[test]
fn arguments_and_names_of_files_are_shown_without_what_they_hide() {
    let folder = Folder::new();
    for arguments in [
        &["pl\u{1b}[2Jan", "200"][..],
        &["plan", "200", "--\u{1b}]0;x\u{7}"],
        &["plan", "200", "--track", "a\u{1b}[31m"],
        &["plan", "200", "--track", "a\u{1b}[31m.yaml"],
        &["plan", "a\u{9b}31m.yaml"],
        &["plan", "200", "--without", "A\u{202e}da"],
        &["plan", "200", "--out", "a\u{1b}[31m"],
        &["plan", "200", "--out", "no\u{1b}[31m/a.txt"],
        &["measure", "--lane", "2", "--from", "400\u{7} start", "--to", "finish line"],
        &["check", "a\u{1b}[31m.yaml"],
        &["week", "a\u{1b}[31m"],
        &["manual", "a\u{1b}[31m"],
    ] {
        let assert = folder.toeline(arguments).assert().failure();
        let told = told(&assert);
        assert!(told.contains('\u{fffd}') && !told.contains(is_hidden), "{arguments:?}: {told:?}");
    }
}

#[cfg(unix)]
#[test]
fn a_file_whose_name_hides_something_is_read_under_that_name() {
    let folder = Folder::with("a\u{1b}[31m.yaml", TITLE);
    let assert = folder.toeline(&["check", "a\u{1b}[31m.yaml"]).assert().success();
    assert_eq!(printed(&assert), "a\u{fffd}[31m.yaml: no faults; a session of 1 block with 6 runs\n");
}

#[test]
fn no_cell_of_a_table_is_a_formula_whatever_stands_in_front() {
    for title in [
        "\\e[m=HYPERLINK(1)",
        "\\v=1+1",
        "\\n=1+1",
        " =1",
        "\\u00a0=1",
        "\\ufeff=1",
        "\\u200b=1",
        "\\t=1",
        "\\r=1",
    ] {
        let folder = Folder::with("evening.yaml", format!("title: \"{title}\"\nblocks: [200]\n"));
        let table = printed(&folder.toeline(&["plan", "evening.yaml", "--format", "csv"]).assert().success());
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        let row = reader.records().next().expect("a row").expect("it is well formed");
        let begins = row[0].chars().next();
        assert!(matches!(begins, Some('\'' | '\u{fffd}')), "{title}: {:?}", &row[0]);
    }
}

#[test]
fn a_mark_of_the_order_of_bytes_is_no_part_of_a_file() {
    let folder = Folder::with("evening.yaml", "\u{feff}title: Evening\nblocks: [200]\n");
    folder.write("notes.txt", "\u{feff}6 x 200 in lane 2\n");
    folder.toeline(&["check", "evening.yaml", "notes.txt"]).assert().success().stdout_eq(str![[r#"
evening.yaml: no faults; a session of 1 block with 1 run
notes.txt: no faults; a session of 1 block with 6 runs

"#]]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_pipe_or_a_device_is_refused_without_waiting() {
    let folder = Folder::new();
    for name in ["pipe.yaml", "pipe.txt"] {
        folder.make_pipe(name);
    }
    std::os::unix::fs::symlink("/dev/zero", folder.at("zero.yaml")).expect("it can be made");
    for arguments in [
        &["plan", "pipe.yaml"][..],
        &["plan", "pipe.txt"],
        &["check", "pipe.yaml"],
        &["week", "pipe.yaml"],
        &["session", "pipe.txt"],
        &["plan", "200", "--track", "pipe.yaml"],
        &["plan", "200", "--track", "zero.yaml"],
    ] {
        let told = told(&folder.toeline(arguments).assert().code(2));
        assert!(told.contains("a pipe or a device, not a file"), "{arguments:?}: {told}");
    }
}

//! `--out`: the ending picks the view, and a file is whole or not there.

mod program;

use std::fs;

use program::toeline;
use snapbox::str;

#[test]
fn a_json_file_holds_what_standard_output_would() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("plan.json");
    let name = path.to_str().expect("the path is UTF-8");
    toeline(&["plan", "6 x 200", "--out", name]).assert().success().stdout_eq(str![]);
    let printed =
        toeline(&["plan", "6 x 200", "--format", "json"]).assert().success().get_output().stdout.clone();
    assert_eq!(fs::read(&path).expect("it was written"), printed);
}

#[test]
fn a_text_file_has_no_terminal_codes_even_with_colour_always() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("plan.txt");
    let name = path.to_str().expect("the path is UTF-8");
    toeline(&["plan", "6 x 200", "--color", "always", "--out", name]).assert().success();
    assert!(!fs::read_to_string(&path).expect("it was written").contains('\u{1b}'));
}

#[test]
fn an_old_file_stays_whole_where_the_new_one_is_refused() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("plan.txt");
    fs::write(&path, "the old plan").expect("the folder can be written");
    let name = path.to_str().expect("the path is UTF-8");
    toeline(&["plan", "6 x", "--out", name]).assert().code(2);
    assert_eq!(fs::read_to_string(&path).expect("it is still there"), "the old plan");
}

#[test]
fn a_folder_that_is_not_there_is_an_error_of_writing() {
    toeline(&["plan", "200", "--out", "no-such-folder/plan.txt"]).assert().code(1).stderr_eq(str![[r#"
error: cannot write `no-such-folder/plan.txt`: entity not found

"#]]);
}

#[test]
fn a_file_that_is_not_there_is_an_error_of_reading() {
    toeline(&["plan", "no-such-file.yaml"]).assert().code(1).stderr_eq(str![[r#"
error: cannot read `no-such-file.yaml`: No such file or directory (os error 2)

"#]]);
}

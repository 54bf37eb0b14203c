//! What the README shows is what the program does.

use std::fs;

use crate::run::toeline;

const README: &str = include_str!("../../README.md");

/// The fenced blocks of a language, in order.
fn blocks(language: &str) -> Vec<String> {
    let fence = format!("```{language}\n");
    let block = |part: &str| part.split("```").next().expect("split gives one part at least").to_owned();
    README.split(&fence).skip(1).map(block).collect()
}

#[test]
fn the_first_command_prints_what_the_readme_says() {
    assert!(README.contains("cargo run -- plan \"6 x 200 in lane 2\" --closed 1"));
    let shown = toeline(&["plan", "6 x 200 in lane 2", "--closed", "1"]).assert().success();
    // The README shows the cautions in full.
    assert_eq!(String::from_utf8_lossy(&shown.get_output().stdout), blocks("text")[0]);
}

#[test]
fn the_error_shown_is_the_error_told() {
    toeline(&["plan", "200 in lane 1", "--closed", "1"])
        .assert()
        .code(2)
        .stderr_eq(blocks("text")[1].clone());
}

#[test]
fn the_files_shown_can_be_used() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let yaml = blocks("yaml");
    fs::write(folder.path().join("session.yaml"), &yaml[0]).expect("the folder can be written");
    fs::write(folder.path().join("track.yaml"), &yaml[1]).expect("the folder can be written");
    toeline(&["plan", "session.yaml"]).current_dir(folder.path()).assert().success();
    toeline(&[
        "measure",
        "--lane",
        "2",
        "--from",
        "gate line",
        "--to",
        "finish line",
        "--track",
        "track.yaml",
    ])
    .current_dir(folder.path())
    .assert()
    .success();
}

#[test]
fn the_kinds_of_file_are_those_of_the_program() {
    let rows = plan_sheet::FORMATS.iter().map(|format| {
        let name = format.name.map_or_else(String::new, |name| format!("`{name}`"));
        format!("| `.{}` | {name} | {} | {} |\n", format.ending, format.what, format.answers())
    });
    let rows: String = rows.collect();
    let head = "| ending | `--format` | what it is | of |\n|---|---|---|---|\n";
    assert!(README.contains(&format!("{head}{rows}\n")), "{rows}");
}

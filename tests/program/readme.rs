//! What the README shows is what the program does.

use crate::answer::printed;
use crate::folder::Folder;
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
    assert_eq!(printed(&shown), blocks("text")[0]);
}

#[test]
fn the_error_shown_is_the_error_told() {
    toeline(&["plan", "200 in lane 1", "--closed", "1"])
        .assert()
        .code(2)
        .stderr_eq(blocks("text")[1].clone());
}

#[test]
fn the_notation_shown_is_that_of_the_screen() {
    let screen = printed(&toeline(&["notation"]).assert().success());
    let shown = &blocks("notation")[0];
    assert!(shown.lines().count() >= 6);
    for line in shown.lines() {
        assert!(screen.lines().any(|told| told == line), "{line}");
    }
}

#[test]
fn the_files_shown_can_be_used() {
    let yaml = blocks("yaml");
    let folder = Folder::with("session.yaml", &yaml[0]);
    folder.write("track.yaml", &yaml[1]);
    folder.toeline(&["plan", "session.yaml"]).assert().success();
    folder.write("notes.txt", &blocks("notes")[0]);
    folder.toeline(&["plan", "notes.txt"]).assert().success();
    folder.toeline(&["session", "notes.txt", "--out", "tuesday.yaml"]).assert().success();
    folder.toeline(&["plan", "tuesday.yaml"]).assert().success();
    let between = ["--lane", "2", "--from", "gate line", "--to", "finish line"];
    folder.toeline(&[&["measure", "--track", "track.yaml"], &between[..]].concat()).assert().success();
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

#[test]
fn the_limits_are_those_of_the_program() {
    let readme = std::fs::read_to_string("README.md").expect("it is there");
    for limit in session_plan::Limit::ALL {
        let row = format!("\n| {} | {} |\n", limit.most(), limit.words());
        assert!(readme.contains(&row), "{row}");
    }
}

//! `--out plan.md`: a plan as a message.

use std::fs;

use crate::run::toeline;
use pulldown_cmark::{Event, Parser, Tag};
use serde_json::Value;

fn message(workout: &str) -> String {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("plan.md");
    toeline(&["plan", workout, "--out", path.to_str().expect("the path is UTF-8")]).assert().success();
    fs::read_to_string(&path).expect("it was written")
}

/// The words alone, as an independent reader of CommonMark shows them.
fn words(message: &str) -> String {
    let mut text = String::new();
    for event in Parser::new(message) {
        match event {
            Event::Text(words) => text += &words,
            Event::End(_) | Event::SoftBreak => text.push('\n'),
            _ => {}
        }
    }
    text
}

#[test]
fn a_message_tells_every_spot_the_walk_and_the_cautions() {
    let session = "sessions/wrenbeck/tuesday-sprints.yaml";
    let words = words(&message(session));
    let shown = toeline(&["plan", session, "--format", "json"]).assert().success();
    let plan: Value = serde_json::from_slice(&shown.get_output().stdout).expect("it is JSON");
    let blocks = plan["blocks"].as_array().expect("a list").iter();
    let reps = blocks.flat_map(|block| block["reps"].as_array().expect("a list"));
    let spots = reps.flat_map(|rep| [&rep["start"], &rep["finish"]]);
    let cones = plan["setup"].as_array().expect("a list").iter().map(|cone| &cone["spot"]);
    for spot in spots.chain(cones) {
        assert!(words.contains(spot["words"].as_str().expect("text")), "{spot}");
    }
    for caution in plan["cautions"].as_array().expect("a list") {
        assert!(words.contains(caution.as_str().expect("text")), "{caution}");
    }
    assert!(words.contains("istances assume the measure line"));
}

#[test]
fn a_name_comes_out_as_text() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("session.yaml");
    let names = [
        "<script>alert(1)</script>",
        "#include",
        "*bold* _and_ `code`",
        "[a link](to: nowhere)",
        "1. one",
        "- a list",
        "  # far in",
        "      - farther in",
        "&amp; ~~gone~~ a|b \\ back",
        "![a picture](x)",
    ];
    let quoted = names.map(|name| format!("'{name}'")).join(", ");
    let notes = names.map(|name| format!("  - '{name}'\n")).concat();
    let session = format!(
        "title: '{}'\ngroups: [{{ name: squad, athletes: [{quoted}] }}]\nblocks: ['200 @ 34']\nnotes:\n{notes}",
        names[0]
    );
    fs::write(&path, session).expect("the folder can be written");
    let message = message(path.to_str().expect("the path is UTF-8"));
    let words = words(&message);
    for name in names.map(str::trim_start) {
        assert!(words.lines().any(|line| line == name), "{name} is a line of the notes: {words}");
        assert!(words.contains(&format!("{name} 34 s: wave")), "{name} runs: {words}");
    }
    let marks = Parser::new(&message).filter(|event| {
        matches!(
            event,
            Event::Html(_)
                | Event::InlineHtml(_)
                | Event::Code(_)
                | Event::Start(
                    Tag::Emphasis
                        | Tag::Strong
                        | Tag::Link { .. }
                        | Tag::Image { .. }
                        | Tag::CodeBlock(_)
                        | Tag::BlockQuote(_)
                )
        )
    });
    assert_eq!(marks.count(), 0, "{message}");
    let headings = Parser::new(&message).filter(|event| matches!(event, Event::Start(Tag::Heading { .. })));
    assert_eq!(headings.count(), 5, "the title, the block, the walk, the notes, the cautions: {message}");
}

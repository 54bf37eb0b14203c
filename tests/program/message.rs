//! `--out plan.md`: a plan as a message.

use crate::answer::json;
use crate::folder::Folder;
use crate::run::toeline;
use crate::said::said;
use pulldown_cmark::{Event, Parser, Tag};

fn message(workout: &str) -> String {
    let folder = Folder::new();
    toeline(&["plan", workout, "--out", &folder.at("plan.md")]).assert().success();
    folder.read("plan.md")
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
    let plan = json(&["plan", session]);
    for said in said(&plan) {
        assert!(words.contains(&said), "{said}");
    }
    assert!(words.contains("istances assume the measure line"));
}

#[test]
fn a_name_comes_out_as_text() {
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
    let folder = Folder::with("session.yaml", session);
    let message = message(&folder.at("session.yaml"));
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
    assert_eq!(headings.count(), 4, "the title, the block, the notes, the cautions: {message}");
}

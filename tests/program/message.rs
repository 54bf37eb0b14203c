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

#[test]
fn a_message_says_when_each_wave_goes() {
    let words = words(&message("sessions/wrenbeck/tuesday-sprints.yaml"));
    for go in
        ["Go: 18:20:00, 23:08, 26:16, 29:24", "Go, wave 1: 19:01:52, 10:26", "Go, wave 2: 19:02:02, 10:36"]
    {
        assert!(words.lines().any(|line| line == go), "{go}: {words}");
    }
}

#[test]
fn a_week_has_its_table_and_its_chart_first() {
    let folder = Folder::new();
    toeline(&["week", "sessions/wrenbeck", "--out", &folder.at("week.md")]).assert().success();
    let message = folder.read("week.md");
    let words = words(&message);
    let at = |line: &str| {
        words.lines().position(|own| own == line).unwrap_or_else(|| panic!("no `{line}`: {words}"))
    };
    let title = at("The week at a glance, Monday 12 April to Sunday 18 April 2027");
    let row = at("Tue 13 Apr, 18:00-19:30, sprinters: 4 x 60, 4 x 150, 2 x 250; 1340 m");
    let bar = at("Tue 13 Apr sprinters          1340 █████");
    assert!(title < row && row < bar && bar < at("Two groups, Monday"));
    // One for each session, and one for the week.
    let of_level_one =
        |event: &Event<'_>| matches!(event, Event::Start(Tag::Heading { level, .. }) if *level as u8 == 1);
    assert_eq!(Parser::new(&message).filter(of_level_one).count(), 9);
}

#[test]
fn no_name_ends_the_chart_of_a_week() {
    let session = "title: '```'\ngroups: [{ name: '````', athletes: [Ada] }]\nblocks: ['200 @ 34']\n";
    let folder = Folder::with("a.yaml", session);
    folder.toeline(&["week", "a.yaml", "--out", "week.md"]).assert().success();
    let message = folder.read("week.md");
    let charts = Parser::new(&message).filter(|event| matches!(event, Event::Start(Tag::CodeBlock(_))));
    assert_eq!(charts.count(), 1, "{message}");
    let words = words(&message);
    assert!(words.contains("░ below 4") && words.contains("````"), "{words}");
}

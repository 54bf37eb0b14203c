//! What the program says of itself: the notation, completions and manual pages.

use crate::answer::printed;
use crate::run::toeline;

fn text(arguments: &[&str]) -> String {
    printed(&toeline(arguments).assert().success())
}

#[test]
fn the_notation_is_a_help_topic_and_a_command() {
    let notation = text(&["notation"]);
    assert!(notation.starts_with("How a workout is written\n"));
    assert!(notation.contains(" 6 x 200 off 3:00                          from one start to the next\n"));
    assert!(notation.lines().all(|line| line.chars().count() <= 80), "{notation}");
    let help = text(&["help", "notation"]);
    assert!(help.trim_end().ends_with(notation.trim_end()), "{help}");
}

#[test]
fn every_shell_has_completions() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let completions = text(&["completions", shell]);
        for word in ["week", "notation", "closed"] {
            assert!(completions.contains(word), "{shell} does not know {word}");
        }
    }
}

#[test]
fn the_manual_has_a_page_for_the_program_and_for_each_command() {
    let page = text(&["manual"]);
    assert!(page.contains(".TH toeline 1"), "{page}");
    assert!(page.contains("toeline\\-week(1)"), "{page}");
    let page = text(&["manual", "week"]);
    assert!(page.contains(".TH toeline-week 1"), "{page}");
    toeline(&["manual", "weak"]).assert().code(2);
}

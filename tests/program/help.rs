//! What the program says of itself: the notation, completions and manual pages.

use crate::answer::printed;
use crate::run::toeline;

fn text(arguments: &[&str]) -> String {
    printed(&toeline(arguments).assert().success())
}

#[test]
fn the_notation_is_a_help_topic_and_a_command() {
    let notation = text(&["notation", "--all"]);
    assert!(notation.starts_with("How a workout is written\n"));
    assert!(notation.contains(" 6 x 200 off 3:00                          from one start to the next\n"));
    assert!(notation.lines().all(|line| line.chars().count() <= 80), "{notation}");
    let help = text(&["help", "notation"]);
    assert!(help.trim_end().ends_with(notation.trim_end()), "{help}");
}

#[test]
fn the_notation_is_taught_on_one_screen() {
    let screen = text(&["notation"]);
    snapbox::assert_data_eq!(
        &screen,
        snapbox::str![[r#"
How a workout is written

 6 x 200, 90s                    6 × 200 m, 90 s rest
 8 x 400 @ 75 off 3 min          8 × 400 m @ 75 s, every 3 min
 3 x (4 x 150) 2min / 8min       3 × (4 × 150 m), 2 min rest, 8 min between sets
 300 + 200 + 100, 5 min          (300 m, 200 m, 100 m), 5 min rest
 (400, 300, 200) x 2             2 × (400 m, 300 m, 200 m)
 200-400-600-400 jog 200         (200 m, 400 m, 600 m, 400 m), 200 m jog
 5 x 300 in 48-50s walk back     5 × 300 m @ 48-50 s, walk back
 4 x 150 @ 90% in lanes 2-5      4 × 150 m @ 90% in lanes 2-5
 5 x 1000 @ 5k pace rest 2'30"   5 × 1000 m @ 5 km pace, 2 min 30 s rest
 3 x flying 30, 5 min            3 × flying 30 m with 20 m run-in, 5 min rest
 4 x 60 from blocks, 4 min       4 × 60 m from blocks, 4 min rest
 5 x 110h to hurdle 3, 4 min     5 × 110 m hurdles to hurdle 3, 4 min rest
 80 on the bend easy             80 m easy on the bend
 wu; 4 x 60; 20 min tempo; CD    wu | 4 × 60 m | 20 min tempo | CD
 U13s: 4 x 200 off 2 min, tall   U13s: 4 × 200 m, every 2 min; not read: tall

A bare number is metres, or seconds where a time is meant; spacing and case do
not matter. What stands behind a list is for all of it. Lines, ; and // stand
between blocks; a title and a date may come first, and headings name groups.
Unknown words without a number are kept as not read.
Every form: toeline notation --all

"#]]
    );
    // A terminal has 24 lines of 80, one of them for what is typed next.
    assert!(screen.lines().count() <= 23, "{screen}");
    assert!(screen.lines().all(|line| line.chars().count() <= 80), "{screen}");
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
    assert!(text(&["manual", "notation"]).contains(".TH toeline-notation 1"));
    toeline(&["manual", "weak"]).assert().code(2);
}

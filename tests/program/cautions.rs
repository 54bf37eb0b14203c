//! What every answer carries, however it is shown: its cautions, and what its distances assume.

use std::fs;

use crate::answer::printed;
use crate::folder::Folder;
use crate::run::{care, cautions, toeline};

const TUESDAY: &str = "sessions/wrenbeck/tuesday-sprints.yaml";

/// As one line, so that it does not matter where a view breaks lines.
fn in_one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn an_answer_about_the_track_ends_with_the_cautions_in_short() {
    let answers =
        [&["lanes"][..], &["lanes", "--closed", "1"], &["spots", "200 in lane 4", "--closed", "1,2"]];
    for (arguments, (name, footer)) in answers.into_iter().zip(care()) {
        let text = printed(&toeline(arguments).assert().success());
        assert!(text.ends_with(&format!("\n\n{footer}\n")), "{name}: {text}");
    }
}

/// The one place where they are compared in full: whole outputs elsewhere have a name in their stead.
#[test]
fn an_answer_ends_with_the_cautions_in_full() {
    let answers = [
        &["plan", "--full", "6 x 200"][..],
        &["plan", "--full", "6 x 200", "--closed", "1"],
        &["plan", "--full", "sessions/wrenbeck/saturday-alone.yaml"],
        &["plan", "--full", "6 x 200", "--closed", "1,2"],
    ];
    for (arguments, (name, footer)) in answers.into_iter().zip(cautions()) {
        let text = printed(&toeline(arguments).assert().success());
        assert!(text.ends_with(&format!("\n\n{footer}\n")), "{name}: {text}");
    }
}

#[test]
fn every_answer_says_what_its_distances_assume() {
    for arguments in [
        &["plan", TUESDAY][..],
        &["plan", "6 x 200"],
        &["week", "sessions/wrenbeck"],
        &["spots", "150 in lane 2"],
        &["measure", "--lane", "2", "--from", "400 m start", "--to", "200 m start"],
        &["curve", "1500"],
        &["lanes"],
        &["marks", "--lane", "2"],
    ] {
        for format in ["text", "json", "csv"] {
            let shown = toeline(&[arguments, &["--format", format]].concat()).assert().success();
            let text = in_one_line(&printed(&shown));
            assert!(text.contains("istances assume the measure line"), "{arguments:?} as {format}");
            if format == "csv" {
                assert!(text.contains("look both ways"), "{arguments:?} as {format}");
                assert!(text.contains("venue rules come first"), "{arguments:?} as {format}");
            } else {
                // On a screen a plan has a line of care, an answer about the track two.
                let venue = match (arguments[0], format) {
                    ("plan", "text") => "venue rules come first. More: --full",
                    ("week", _) | (_, "json") => "Venue rules and staff come first.",
                    _ => "venue rules come first.",
                };
                for caution in ["Look both ways", venue] {
                    assert!(text.contains(caution), "{arguments:?} as {format}: {caution}");
                }
            }
        }
    }
}

#[test]
fn every_file_of_a_plan_says_what_its_distances_assume() {
    let folder = Folder::new();
    for ending in ["txt", "json", "csv", "md", "ics"] {
        let path = folder.at(&format!("plan.{ending}"));
        toeline(&["plan", TUESDAY, "--out", &path]).assert().success();
        let text = fs::read_to_string(&path).expect("it was written");
        // A calendar breaks lines within words.
        let text = in_one_line(&text.replace("\r\n ", ""));
        assert!(text.contains("istances assume the measure line"), "{ending}");
        if ending == "csv" {
            assert!(text.contains("venue rules come first"), "{ending}");
        } else {
            assert!(text.contains("Venue rules and staff come first."), "{ending}");
        }
        // The hazard that these runs come by.
        assert!(text.contains("look for a thrower on the run-up"), "{ending}");
    }
}

#[test]
fn pictures_and_pages_say_what_their_distances_assume() {
    let folder = Folder::new();
    for ending in ["svg", "html"] {
        let path = folder.at(&format!("plan.{ending}"));
        toeline(&["plan", TUESDAY, "--out", &path]).assert().success();
        let text = in_one_line(&fs::read_to_string(&path).expect("it was written"));
        assert!(text.contains("Distances assume the measure line"), "{ending}");
        assert!(text.contains("Look both ways before you step on to the track"), "{ending}");
    }
}

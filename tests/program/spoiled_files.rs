//! Files spoiled line by line: whatever is wrong with one is told with a place in it, and nothing makes
//! the reader fall over.

use std::fs;
use std::path::{Path, PathBuf};

use plan_sheet::file_fault_words;
use session_plan::{FileFaults, SessionFile, Venue};
use workout_notation::SourceText;

const TOP: &str = env!("CARGO_MANIFEST_DIR");

fn files(folder: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(Path::new(TOP).join(folder)).expect("the folder is there");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("it can be listed").path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    files.sort_unstable();
    files
}

/// A text with each line in turn left out, written twice, cut in the middle, pushed in, or with an
/// opened bracket or quote.
fn spoiled(text: &str) -> impl Iterator<Item = String> {
    let lines: Vec<&str> = text.lines().collect();
    (0..lines.len()).flat_map(move |at| {
        let line = lines[at];
        let middle = (line.len() / 2..=line.len()).find(|&at| line.is_char_boundary(at)).unwrap_or(0);
        let others = [
            String::new(),
            format!("{line}\n{line}"),
            line[..middle].to_owned(),
            format!("   {line}"),
            format!("{line} ["),
            line.replacen(": ", ": \"", 1),
            line.replacen(": ", ":", 1),
            line.replace(|c: char| c.is_ascii_digit(), "é"),
        ];
        let lines = lines.clone();
        others.map(move |other| [&lines[..at], &[other.as_str()], &lines[at + 1..]].concat().join("\n"))
    })
}

/// Every fault is a sentence with a place in the text.
fn assert_placed(FileFaults { source, faults, .. }: &FileFaults) {
    assert!(!faults.is_empty(), "refused without a word:\n{}", source.text());
    for fault in faults {
        let is_placed = source.text().get(fault.span.clone()).is_some();
        assert!(is_placed && !file_fault_words(fault).0.is_empty(), "{fault:?} in\n{}", source.text());
    }
}

#[test]
fn track_files() {
    let (mut taken, mut refused) = (0, 0);
    let mut paths = files("tests/broken-tracks");
    paths.push(Path::new(TOP).join("sessions/wrenbeck/track.yaml"));
    for path in paths {
        let text = fs::read_to_string(&path).expect("it can be read");
        for text in spoiled(&text) {
            match Venue::read(&SourceText::new("track.yaml", &text)) {
                Ok(_) => taken += 1,
                Err(problems) => {
                    assert_placed(&problems);
                    refused += 1;
                }
            }
        }
    }
    assert!(taken > 20 && refused > 1000, "{taken} taken, {refused} refused");
}

#[test]
fn session_files() {
    let (mut taken, mut refused) = (0, 0);
    for path in files("sessions/wrenbeck").into_iter().filter(|path| !path.ends_with("track.yaml")) {
        let text = fs::read_to_string(&path).expect("it can be read");
        for text in spoiled(&text) {
            match SessionFile::read(SourceText::new("session.yaml", &text)) {
                Ok(_) => taken += 1,
                Err(problems) => {
                    assert_placed(&problems);
                    refused += 1;
                }
            }
        }
    }
    assert!(taken > 10 && refused > 50, "{taken} taken, {refused} refused");
}

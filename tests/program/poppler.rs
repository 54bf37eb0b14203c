//! Reads PDF files with poppler's tools, which share no code with what writes them.

use std::path::Path;
use std::process::Command;

use crate::left_out::left_out;

/// Ends a test, as passed, where poppler is not installed.
macro_rules! needs_poppler {
    () => {
        if !$crate::poppler::is_installed() {
            return;
        }
    };
}
pub(crate) use needs_poppler;

pub(crate) fn is_installed() -> bool {
    let is_there = Command::new("pdftotext").arg("-v").output().is_ok();
    if !is_there {
        left_out("poppler's tools (Debian's package poppler-utils)");
    }
    is_there
}

/// What one of poppler's tools says on standard output.
pub(crate) fn poppler(tool: &str, arguments: &[&str], file: &Path, to: &[&str]) -> String {
    let output = Command::new(tool).args(arguments).arg(file).args(to).output();
    let output = output.unwrap_or_else(|error| panic!("{tool} cannot be run: {error}"));
    assert!(output.status.success(), "{tool}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A word on a page: its text and the box of its line, in points from the upper left corner.
#[derive(Clone, Debug)]
pub(crate) struct Word {
    pub(crate) text: String,
    pub(crate) x: [f64; 2],
    pub(crate) y: [f64; 2],
}

/// A page: its size in points, and its words.
#[derive(Clone, Debug)]
pub(crate) struct Page {
    pub(crate) width: f64,
    pub(crate) height: f64,
    pub(crate) words: Vec<Word>,
}

/// The pages of a file.
pub(crate) fn pages(file: &Path) -> Vec<Page> {
    let mut pages: Vec<Page> = Vec::new();
    for line in poppler("pdftotext", &["-bbox-layout"], file, &["-"]).lines().map(str::trim) {
        if line.starts_with("<page ") {
            pages.push(Page {
                width: attribute(line, "width"),
                height: attribute(line, "height"),
                words: Vec::new(),
            });
        } else if line.starts_with("<word ") {
            let text = line.split_once('>').and_then(|(_, rest)| rest.strip_suffix("</word>"));
            pages.last_mut().expect("words come on pages").words.push(Word {
                text: text.expect("a word ends where it began").to_owned(),
                x: [attribute(line, "xMin"), attribute(line, "xMax")],
                y: [attribute(line, "yMin"), attribute(line, "yMax")],
            });
        }
    }
    pages
}

fn attribute(line: &str, name: &str) -> f64 {
    let value = line.split_once(&format!("{name}=\"")).and_then(|(_, rest)| rest.split_once('"'));
    value.and_then(|(number, _)| number.parse().ok()).unwrap_or_else(|| panic!("no {name} in {line}"))
}

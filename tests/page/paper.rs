//! The page on paper.

use std::fs;
use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::browser::{PHONE, Set, Shown, show};
use crate::made::{made, plan_of};
use crate::poppler::{needs_poppler, pages, poppler};
use crate::said::said;

/// Sizes in inches: ISO 216, and ANSI/ASME Y14.1.
const A4: (f64, f64) = (210.0 / 25.4, 297.0 / 25.4);
const LETTER: (f64, f64) = (8.5, 11.0);

/// A printed page as a file, in a folder that ends with it.
fn printed(page: &Shown, paper: (f64, f64)) -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("page.pdf");
    fs::write(&path, page.print(paper.0, paper.1)).expect("the folder can be written");
    (folder, path)
}

fn text(path: &Path) -> String {
    poppler("pdftotext", &["-raw"], path, &["-"])
}

fn fits(arguments: &[&str], paper: (f64, f64)) {
    needs_poppler!();
    let page = show!(made(arguments), PHONE, Set::default());
    let (_folder, pdf) = printed(&page, paper);
    let pages = pages(&pdf);
    let words: usize = pages.iter().map(|page| page.words.len()).sum();
    assert!(words > 100, "{words} words");
    for page in &pages {
        assert!((page.width - paper.0 * 72.0).abs() < 1.0 && (page.height - paper.1 * 72.0).abs() < 1.0);
        // Printers leave some 5 mm at the edges.
        let edge = 5.0 / 25.4 * 72.0;
        for word in &page.words {
            let inside = word.x[0] >= edge
                && word.y[0] >= edge
                && word.x[1] <= page.width - edge
                && word.y[1] <= page.height - edge;
            assert!(inside, "`{}` is cut", word.text);
        }
    }
    // Lines and cells break words apart; what is left is the letters, in order.
    let letters = |text: &str| text.split_whitespace().collect::<String>();
    let printed = letters(&text(&pdf));
    for words in said(&plan_of(arguments)) {
        assert!(printed.contains(&letters(&words)), "{arguments:?}: `{words}` is missing");
    }
    for control in ["Savetimes", "Start:goin", "Runthisblock", "Wholeplan", "Backtotherun", "Showthelanes"] {
        assert!(!printed.contains(control), "{control} is of no use on paper");
    }
}

#[test]
fn sessions_fit_a4() {
    fits(&["plan", "sessions/wrenbeck/tuesday-sprints.yaml"], A4);
    fits(&["plan", "sessions/wrenbeck/monday-two-groups.yaml"], A4);
}

#[test]
fn sessions_fit_us_letter() {
    fits(&["plan", "sessions/wrenbeck/thursday-middle-distance.yaml"], LETTER);
    fits(&["plan", "sessions/wrenbeck/wednesday-hurdles-and-relay.yaml"], LETTER);
}

const FORTY: [&str; 10] = [
    "plan",
    "6 x 200 @ 34 rest 3min",
    "--athletes",
    "40",
    "--lanes",
    "2-6",
    "--track",
    "standard-6",
    "--closed",
    "1",
];

#[test]
fn forty_athletes_fit_both() {
    fits(&FORTY, A4);
    fits(&FORTY, LETTER);
}

#[test]
fn times_that_were_taken_are_printed() {
    needs_poppler!();
    let page = show!(made(&crate::made::LONE), PHONE, Set::default());
    page.type_into("s1-b1-r2-l1-1", "31.7");
    let (_folder, pdf) = printed(&page, A4);
    let printed = text(&pdf);
    assert!(printed.split_whitespace().any(|word| word == "31.7"), "{printed}");
}

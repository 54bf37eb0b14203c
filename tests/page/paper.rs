//! The page on paper.

use std::process::Command;

use crate::browser::{PHONE, Set, show};
use crate::made::{made, plan_of};
use crate::words::said;

/// Sizes in inches: ISO 216, and ANSI/ASME Y14.1.
const A4: (f64, f64) = (210.0 / 25.4, 297.0 / 25.4);
const LETTER: (f64, f64) = (8.5, 11.0);

/// A word on a page, by its edges in points.
struct Word {
    words: String,
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

/// What `pdftotext` of the Debian package poppler-utils finds in a PDF.
fn pdftotext(pdf: &[u8], how: &str) -> String {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("page.pdf");
    std::fs::write(&path, pdf).expect("the folder can be written");
    let output = Command::new("pdftotext").arg(how).arg(&path).arg("-").output().unwrap_or_else(|error| {
        panic!("pdftotext is needed: install the Debian package poppler-utils ({error})")
    });
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("it is UTF-8")
}

/// The words of each page, with the page's width and height.
fn pages(pdf: &[u8]) -> Vec<(f64, f64, Vec<Word>)> {
    let mut pages = Vec::new();
    for line in pdftotext(pdf, "-bbox").lines().map(str::trim) {
        let number = |name: &str| -> f64 {
            let after = line.split(&format!("{name}=\"")).nth(1).expect("the attribute is there");
            after.split('"').next().and_then(|text| text.parse().ok()).expect("it is a number")
        };
        if line.starts_with("<page ") {
            pages.push((number("width"), number("height"), Vec::new()));
        } else if line.starts_with("<word ") {
            let words = line.split(['<', '>']).nth(2).unwrap_or_default().to_owned();
            let word = Word {
                words,
                left: number("xMin"),
                top: number("yMin"),
                right: number("xMax"),
                bottom: number("yMax"),
            };
            pages.last_mut().expect("words are on pages").2.push(word);
        }
    }
    pages
}

fn fits(arguments: &[&str], paper: (f64, f64)) {
    let page = show(made(arguments), PHONE, Set::default());
    let pdf = page.print(paper.0, paper.1);
    let pages = pages(&pdf);
    let words: usize = pages.iter().map(|(.., words)| words.len()).sum();
    assert!(words > 100, "{words} words");
    for (width, height, words) in &pages {
        assert!((width - paper.0 * 72.0).abs() < 1.0 && (height - paper.1 * 72.0).abs() < 1.0);
        // Printers leave some 5 mm at the edges.
        let edge = 5.0 / 25.4 * 72.0;
        for word in words {
            let inside = word.left >= edge
                && word.top >= edge
                && word.right <= width - edge
                && word.bottom <= height - edge;
            assert!(inside, "`{}` is cut", word.words);
        }
    }
    // Lines and cells break words apart; what is left is the letters, in order.
    let letters = |text: &str| text.split_whitespace().collect::<String>();
    let printed = letters(&pdftotext(&pdf, "-raw"));
    for words in said(&plan_of(arguments)) {
        assert!(printed.contains(&letters(&words)), "{arguments:?}: `{words}` is missing");
    }
    for control in ["Cancel", "Savethetimes", "Startblock", "Largermap"] {
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
    let page = show(made(&crate::made::LONE), PHONE, Set::default());
    page.tap("#s1-b1-r2-l1-1");
    page.type_in("31.7");
    let printed = pdftotext(&page.print(A4.0, A4.1), "-raw");
    assert!(printed.split_whitespace().any(|word| word == "31.7"), "{printed}");
}

//! The workout notation on one screen.

use workout_notation::{Workout, notation};

use crate::terminal::table::{WIDTH, heading, wrapped};
use crate::words::reading::reading;

/// The widest that the column of examples is, in characters.
const EXAMPLES: usize = 40;
const MEANINGS: usize = WIDTH as usize - EXAMPLES - 3;

/// What a coach sends, for how it is read.
const SENT: [&str; 5] = [
    "6 x 200, 90s",
    "2 x (300 + 100) rest 60s / 8 min",
    "warm up; 4 x 60; 3 x 150 rest 8'",
    "U13s: 4 x 200 off 2 min, keep tall",
    "5 x 300 @ 48-50s walk back",
];

/// The workout notation on 80 columns, as plain lines: what coaches send and how it is read, then every form.
///
/// ```
/// let text = plan_sheet::notation_text();
/// assert!(text.contains("6 × 200 m, 90 s rest"));
/// assert!(text.contains("6 x 200 off 3:00"));
/// assert!(text.lines().all(|line| line.chars().count() <= 80));
/// ```
pub fn notation_text() -> String {
    let mut lines = vec![heading("How a workout is written"), String::new()];
    for sent in SENT {
        let blocks = Workout::parse(sent).map(Workout::into_blocks).unwrap_or_default();
        let readings: Vec<String> = blocks.iter().map(reading).collect();
        row(&mut lines, sent, &readings.join(" | "));
    }
    lines.extend([String::new(), heading("Every form"), String::new()]);
    for form in notation() {
        row(&mut lines, &fitting(form.examples), form.meaning);
    }
    lines.push(String::new());
    lines.extend(wrapped(CLOSING, WIDTH.into()));
    lines.join("\n") + "\n"
}

/// As many of the examples as fit on a line: the first at least.
fn fitting(examples: &[&str]) -> String {
    let some = (1..=examples.len()).rev().map(|count| examples[..count].join(" · "));
    let fitted = some.into_iter().find(|some| some.chars().count() <= EXAMPLES);
    fitted.or_else(|| examples.first().map(|first| (*first).to_owned())).unwrap_or_default()
}

/// Adds an example and what it means, side by side.
fn row(lines: &mut Vec<String>, example: &str, meaning: &str) {
    let (left, right) = (wrapped(example, EXAMPLES), wrapped(meaning, MEANINGS));
    for row in 0..left.len().max(right.len()) {
        let cell = |column: &[String]| column.get(row).cloned().unwrap_or_default();
        lines.push(format!(" {:EXAMPLES$}  {}", cell(&left), cell(&right)).trim_end().to_owned());
    }
}

const CLOSING: &str = "Lines, ; and // stand between blocks, bullets in front of them; a title and a date may come first, \
    and headings name groups. Spacing and case do not matter. A number without a unit is metres where a distance is \
    meant, seconds where a time is. What stands behind a list is for the whole list; in brackets with one run it is for \
    that run. Words without numbers that are not known are kept as not read.";

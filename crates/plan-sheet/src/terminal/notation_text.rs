//! The workout notation: on one screen, and every form of it.

use workout_notation::{Workout, notation};

use crate::terminal::table::{WIDTH, heading, wrapped};
use crate::words::reading::reading;

/// The widest that the column of examples is, in characters.
const EXAMPLES: usize = 40;
/// The same where readings stand beside them, which are longer.
const SENT_WIDTH: usize = 30;

/// What a coach sends, for how it is read.
const SENT: [&str; 15] = [
    "6 x 200, 90s",
    "8 x 400 @ 75 off 3 min",
    "3 x (4 x 150) 2min / 8min",
    "300 + 200 + 100, 5 min",
    "(400, 300, 200) x 2",
    "200-400-600-400 jog 200",
    "5 x 300 in 48-50s walk back",
    "4 x 150 @ 90% in lanes 2-5",
    "5 x 1000 @ 5k pace rest 2'30\"",
    "3 x flying 30, 5 min",
    "4 x 60 from blocks, 4 min",
    "5 x 110h to hurdle 3, 4 min",
    "80 on the bend easy",
    "wu; 4 x 60; 20 min tempo; CD",
    "U13s: 4 x 200 off 2 min, tall",
];

/// How a workout is written, on one screen of 24 lines and 80 columns: what coaches send and how it is read.
///
/// ```
/// let text = plan_sheet::notation_screen();
/// assert!(text.contains("6 × 200 m, 90 s rest"));
/// assert!(text.lines().count() <= 22);
/// assert!(text.lines().all(|line| line.chars().count() <= 80));
/// ```
pub fn notation_screen() -> String {
    let mut lines = vec![heading("How a workout is written"), String::new()];
    lines.extend(sent());
    lines.push(String::new());
    lines.extend(wrapped(CLOSING, WIDTH.into()));
    lines.join("\n") + "\n"
}

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
    lines.extend(sent());
    lines.extend([String::new(), heading("Every form"), String::new()]);
    lines.extend(notation().flat_map(|form| row(&fitting(form.examples), form.meaning, EXAMPLES)));
    lines.push(String::new());
    lines.extend(wrapped(CLOSING, WIDTH.into()));
    lines.join("\n") + "\n"
}

/// What coaches send, and how it is read.
fn sent() -> Vec<String> {
    let read = |sent: &&str| {
        let blocks = Workout::parse(sent).map(Workout::into_blocks).unwrap_or_default();
        let readings: Vec<String> = blocks.iter().map(reading).collect();
        row(sent, &readings.join(" | "), SENT_WIDTH)
    };
    SENT.iter().flat_map(read).collect()
}

/// As many of the examples as fit on a line: the first at least.
fn fitting(examples: &[&str]) -> String {
    let some = (1..=examples.len()).rev().map(|count| examples[..count].join(" · "));
    let fitted = some.into_iter().find(|some| some.chars().count() <= EXAMPLES);
    fitted.or_else(|| examples.first().map(|first| (*first).to_owned())).unwrap_or_default()
}

/// An example and what it means, side by side: the example so wide.
fn row(example: &str, meaning: &str, width: usize) -> Vec<String> {
    let (left, right) = (wrapped(example, width), wrapped(meaning, usize::from(WIDTH) - width - 3));
    let cell = |column: &[String], row: usize| column.get(row).cloned().unwrap_or_default();
    let line = |row| format!(" {:width$}  {}", cell(&left, row), cell(&right, row)).trim_end().to_owned();
    (0..left.len().max(right.len())).map(line).collect()
}

const CLOSING: &str = "A bare number is metres, or seconds where a time is meant; spacing and case do not matter. What \
    stands behind a list is for all of it. Lines, ; and // stand between blocks; a title and a date may come first, \
    and headings name groups. Unknown words without a number are kept as not read.";

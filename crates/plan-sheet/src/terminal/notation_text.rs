//! The workout notation on one page.

use workout_notation::notation;

use crate::terminal::table::{WIDTH, heading, wrapped};

/// The widest that the column of examples is, in characters.
const EXAMPLES: usize = 38;

/// The workout notation on 80 columns, as plain lines.
///
/// ```
/// let text = plan_sheet::notation_text();
/// assert!(text.contains("6 x 200 off 3:00"));
/// assert!(text.lines().all(|line| line.chars().count() <= 80));
/// ```
pub fn notation_text() -> String {
    let mut lines = vec![heading("How a workout is written"), String::new()];
    for form in notation() {
        let (left, right) = (wrapped(&form.examples.join(" · "), EXAMPLES), wrapped(form.meaning, MEANINGS));
        for row in 0..left.len().max(right.len()) {
            let cell = |column: &[String]| column.get(row).cloned().unwrap_or_default();
            lines.push(format!("  {:EXAMPLES$}  {}", cell(&left), cell(&right)).trim_end().to_owned());
        }
    }
    lines.push(String::new());
    lines.extend(wrapped(CLOSING, WIDTH.into()));
    lines.join("\n") + "\n"
}

const MEANINGS: usize = WIDTH as usize - EXAMPLES - 4;

const CLOSING: &str = "Spacing and case do not matter; x, X, × and * are the same, + and , are the same between \
    runs. A number without a unit is metres where a distance is meant, seconds where a time is. A clause at the \
    end of a list is for the whole list; in brackets with one run it is for that run. Warm-ups, cool-downs and \
    drills appear in the plan as written.";

//! How long the break between two blocks is: `8 min between blocks`.

use crate::line_words::{Word, words};

/// Words in front of it.
const IN_FRONT: [&str; 9] = ["allow", "have", "take", "leave", "with", "a", "break", "rest", "recovery"];

/// Words behind a time.
const BEHIND: [&str; 5] = ["break", "rest", "recovery", "pause", "off"];

/// Words for the blocks of a session.
const BLOCKS: [&str; 6] = ["block", "blocks", "section", "sections", "part", "parts"];

const BETWEEN: [&str; 3] = ["between", "btw", "btwn"];
const MINUTES: [&str; 6] = ["min", "mins", "minute", "minutes", "m", "'"];
const SECONDS: [&str; 6] = ["s", "sec", "secs", "second", "seconds", "\""];

/// The longest break, in minutes.
const LONGEST_MIN: f64 = 60.0;

/// The seconds between two blocks, where a line says that and nothing else.
pub(crate) fn block_break(line: &str) -> Option<f64> {
    let words = words(line.trim().trim_end_matches('.'));
    let mut at = run_of(&words, 0, &["-", "*", "•"]);
    at = run_of(&words, at, &IN_FRONT);
    if let Some(behind) = between(&words, at) {
        let behind = run_of(&words, behind, &[":", "is", "-"]);
        return time(&words, behind).filter(|(_, end)| *end == words.len()).map(|(seconds, _)| seconds);
    }
    let (seconds, end) = time(&words, at)?;
    let end = run_of(&words, end, &BEHIND);
    between(&words, end).filter(|end| *end == words.len()).map(|_| seconds)
}

/// The place behind all words from a place on that are among some.
fn run_of(words: &[Word<'_>], at: usize, some: &[&str]) -> usize {
    at + words[at..].iter().take_while(|word| word.is_one(some)).count()
}

/// The place behind `between each block`.
fn between(words: &[Word<'_>], at: usize) -> Option<usize> {
    words.get(at).filter(|word| word.is_one(&BETWEEN))?;
    let at = run_of(words, at + 1, &["each", "the", "all", "every"]);
    words.get(at).filter(|word| word.is_one(&BLOCKS)).map(|_| at + 1)
}

/// The seconds of a whole number of minutes or seconds, and the place behind it.
fn time(words: &[Word<'_>], at: usize) -> Option<(f64, usize)> {
    let number: f64 = words.get(at)?.text.parse().ok()?;
    let unit = words.get(at + 1)?;
    let seconds = match () {
        () if unit.is_one(&MINUTES) => number * 60.0,
        () if unit.is_one(&SECONDS) => number,
        () => return None,
    };
    (seconds > 0.0 && seconds <= LONGEST_MIN * 60.0).then_some((seconds, at + 2))
}

#[cfg(test)]
mod tests {
    use super::block_break;

    #[test]
    fn a_line_says_how_long_the_break_is() {
        for (line, seconds) in [
            ("8 min between blocks", 480.0),
            ("Allow 8min between each block.", 480.0),
            ("- 90 s rest between the sections", 90.0),
            ("Break between blocks: 10 minutes", 600.0),
            ("between blocks 6'", 360.0),
        ] {
            assert_eq!(block_break(line), Some(seconds), "{line}");
        }
        for line in [
            "8 min between sets",
            "4 x 200, 8 min between blocks",
            "8 between blocks",
            "90 min between blocks",
            "between blocks",
        ] {
            assert_eq!(block_break(line), None, "{line}");
        }
    }
}

//! The words of the notation, for guesses at what a misspelt one was meant to be.

use super::clauses::BEGINNINGS;
use super::effort::EFFORTS;

/// Words that begin no clause.
const OTHERS: [&str; 24] = [
    "back", "bend", "ends", "exchange", "finish", "flying", "home", "hurdle", "hurdles", "laps", "metres",
    "mile", "miles", "minutes", "other", "pace", "reps", "seconds", "sets", "straight", "together", "way",
    "wind", "zone",
];

/// How alike a guess must be: of the kept misspellings each finds its word, and no English word in
/// the tests is taken for another.
const ALIKE: f64 = 0.8;

/// What to write instead of a word that is not known.
pub(crate) fn did_you_mean(word: &str) -> Option<String> {
    // No misspelling is that long, and likeness takes the square of the length.
    if !(2..=20).contains(&word.len()) {
        return None;
    }
    let word = word.to_lowercase();
    let known = || BEGINNINGS.iter().chain(&EFFORTS).chain(&OTHERS);
    if known().any(|known| *known == word) {
        return None;
    }
    known()
        .map(|known| (strsim::jaro_winkler(&word, known), *known))
        .filter(|(likeness, _)| *likeness > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, known)| format!("did you mean `{known}`?"))
}

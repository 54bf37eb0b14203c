//! The words of the notation, for guesses at what a misspelt one was meant to be.

use crate::clauses::BEGINNINGS;
use crate::effort::EFFORTS;

/// Words that begin no clause.
const OTHERS: [&str; 28] = [
    "back", "bend", "ends", "exchange", "finish", "flying", "home", "hurdle", "hurdles", "laps", "line",
    "mark", "metres", "mile", "miles", "min", "minutes", "other", "pace", "reps", "sec", "seconds", "sets",
    "straight", "together", "way", "wind", "zone",
];

/// How alike a guess must be: of the kept misspellings each finds its word, and no English word in
/// the tests is taken for another.
const ALIKE: f64 = 0.8;

/// The lengths in bytes of words that can be misspelt: likeness takes the square of the length.
const MISSPELT: std::ops::RangeInclusive<usize> = 2..=20;

fn known() -> impl Iterator<Item = &'static str> {
    BEGINNINGS.into_iter().chain(EFFORTS).chain(OTHERS)
}

/// Whether this is a word of the notation, in whatever case.
pub(crate) fn is_known(word: &str) -> bool {
    known().any(|known| word.eq_ignore_ascii_case(known))
}

/// What to write instead of a word that is not known.
pub(crate) fn did_you_mean(word: &str) -> Option<String> {
    if !MISSPELT.contains(&word.len()) || is_known(word) {
        return None;
    }
    let word = word.to_lowercase();
    known()
        .map(|known| (likeness(&word, known), known))
        .filter(|(likeness, _)| *likeness > ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, known)| format!("did you mean `{known}`?"))
}

fn likeness(word: &str, known: &str) -> f64 {
    let alike = strsim::jaro_winkler(word, known);
    // Two letters of a short word exchanged leave little in its place.
    let is_slip = word.len() > 2 && word.len() == known.len() && strsim::osa_distance(word, known) == 1;
    if is_slip && alike < ALIKE { f64::midpoint(ALIKE, 1.0) } else { alike }
}

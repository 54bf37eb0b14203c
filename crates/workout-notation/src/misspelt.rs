//! Guesses at what a misspelt word was meant to be.

use crate::form::Forms;
use crate::vocabulary::Role;

/// How alike a guess must be: each misspelling in the tests finds its word, and no English word in
/// the tests is taken for another.
const ALIKE: f64 = 0.8;

/// The lengths in bytes of words that can be misspelt: comparing takes the square of the length.
const MISSPELT: std::ops::RangeInclusive<usize> = 2..=20;

impl Forms {
    /// What to write instead of an unknown word.
    pub(crate) fn did_you_mean(&self, word: &str) -> Option<String> {
        if !MISSPELT.contains(&word.len()) {
            return None;
        }
        // `Flo` is rather somebody's name than `float`.
        let is_name = word.starts_with(char::is_uppercase) && word.ends_with(char::is_lowercase);
        let word = word.to_lowercase();
        let most_slips = if is_name { 1 } else { usize::MAX };
        if self.vocabulary.entry(word.as_bytes()).role.has(Role::KNOWN) {
            return None;
        }
        self.words()
            .map(|known| (likeness(&word, known), known))
            .filter(|(likeness, known)| *likeness > ALIKE && strsim::osa_distance(&word, known) <= most_slips)
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, known)| format!("did you mean `{known}`?"))
    }
}

fn likeness(word: &str, known: &str) -> f64 {
    let alike = strsim::jaro_winkler(word, known);
    // Two swapped letters of a short word leave few in their place.
    let is_slip = word.len() > 2 && word.len() == known.len() && strsim::osa_distance(word, known) == 1;
    if is_slip && alike < ALIKE { f64::midpoint(ALIKE, 1.0) } else { alike }
}

//! The words, numbers and signs of a line, before anybody knows what they mean.

use std::ops::Range;

/// A word, a number, or a sign of a line, and where it stands.
#[derive(Clone, Debug)]
pub(crate) struct Word<'a> {
    pub(crate) text: &'a str,
    pub(crate) range: Range<usize>,
}

impl Word<'_> {
    /// Whether it is a word, whatever its capitals.
    pub(crate) fn is(&self, word: &str) -> bool {
        self.text.eq_ignore_ascii_case(word)
    }

    /// Whether it is one of several words.
    pub(crate) fn is_one(&self, words: &[&str]) -> bool {
        words.iter().any(|word| self.is(word))
    }

    /// Whether it is a number.
    pub(crate) fn is_number(&self) -> bool {
        self.text.starts_with(|letter: char| letter.is_ascii_digit())
    }
}

/// The words of a line: letters and digits that stand together, and each sign.
pub(crate) fn words(line: &str) -> Vec<Word<'_>> {
    let mut words = Vec::new();
    let mut at = 0;
    while let Some(first) = line[at..].chars().next() {
        let kind = |letter: char| (letter.is_alphabetic(), letter.is_ascii_digit());
        let length = match kind(first) {
            (false, false) => first.len_utf8(),
            same => line[at..].find(|letter| kind(letter) != same).unwrap_or(line.len() - at),
        };
        if !first.is_whitespace() {
            words.push(Word { text: &line[at..at + length], range: at..at + length });
        }
        at += length;
    }
    words
}

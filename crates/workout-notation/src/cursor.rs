//! Steps through the tokens of a text and gathers what is wrong with it.

use std::ops::Range;

use crate::problem::Problem;
use crate::token::{Kind, Token};

/// Steps through the tokens of a text and gathers what is wrong with it.
pub(crate) struct Cursor<'a> {
    pub(crate) text: &'a str,
    tokens: &'a [Token],
    at: usize,
    pub(crate) problems: Vec<Problem>,
    /// Whether this is inside brackets behind a run, in which there are no others.
    pub(crate) is_in_brackets: bool,
    /// Where reading went on behind the last word that fitted nowhere.
    pub(crate) lost_at: Option<usize>,
    /// Whether the rest of the text was left unread.
    pub(crate) has_given_up: bool,
    /// How often a token was looked at, so that a test can hold reading to linear time.
    #[cfg(test)]
    pub(crate) looks: std::cell::Cell<usize>,
}

impl<'a> Cursor<'a> {
    pub(crate) const fn new(text: &'a str, tokens: &'a [Token]) -> Self {
        Self {
            text,
            tokens,
            at: 0,
            problems: Vec::new(),
            is_in_brackets: false,
            lost_at: None,
            has_given_up: false,
            #[cfg(test)]
            looks: std::cell::Cell::new(0),
        }
    }

    pub(crate) const fn is_at_end(&self) -> bool {
        self.at >= self.tokens.len()
    }

    pub(crate) const fn place(&self) -> usize {
        self.at
    }

    pub(crate) const fn go_back(&mut self, place: usize) {
        self.at = place;
    }

    pub(crate) const fn skip(&mut self) {
        self.at += 1;
    }

    /// The token `ahead` of the next one.
    fn token(&self, ahead: usize) -> Option<&'a Token> {
        #[cfg(test)]
        self.looks.set(self.looks.get() + 1);
        self.tokens.get(self.at + ahead)
    }

    pub(crate) fn kind(&self, ahead: usize) -> Option<Kind> {
        self.token(ahead).map(|token| token.kind)
    }

    pub(crate) fn is_number(&self, ahead: usize) -> bool {
        matches!(self.kind(ahead), Some(Kind::Number(_)))
    }

    /// The next token as it is written.
    pub(crate) fn written(&self) -> Option<&'a str> {
        self.written_at(0)
    }

    /// A word of the text as it is written; nothing where that token is no word.
    pub(crate) fn word_at(&self, ahead: usize) -> Option<&'a str> {
        let token = self.token(ahead).filter(|token| token.kind == Kind::Word)?;
        Some(&self.text[token.span.clone()])
    }

    /// Whether one of these words, given in small letters, stands `ahead`.
    pub(crate) fn is_word(&self, ahead: usize, words: &[&str]) -> bool {
        self.word_at(ahead).is_some_and(|word| words.iter().any(|known| word.eq_ignore_ascii_case(known)))
    }

    pub(crate) fn is_sign(&self, ahead: usize, sign: char) -> bool {
        self.kind(ahead) == Some(Kind::Sign(sign))
    }

    /// Steps over the next token if it is one of these words.
    pub(crate) fn word(&mut self, words: &[&str]) -> bool {
        let found = self.is_word(0, words);
        self.at += usize::from(found);
        found
    }

    /// Steps over several words, or words and signs, if they come next in this order.
    pub(crate) fn phrase(&mut self, words: &[&str]) -> bool {
        let is_here = words.iter().enumerate().all(|(ahead, word)| match word.chars().next() {
            Some(sign) if word.len() == 1 && !sign.is_alphabetic() => self.is_sign(ahead, sign),
            _ => self.is_word(ahead, &[word]),
        });
        if is_here {
            self.at += words.len();
        }
        is_here
    }

    /// Steps over the next token if it is this sign.
    pub(crate) fn sign(&mut self, sign: char) -> bool {
        let found = self.is_sign(0, sign);
        self.at += usize::from(found);
        found
    }

    /// Steps over one of several phrases; the longest goes first.
    pub(crate) fn one_of(&mut self, phrases: &[&[&str]]) -> bool {
        phrases.iter().any(|phrase| self.phrase(phrase))
    }

    /// Whether the token `ahead` stands right behind the one before it.
    pub(crate) fn is_glued(&self, ahead: usize) -> bool {
        let before = (self.at + ahead).checked_sub(1).and_then(|before| self.tokens.get(before));
        before.zip(self.token(ahead)).is_some_and(|(before, token)| before.span.end == token.span.start)
    }

    /// Whether the token that was stepped over last is this sign.
    pub(crate) fn is_behind(&self, sign: char) -> bool {
        let before = self.at.checked_sub(1).and_then(|before| self.tokens.get(before));
        before.is_some_and(|token| token.kind == Kind::Sign(sign))
    }

    /// The number that stands `ahead`.
    pub(crate) fn number_at(&self, ahead: usize) -> Option<f64> {
        match self.kind(ahead)? {
            Kind::Number(value) => Some(value),
            _ => None,
        }
    }

    /// Whether a times sign is there: x, ×, * or the letter.
    pub(crate) fn is_times(&self, ahead: usize) -> bool {
        self.is_sign(ahead, 'x') || self.is_word(ahead, &["x"])
    }

    /// The place of the next token, or the end of the text.
    pub(crate) fn here(&self) -> Range<usize> {
        self.token(0).map_or(self.text.len()..self.text.len(), |token| token.span.clone())
    }

    /// The bytes from a token to the one that was stepped over last.
    pub(crate) fn since(&self, place: usize) -> Range<usize> {
        let start = self.tokens.get(place).map_or(self.text.len(), |token| token.span.start);
        let last = self.at.checked_sub(1).and_then(|last| self.tokens.get(last));
        start..last.map_or(start, |token| token.span.end).max(start)
    }

    /// The token `ahead` as it is written.
    pub(crate) fn written_at(&self, ahead: usize) -> Option<&'a str> {
        self.token(ahead).map(|token| &self.text[token.span.clone()])
    }

    pub(crate) fn number(&mut self) -> Option<(f64, Range<usize>)> {
        let token = self.token(0)?;
        let Kind::Number(value) = token.kind else { return None };
        self.at += 1;
        Some((value, token.span.clone()))
    }

    pub(crate) fn problem(
        &mut self,
        span: Range<usize>,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.problems.push(Problem::new(span, message).with_help(help));
    }

    /// What comes next, for messages.
    pub(crate) fn found(&self) -> String {
        self.written().map_or_else(|| "the end of the text".to_owned(), |written| format!("`{written}`"))
    }
}

//! A place in a text, from which it is read.

use std::ops::Range;

use crate::doubt::Doubt;
use crate::form::Forms;
use crate::last_run::LastRun;
use crate::phrases::{Phrase, Phrases};
use crate::problem::Problem;
use crate::shared::Shared;
use crate::spanned::Spanned;
use crate::token::{Kind, Lexed, Token};
use crate::turns::Turns;
use crate::unit::Unit;
use crate::vocabulary::Role;

/// A problem was reported: what was read has no value.
#[derive(Debug)]
pub(crate) struct Reported;

/// What was read, unless a problem was reported.
pub(crate) type Read<T> = Result<T, Reported>;

/// Steps through the tokens of a text and gathers what is wrong with it.
pub(crate) struct Cursor<'a> {
    pub(crate) text: &'a str,
    pub(crate) forms: &'static Forms,
    /// The text in small letters, as words are compared again and again.
    small: &'a [u8],
    tokens: &'a [Token],
    /// Everything that words of the text may begin.
    pub(crate) roles: Role,
    at: usize,
    pub(crate) problems: Vec<Problem>,
    /// The numbers that something was made of, by their places, in the order of the text.
    bound: Vec<usize>,
    /// What is told that changes nothing on the ground.
    pub(crate) asides: Vec<Range<usize>>,
    /// The words that were not read.
    pub(crate) not_read: Vec<Range<usize>>,
    /// What could be read in another way.
    pub(crate) doubts: Vec<Doubt>,
    /// What was read for several runs and is to be shared among them.
    pub(crate) shared: Shared,
    /// The run that was read last.
    pub(crate) last_run: Option<LastRun>,
    /// Whether the distance that was read last is in yards.
    pub(crate) is_in_yards: bool,
    /// Whether sets are being read, which have two rests.
    pub(crate) sets: u32,
    /// Whether a run by time was read last, of a list of which each is such a run.
    pub(crate) follows_timed: bool,
    /// Whether the runs of a list were read so far without a count.
    pub(crate) is_behind_uncounted: bool,
    /// The run-in of the flying run that was read last, where it stands behind it.
    pub(crate) run_in_m: Option<f64>,
    /// The race over hurdles that the label names, in metres.
    pub(crate) hurdles_event_m: Option<f64>,
    /// Which problem was the last that something else stood where it must.
    pub(crate) last_expected: Option<usize>,
    /// Whether a plus stands in front of what comes next, which makes it a run.
    pub(crate) is_behind_plus: bool,
    /// Counts that are shown by no series, as their repetitions are shared among targets.
    pub(crate) said_counts: Vec<u32>,
    /// The parts that the run that was read last has times for.
    pub(crate) divided: Option<Turns>,
    /// Whether straights and bends in turn were read.
    pub(crate) has_parts: bool,
    /// Whether a rest stands outside of all brackets.
    pub(crate) has_open_rest: bool,
    /// Whether it stands inside brackets behind a run, which hold no further brackets.
    pub(crate) is_in_brackets: bool,
    /// Where reading resumed after the last word that fitted nowhere.
    pub(crate) lost_at: Option<usize>,
    /// Whether the rest of the text was left unread.
    pub(crate) has_given_up: bool,
    /// How often a token was looked at, so that a test can hold reading to linear time.
    #[cfg(test)]
    pub(crate) looks: std::cell::Cell<usize>,
}

/// The most problems of a text behind which words are compared with those of the notation: more are not told.
const MOST_SUGGESTIONS: usize = 50;

impl<'a> Cursor<'a> {
    pub(crate) fn new(lexed: &'a Lexed<'_>) -> Self {
        Self {
            text: lexed.text,
            forms: lexed.forms,
            small: &lexed.small,
            tokens: &lexed.tokens,
            roles: lexed.roles,
            at: 0,
            problems: Vec::new(),
            bound: Vec::new(),
            asides: Vec::new(),
            not_read: Vec::new(),
            doubts: Vec::new(),
            shared: Shared::default(),
            last_run: None,
            is_in_yards: false,
            sets: 0,
            follows_timed: false,
            is_behind_uncounted: false,
            run_in_m: None,
            hurdles_event_m: None,
            last_expected: None,
            is_behind_plus: false,
            said_counts: Vec::new(),
            divided: None,
            has_parts: false,
            has_open_rest: false,
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

    pub(crate) fn go_back(&mut self, place: usize) {
        self.at = place;
        while self.bound.last().is_some_and(|&number| number >= place) {
            self.bound.pop();
        }
    }

    /// Binds the numbers that were stepped over since a place.
    pub(crate) fn bind_since(&mut self, place: usize) {
        while self.bound.last().is_some_and(|&number| number >= place) {
            self.bound.pop();
        }
        let tokens = self.tokens;
        let is_number = |place: &usize| tokens.get(*place).is_some_and(Token::is_number);
        self.bound.extend((place..self.at).filter(is_number));
    }

    /// Keeps what was stepped over since a place as it is written.
    pub(crate) fn keep(&mut self, place: usize) {
        self.bind_since(place);
        self.asides.push(self.since(place));
    }

    /// The first number that was stepped over and is bound to nothing.
    pub(crate) fn unbound(&self) -> Option<Range<usize>> {
        let mut bound = self.bound.iter().copied().peekable();
        (0..self.at.min(self.tokens.len())).find_map(|place| {
            if !self.is_number_from_start(place) {
                return None;
            }
            bound.next_if_eq(&place).map_or_else(|| Some(self.tokens[place].span.clone()), |_| None)
        })
    }

    pub(crate) const fn skip(&mut self) {
        self.at += 1;
    }

    pub(crate) const fn skip_all(&mut self, tokens: usize) {
        self.at += tokens;
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
        self.token(ahead).is_some_and(Token::is_number)
    }

    /// The next token as it is written.
    pub(crate) fn written(&self) -> Option<&'a str> {
        self.written_at(0)
    }

    /// The word that stands `ahead`, as it is written; nothing where there is something else.
    pub(crate) fn word_at(&self, ahead: usize) -> Option<&'a str> {
        let token = self.token(ahead).filter(|token| token.is_word())?;
        Some(&self.text[token.span.clone()])
    }

    /// The word that stands `ahead`, in small letters.
    fn small_word(&self, ahead: usize) -> Option<&[u8]> {
        let token = self.token(ahead).filter(|token| token.is_word())?;
        self.small.get(token.span.clone())
    }

    /// Whether one of these words, given in small letters, stands `ahead`.
    #[inline]
    pub(crate) fn is_word(&self, ahead: usize, words: &[&str]) -> bool {
        self.small_word(ahead).is_some_and(|word| is_one_of_words(words, word))
    }

    pub(crate) fn is_sign(&self, ahead: usize, sign: char) -> bool {
        self.token(ahead).is_some_and(|token| token.is_sign(sign))
    }

    /// Steps over the next token if it is one of these words.
    pub(crate) fn word(&mut self, words: &[&str]) -> bool {
        let found = self.is_word(0, words);
        self.at += usize::from(found);
        found
    }

    /// The word or the sign that stands `ahead`, in small letters; nothing where there is a number.
    #[inline]
    fn word_or_sign<'b>(&self, ahead: usize, sign: &'b mut [u8; 4]) -> Option<&'b [u8]>
    where
        'a: 'b,
    {
        let token = self.token(ahead)?;
        match token.kind {
            Kind::Number(_) => None,
            Kind::Word => self.small.get(token.span.clone()),
            Kind::Sign(written) => Some(written.encode_utf8(sign).as_bytes()),
        }
    }

    /// Which of several phrases stands `ahead`.
    #[inline]
    pub(crate) fn phrase_at(&self, ahead: usize, phrases: Phrases) -> Option<Phrase> {
        let mut sign = [0; 4];
        let first = self.word_or_sign(ahead, &mut sign)?;
        if !phrases.may_begin_with(*first.first()?) {
            return None;
        }
        phrases.iter().find(|phrase| self.is_phrase(ahead, phrase))
    }

    /// Whether a phrase stands `ahead`.
    fn is_phrase(&self, ahead: usize, phrase: Phrase) -> bool {
        phrase.iter().enumerate().all(|(index, words)| {
            let mut sign = [0; 4];
            self.word_or_sign(ahead + index, &mut sign).is_some_and(|word| is_one_of_words(words, word))
        })
    }

    /// Whether one of several phrases stands `ahead`.
    pub(crate) fn is_one_of(&self, ahead: usize, phrases: Phrases) -> bool {
        self.phrase_at(ahead, phrases).is_some()
    }

    /// Steps over one of several phrases.
    pub(crate) fn one_of(&mut self, phrases: Phrases) -> bool {
        let found = self.phrase_at(0, phrases);
        self.at += found.map_or(0, |phrase| phrase.len());
        found.is_some()
    }

    /// Whether the name of a kind of run stands `ahead`.
    pub(crate) fn is_run_name(&self, ahead: usize) -> bool {
        self.begins(ahead, Role::RUN) && self.forms.runs.iter().any(|form| self.is_one_of(ahead, form.begins))
    }

    /// Whether a clause begins `ahead` of the next token with a word or a sign.
    pub(crate) fn is_clause(&self, ahead: usize) -> bool {
        self.begins(ahead, Role::CLAUSE_ALONE)
            || self.begins(ahead, Role::CLAUSE)
                && self.forms.clauses.iter().any(|form| self.is_one_of(ahead, form.begins))
    }

    /// Whether the token `ahead` may begin what has this role.
    pub(crate) fn begins(&self, ahead: usize, role: Role) -> bool {
        self.token(ahead).is_some_and(|token| token.role.has(role))
    }

    /// Whether the word `ahead` is one of the notation.
    pub(crate) fn is_known(&self, ahead: usize) -> bool {
        self.begins(ahead, Role::KNOWN)
    }

    /// The unit that stands `ahead` as a word.
    pub(crate) fn unit(&self, ahead: usize) -> Option<Unit> {
        self.token(ahead)?.unit
    }

    /// What the next word was meant to be, where it is misspelt.
    pub(crate) fn did_you_mean(&self) -> Option<String> {
        if self.problems.len() > MOST_SUGGESTIONS {
            return None;
        }
        self.word_at(0).and_then(|word| self.forms.did_you_mean(word))
    }

    /// Goes on after a problem to where a clause, a misspelt clause or a run may begin, so that one
    /// problem hides no other.
    pub(crate) fn skip_to_clause(&mut self) {
        let is_end = |cursor: &Self| [')', '+', ',', ';'].iter().any(|&sign| cursor.is_sign(0, sign));
        if !is_end(self) && self.problems.last().is_some_and(|problem| problem.span == self.here()) {
            self.skip();
        }
        while !self.is_at_end() && !self.is_clause(0) && !is_end(self) && self.did_you_mean().is_none() {
            self.skip();
        }
    }

    /// Steps over the next token if it is this sign.
    pub(crate) fn sign(&mut self, sign: char) -> bool {
        let found = self.is_sign(0, sign);
        self.at += usize::from(found);
        found
    }

    /// Whether the token `ahead` stands right behind the one before it.
    pub(crate) fn is_glued(&self, ahead: usize) -> bool {
        let before = (self.at + ahead).checked_sub(1).and_then(|before| self.tokens.get(before));
        before.zip(self.token(ahead)).is_some_and(|(before, token)| before.span.end == token.span.start)
    }

    /// Whether the token `ahead` stands right behind a word: `U13`.
    pub(crate) fn is_in_word(&self, ahead: usize) -> bool {
        self.is_glued(ahead) && self.is_word_from_start(self.at + ahead - 1)
    }

    /// Whether the token that was stepped over last is this sign.
    pub(crate) fn is_behind(&self, sign: char) -> bool {
        let before = self.at.checked_sub(1).and_then(|before| self.tokens.get(before));
        before.is_some_and(|token| token.is_sign(sign))
    }

    /// Whether the token that was stepped over last is one of these words.
    pub(crate) fn is_behind_word(&self, words: &[&str]) -> bool {
        self.is_word_before(1, words)
    }

    /// The word that was stepped over last, as it is written.
    pub(crate) fn word_before(&self) -> Option<&str> {
        let before = self.at.checked_sub(1).and_then(|before| self.tokens.get(before));
        before.filter(|token| token.is_word()).and_then(|token| self.text.get(token.span.clone()))
    }

    /// Whether the token so many before the next one is one of these words.
    pub(crate) fn is_word_before(&self, back: usize, words: &[&str]) -> bool {
        let before = self.at.checked_sub(back).and_then(|before| self.tokens.get(before));
        let word = before.and_then(|token| self.small.get(token.span.clone()));
        word.is_some_and(|word| words.iter().any(|known| known.as_bytes() == word))
    }

    /// Whether the token at a place, counted from the start of the text, is a word.
    pub(crate) fn is_word_from_start(&self, place: usize) -> bool {
        self.tokens.get(place).is_some_and(Token::is_word)
    }

    /// Whether the token at a place, counted from the start of the text, is a number.
    pub(crate) fn is_number_from_start(&self, place: usize) -> bool {
        self.tokens.get(place).is_some_and(Token::is_number)
    }

    /// Whether the token so many before the next one is a number.
    pub(crate) fn is_number_before(&self, back: usize) -> bool {
        self.at.checked_sub(back).is_some_and(|place| self.is_number_from_start(place))
    }

    /// Whether the token so many before the next one is this sign.
    pub(crate) fn is_sign_before(&self, back: usize, sign: char) -> bool {
        let before = self.at.checked_sub(back).and_then(|before| self.tokens.get(before));
        before.is_some_and(|token| token.is_sign(sign))
    }

    /// The number that stands so many tokens before the next one.
    pub(crate) fn number_before(&self, back: usize) -> Option<f64> {
        let before = self.at.checked_sub(back).and_then(|before| self.tokens.get(before))?;
        match before.kind {
            Kind::Number(value) => Some(value),
            _ => None,
        }
    }

    /// Whether the token so many before the next one is a times sign.
    pub(crate) fn is_times_before(&self, back: usize) -> bool {
        let before = self.at.checked_sub(back).and_then(|before| self.tokens.get(before));
        before.is_some_and(|token| token.is_sign('x')) || self.is_word_before(back, &["x"])
    }

    /// Whether a bracket opens anywhere in the text.
    pub(crate) fn has_brackets(&self) -> bool {
        self.tokens.iter().any(|token| token.is_sign('('))
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
        self.bound.push(self.at);
        self.at += 1;
        Some((value, token.span.clone()))
    }

    pub(crate) fn problem(
        &mut self,
        span: Range<usize>,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Reported {
        self.problems.push(Problem::new(span, message).with_help(help));
        Reported
    }

    /// Reports that something else comes next than what must.
    pub(crate) fn expected(&mut self, what: &str, help: impl Into<String>) -> Reported {
        let message = format!("expected {what}, found {}", self.found());
        self.last_expected = Some(self.problems.len());
        self.problem(self.here(), message, help)
    }

    /// What comes next, for messages.
    pub(crate) fn found(&self) -> String {
        self.written().map_or_else(|| "the end of the text".to_owned(), |written| format!("`{written}`"))
    }

    /// Keeps what a run can have only once; a second one is reported.
    pub(crate) fn set<T>(
        &mut self,
        own: &mut Option<Spanned<T>>,
        value: Spanned<T>,
        begins: usize,
        name: &str,
    ) {
        if own.replace(value).is_some() {
            let span = self.since(begins);
            self.problem(span, format!("a second {name} for the same run"), "keep one of them");
        }
    }
}

/// Whether a word in small letters is one of several.
#[inline]
fn is_one_of_words(words: &[&str], word: &[u8]) -> bool {
    words.iter().any(|known| known.as_bytes().first() == word.first() && known.as_bytes() == word)
}

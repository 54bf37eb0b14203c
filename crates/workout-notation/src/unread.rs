//! Words that no form knows, which are left unread.

use crate::cursor::Cursor;

/// Words that a list goes on with, which no clause begins with.
const LIST_WORDS: [&str; 8] = ["then", "and", "plus", "followed", "repeat", "twice", "x", "finally"];

/// Words that deny the effort behind them: `not too fast`.
const DENIES: [&str; 6] = ["not", "no", "never", "nothing", "without", "nor"];

/// The most words in a row behind the word for a clause that say nothing.
const MOST_IDLE: usize = 12;

/// The most words in a row that are left unread in front of a run of a list.
const MOST_UNREAD: usize = 6;

impl Cursor<'_> {
    /// Whether the words that begin at a place end before any number does, so that nothing is lost with them but words.
    pub(crate) fn are_idle_words(&self, place: usize) -> bool {
        let mut at = place;
        while at < place + MOST_IDLE && self.is_word_from_start(at) {
            at += 1;
        }
        at > place && at < place + MOST_IDLE && !self.is_number_from_start(at)
    }

    /// Leaves the words unread that come next.
    pub(crate) fn leave_words(&mut self) {
        let begins = self.place();
        let is_denied = self.is_word(0, &DENIES);
        self.skip();
        while self.word_at(0).is_some()
            && (is_denied && self.is_effort(0) || !self.is_clause(0) && !self.is_effort(0))
            && !self.is_word(0, &LIST_WORDS)
        {
            self.skip();
        }
        let span = self.since(begins);
        self.leave(span);
    }

    /// Whether `and` comes next with words behind it that say nothing, as in `lovely and tall`.
    pub(crate) fn is_idle_and(&self) -> bool {
        self.is_word(0, &["and"])
            && self.word_at(1).is_some()
            && !self.is_known(1)
            && !self.is_item(1)
            && self.are_idle_words(self.place())
    }

    /// Words that no form knows, left unread; those in front of a run of a list are left to the list.
    pub(crate) fn unread_words(&mut self, before: usize) -> bool {
        let begins = self.place();
        // `w/ 1 min easy`
        if self.is_word(0, &["w"]) && self.is_sign(1, '/') && self.is_number(2) {
            self.skip();
            return true;
        }
        if self.is_word(0, &["w"]) && self.is_sign(1, '/') && self.word_at(2).is_some() {
            self.skip_all(2);
        }
        // The word for a clause that none came of, with another word behind it.
        if self.is_clause(0)
            && self.word_at(0).is_some()
            && !self.is_number(1)
            && !self.is_word(0, &LIST_WORDS)
        {
            self.skip();
        }
        let mut has_number = false;
        let is_denied = self.is_word(0, &DENIES);
        while self.word_at(0).is_some()
            && (is_denied && self.is_effort(0)
                || !self.is_clause(0) && (!self.is_effort(0) || self.place() == begins))
            && (!self.is_word(0, &LIST_WORDS) || self.is_idle_and())
            && !self.is_run_name(0)
        {
            self.skip();
            // `build-ups`
            if self.is_sign(0, '-') && self.is_glued(0) && self.is_glued(1) && self.word_at(1).is_some() {
                self.skip_all(2);
            }
            // `U15`, `Y9s`
            if self.is_number(0) && self.is_glued(0) {
                has_number = true;
                self.skip();
            }
        }
        if self.place() == begins {
            return false;
        }
        // `betwen sets 5min`: what is misspelt may be what the number belongs to.
        if self.is_number(0) && !self.is_counted_item(0) && self.is_misspelt_since(begins) {
            self.go_back(begins);
            return false;
        }
        if has_number {
            self.keep(begins);
            return true;
        }
        let is_in_front = self.is_item(0) && self.is_counted_item(0) && begins > before;
        if is_in_front {
            return false;
        }
        let span = self.since(begins);
        self.leave(span);
        true
    }

    /// Whether one of the words from a place on is nearly a word of the notation.
    fn is_misspelt_since(&mut self, begins: usize) -> bool {
        let end = self.place();
        self.go_back(begins);
        let is_misspelt = (0..(end - begins).min(MOST_UNREAD)).any(|_| {
            let is_misspelt = self.did_you_mean().is_some();
            self.skip();
            is_misspelt
        });
        self.go_back(end);
        is_misspelt
    }

    /// Notes words as not read; words that follow one another are noted together.
    pub(crate) fn leave(&mut self, span: std::ops::Range<usize>) {
        match self.not_read.last_mut() {
            Some(last) if last.end <= span.start && self.text[last.end..span.start].trim().is_empty() => {
                last.end = span.end;
            }
            _ => self.not_read.push(span),
        }
    }

    /// How many unread words stand in front of a counted run: `finish with 1 x 300`.
    pub(crate) fn words_before_item(&self) -> Option<usize> {
        let words = (0..MOST_UNREAD)
            .take_while(|&ahead| {
                self.word_at(ahead).is_some() && !self.is_effort(ahead) && !self.is_times(ahead)
            })
            .count();
        (words > 0 && self.is_counted_item(words)).then_some(words)
    }
}

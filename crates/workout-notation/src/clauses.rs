//! Reading the clauses behind a run.

use crate::cursor::Cursor;
use crate::forms::Details;

/// Words that may stand before a clause and add nothing to it.
const CONNECTORS: [&str; 4] = ["with", "w", "and", "plus"];

impl Cursor<'_> {
    /// Reads clauses until something else comes.
    pub(crate) fn clauses(&mut self, details: &mut Details) {
        loop {
            let before = self.place();
            while self.is_sign(0, ',') || self.is_sign(0, ';') {
                self.skip();
            }
            self.connector();
            if !self.clause(details) {
                self.go_back(before);
                return;
            }
        }
    }

    /// `- rest 90s`, `w/ 90s rest`, `and 5 min between sets`
    fn connector(&mut self) {
        let before = self.place();
        let is_word = self.word(&CONNECTORS);
        if is_word {
            self.sign('/');
        }
        if !is_word && !self.sign('-') {
            return;
        }
        // `with the wind` and `with 20 run-in` are more than their first word, and a dash between
        // numbers makes a ladder.
        let goes_on = self.is_duration_gap()
            || is_word && self.is_distance_jog()
            || self.is_clause(0) && !self.is_word(0, &["the"]);
        if !goes_on {
            self.go_back(before);
        }
    }

    /// Reads one clause if one comes next, and says whether it does.
    fn clause(&mut self, details: &mut Details) -> bool {
        if details.read(self) {
            return true;
        }
        if self.is_sign(0, '(') && !self.is_in_brackets {
            self.in_brackets(details);
            return true;
        }
        // `in-and-out` belongs to the run.
        if !self.is_word(0, &["in"]) || self.is_sign(1, '-') || self.is_word(1, &["and"]) {
            return false;
        }
        self.skip();
        self.expected("`lane` after `in`", "write for example `in lane 2` or `in lanes 2-5`");
        self.skip_to_clause();
        true
    }

    /// `(90s)`, `(200 jog)`, `(in lane 2, rest 90s)`: clauses in brackets behind a run.
    fn in_brackets(&mut self, details: &mut Details) {
        let begins = self.here();
        self.skip();
        self.is_in_brackets = true;
        if self.is_duration() && !self.is_duration_gap() {
            let begins = self.place();
            if self.rests(&mut details.recovery, begins, false).is_err() {
                self.skip_to_clause();
            }
        }
        loop {
            self.clauses(details);
            if self.is_at_end() || self.is_sign(0, ')') {
                break;
            }
            self.not_understood();
        }
        self.is_in_brackets = false;
        if !self.sign(')') {
            self.problem(begins, "unclosed `(`", "add `)` after what belongs to the run");
        }
    }
}

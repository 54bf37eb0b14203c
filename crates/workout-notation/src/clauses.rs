//! What is said of a run besides how far it is: which clause comes next.

use super::vocabulary;
use crate::block::Details;
use crate::cursor::Cursor;
use crate::recovery::RESTS;

/// Words that begin a clause.
pub(crate) const BEGINNINGS: [&str; 33] = [
    "in",
    "lane",
    "lanes",
    "on",
    "at",
    "from",
    "to",
    "finishing",
    "finish",
    "starting",
    "start",
    "together",
    "rest",
    "rec",
    "recovery",
    "off",
    "every",
    "jog",
    "walk",
    "stand",
    "standing",
    "change",
    "changing",
    "against",
    "into",
    "with",
    "between",
    "the",
    "full",
    "round",
    "around",
    "along",
    "down",
];

/// Words and signs that may stand before a clause and add nothing to it.
const CONNECTORS: [&str; 4] = ["with", "w", "and", "plus"];

impl Cursor<'_> {
    /// Whether a clause begins `ahead` of the next token.
    pub(crate) fn is_clause(&self, ahead: usize) -> bool {
        self.is_sign(ahead, '@')
            || self.is_word(ahead, &BEGINNINGS)
            || self.is_word(ahead, &RESTS)
            || self.is_effort(ahead)
    }

    /// Goes on behind what was told of last, where a clause, a misspelt clause or a run may begin, so
    /// that one problem hides no other.
    pub(crate) fn skip_to_clause(&mut self) {
        let is_end = |cursor: &Self| [')', '+', ',', ';'].iter().any(|&sign| cursor.is_sign(0, sign));
        if !is_end(self) && self.problems.last().is_some_and(|problem| problem.span == self.here()) {
            self.skip();
        }
        while !self.is_at_end()
            && !self.is_clause(0)
            && !is_end(self)
            && self.word_at(0).is_none_or(|word| vocabulary::did_you_mean(word).is_none())
        {
            self.skip();
        }
    }

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
            || is_word && self.is_distance_way()
            || self.is_clause(0) && !self.is_word(0, &["the"]);
        if !goes_on {
            self.go_back(before);
        }
    }

    /// Reads one clause; false where none comes next.
    fn clause(&mut self, details: &mut Details) -> bool {
        if self.is_number(0) {
            return self.number_clause(details);
        }
        if self.is_sign(0, '(') && !self.is_in_brackets {
            self.in_brackets(details);
            return true;
        }
        // Some clauses begin like others and go first: `on 3:00` is no place, and nobody rests in a
        // `standing start`.
        self.in_clause(details)
            || self.body()
            || self.pace_clause(details)
            || self.end_clause(details)
            || self.recovery_clause(details)
            || self.wherein_clause(details)
            || self.effort_clause(details)
    }

    /// `in lane 2`, `in 48s`, `in the home straight`, `in the other direction`
    fn in_clause(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        if self.is_in_lane() {
            self.lanes_clause(details, begins);
            return true;
        }
        if !self.word(&["in"]) {
            return false;
        }
        if self.is_sign(0, '-') || self.is_word(0, &["and"]) {
            // `in-and-out` belongs to the run.
            self.go_back(begins);
            return false;
        }
        if self.is_number(0) {
            self.pace(details, begins);
        } else if self.is_place_name() {
            self.place_clause(details, begins);
        } else if !self.the_other_way(details, begins) {
            let message = format!("expected `lane` after `in`, found {}", self.found());
            self.problem(self.here(), message, "write for example `in lane 2` or `in lanes 2-5`");
            self.skip_to_clause();
        }
        true
    }

    fn pace_clause(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        let is_pace = self.sign('@') || self.is_at() && self.word(&["at"]);
        if is_pace {
            self.pace(details, begins);
        }
        is_pace
    }

    fn effort_clause(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        let is_effort = self.is_effort(0);
        if is_effort {
            self.effort(details, begins);
        }
        is_effort
    }

    /// A clause that begins with a number: `90s rest`, `200 jog`, `5k pace`, `90%`.
    fn number_clause(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        if self.is_duration_gap() {
            self.gap_clause(details, begins);
        } else if self.is_distance_way() {
            self.way(details, begins);
        } else if self.is_bare_pace() {
            self.pace(details, begins);
        } else {
            return false;
        }
        true
    }

    /// `at 32`, `at 5k pace`, `at mile pace`, `at threshold`
    fn is_at(&self) -> bool {
        self.is_word(0, &["at"]) && (self.is_number(1) || self.is_word(1, &["mile"]) || self.is_effort(1))
    }

    /// `(90s)`, `(200 jog)`, `(in lane 2, rest 90s)`: what is said in brackets behind a run.
    fn in_brackets(&mut self, details: &mut Details) {
        let begins = self.here();
        self.skip();
        self.is_in_brackets = true;
        if self.is_duration() && !self.is_duration_gap() {
            let begins = self.place();
            self.gap_clause(details, begins);
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
            self.problem(begins, "this bracket is not closed", "add `)` after what belongs to the run");
        }
    }

    /// How the athletes stand at the start, which changes nothing on the ground: `from blocks`.
    fn body(&mut self) -> bool {
        const STARTS: [&[&str]; 18] = [
            &["from", "the", "blocks"],
            &["from", "blocks"],
            &["out", "of", "the", "blocks"],
            &["out", "of", "blocks"],
            &["off", "the", "blocks"],
            &["block", "starts"],
            &["block", "start"],
            &["from", "a", "standing", "start"],
            &["from", "standing"],
            &["standing", "starts"],
            &["standing", "start"],
            &["from", "a", "crouch"],
            &["from", "crouch"],
            &["crouch", "starts"],
            &["crouch", "start"],
            &["from", "a", "rolling", "start"],
            &["rolling", "starts"],
            &["rolling", "start"],
        ];
        self.one_of(&STARTS)
    }

    pub(crate) fn once(&mut self, again: bool, begins: usize, what: &str) {
        if again {
            let span = self.since(begins);
            self.problem(span, format!("a second {what} for the same run"), "keep one of them");
        }
    }
}

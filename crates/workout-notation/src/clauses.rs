//! Reading the clauses behind a run.

use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::forms::{Details, Gap};

/// Words that may stand before a clause and add nothing to it.
const CONNECTORS: [&str; 5] = ["with", "w", "and", "plus", "of"];

/// Words between a connector and its clause that add nothing.
#[rustfmt::skip]
pub(crate) const FILLERS: [&str; 17] = [
    "a", "an", "the", "reducing", "decreasing", "increasing", "shortening", "short", "long", "active", "passive",
    "about", "approx", "only", "just", "some", "then",
];

impl Cursor<'_> {
    /// Reads clauses, and what stands between them that says nothing, until something else comes.
    pub(crate) fn clauses(&mut self, details: &mut Details) {
        while !self.is_at_end() {
            let before = self.place();
            if self.sets > 0 && self.are_first_shares() {
                return;
            }
            // `10 x 400 @ 78 60s`
            let has_target = details.pace.is_some() || !self.shared.paces.is_empty();
            let is_behind_target =
                has_target && details.recovery.gap.is_none() && self.is_duration_alone_at(0);
            let is_apart = self.skip_signs()
                | self.connector()
                | self.is_behind(')')
                | self.is_rest_by_itself()
                | is_behind_target;
            if self.bare_minutes_behind_sets(details)
                || self.clause(details)
                || is_apart && self.bare_rest(details)
                || self.aside_in_list()
            {
                continue;
            }
            if !self.unread_words(before) {
                self.go_back(before);
                return;
            }
        }
    }

    /// `6 x 200 3'`, `3 x 800m 3mins`, `8 x 300 3:00`: minutes, or a time that nobody takes for the run.
    fn is_rest_by_itself(&mut self) -> bool {
        let is_minutes = self.is_number(0) && self.seconds_in(1) == Some(60.0);
        if is_minutes && self.number_at(0).is_some_and(|minutes| !self.is_likely_time(minutes * 60.0)) {
            return true;
        }
        if !self.is_duration_alone_at(0) {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let seconds = self.seconds("", "").ok().map(|seconds| *seconds);
        self.problems.truncate(problems);
        self.go_back(before);
        seconds.is_some_and(|seconds| is_minutes || !self.is_likely_time(seconds))
    }

    /// Steps over signs that stand between clauses, and says whether there were any.
    fn skip_signs(&mut self) -> bool {
        let before = self.place();
        loop {
            let is_stop =
                self.is_sign(0, '.') && !(self.is_glued(0) && self.is_glued(1) && self.is_number(1));
            // `(walk back) - spikes`
            let is_dash = self.is_sign(0, '-')
                && self.word_at(1).is_some()
                && !self.is_glued(0)
                && !self.is_clause(1)
                && !self.is_effort(1)
                && !self.is_item(1);
            let is_comma = [',', ';', '>'].iter().any(|&sign| self.is_sign(0, sign));
            if !is_comma && !is_stop && !is_dash && !self.is_idle_colon() {
                break;
            }
            self.skip();
        }
        self.place() > before
    }

    /// `2 x 400m: rest 90s`
    fn is_idle_colon(&self) -> bool {
        self.is_sign(0, ':') && !(self.is_glued(0) && self.is_glued(1) && self.is_number(1))
    }

    /// `- rest 90s`, `w/ 90s rest`, `and 5 min between sets`
    fn connector(&mut self) -> bool {
        let before = self.place();
        // `200 + 20 min`: what joins runs makes a time alone a run.
        // `then 5 min rest` is no run, whatever joins it.
        if (self.is_sign(0, '+') || self.is_word(0, &["then", "and", "plus"])) && self.is_rest_at(1) {
            self.skip();
            return true;
        }
        let is_plus = self.written() == Some("+");
        let joins_runs = self.is_sign(0, '+') || self.is_word(0, &["and", "plus"]);
        let is_word = self.word(&CONNECTORS);
        if is_word {
            self.sign('/');
            self.fillers();
        }
        if !is_word && !self.sign('-') && !self.sign('/') && !self.sign('+') {
            return false;
        }
        if !is_word {
            self.word(&CONNECTORS);
            self.fillers();
        }
        // `with the wind` and `with 20 run-in` are more than their first word, and a dash between
        // numbers makes a ladder.
        if is_plus {
            let is_jog =
                self.is_distance_jog() && !(1..4).any(|ahead| self.is_word(ahead, &["jogging", "walking"]));
            let goes_on = is_jog || self.is_clause(0) && !self.is_word(0, &["the"]);
            if !goes_on {
                self.go_back(before);
            }
            return goes_on;
        }
        let goes_on = self.is_duration_gap()
            || !joins_runs && (self.is_duration_alone_at(0) || self.is_time_range(0))
            || self.is_distance_jog()
            || self.is_equal_jog()
            || self.distance_back_tokens().is_some()
            || !joins_runs && self.is_list_of_rests()
            || self.is_clause(0) && !self.is_word(0, &["the"])
            || (self.is_bare_pace() || self.are_bare_times()) && !is_word;
        if !goes_on {
            self.go_back(before);
        }
        goes_on
    }

    /// Steps over words that add nothing.
    fn fillers(&mut self) {
        let words = (0..4).take_while(|&ahead| self.is_word(ahead, &FILLERS)).count();
        self.skip_all(words);
    }

    /// Reads one clause if one comes next, and says whether it does. Words that begin a clause and say nothing that a
    /// clause could, without a number, are left unread.
    fn clause(&mut self, details: &mut Details) -> bool {
        // `20 x 400 in 4 sets of 5`
        if self.is_word(0, &["in"]) && self.is_number(1) && self.is_word(2, &["sets", "set"]) {
            return false;
        }
        if self.run_in()
            || self.leave_straights_and_bends()
            || self.other_part(&mut details.recovery)
            || self.event()
            || self.named_parts()
        {
            return true;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let held = (self.asides.len(), self.doubts.len());
        if details.read(self) {
            let is_nothing = self.problems.len() == problems + 1 && self.last_expected == Some(problems);
            if is_nothing && self.are_idle_words(before) {
                self.problems.truncate(problems);
                self.asides.truncate(held.0);
                self.doubts.truncate(held.1);
                self.go_back(before);
                self.leave_words();
            }
            return true;
        }
        if self.is_sign(0, '(') && !self.is_in_brackets {
            if !self.note_in_brackets() {
                self.in_brackets(details);
            }
            return true;
        }
        // `in-and-out` belongs to the run.
        if !self.is_word(0, &["in"]) || self.is_sign(1, '-') || self.is_word(1, &["and"]) {
            return false;
        }
        if self.are_idle_words(before) {
            self.leave_words();
            return true;
        }
        if self.aside() {
            return true;
        }
        self.skip();
        self.expected("`lane` after `in`", "write for example `in lane 2` or `in lanes 2-5`");
        self.skip_to_clause();
        true
    }

    /// A duration alone behind a comma, a dash or a bracket is the rest.
    fn bare_rest(&mut self, details: &mut Details) -> bool {
        if self.follows_timed && details.effort.is_none() && !self.is_list_of_rests() {
            return false;
        }
        if !self.is_duration_alone_at(0) && !self.is_list_of_rests() {
            return false;
        }
        let (begins, here) = (self.place(), self.here());
        let was_given = details.recovery.gap.is_some();
        if was_given && self.sets < 2 {
            // `6 x 40 (3min), 10min, 4 x 60`: what follows the whole series.
            return self.rest_afterwards(details);
        }
        if self.rests(&mut details.recovery, begins, false).is_err() {
            self.skip_to_clause();
            return true;
        }
        if let Some(Gap::Rest(seconds)) = details.recovery.gap.as_deref().copied()
            && !was_given
            && details.pace.is_none()
            && self.shared.paces.is_empty()
            && details.recovery.gap.as_ref().is_some_and(|gap| gap.span.start == here.start)
            && self.is_likely_time(seconds)
        {
            self.doubts.push(Doubt::RestOrTarget { seconds });
        }
        true
    }

    /// A second rest in front of a further item: the rest between the two.
    fn rest_afterwards(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        let (problems, doubts) = (self.problems.len(), self.doubts.len());
        let Ok(seconds) = self.seconds("a rest", "write for example `rest 90s`") else {
            self.problems.truncate(problems);
            self.go_back(begins);
            return false;
        };
        let goes_on = self.goes_on_with_item();
        if !goes_on || details.recovery.after.is_some() {
            self.doubts.truncate(doubts);
            let span = seconds.span;
            self.problem(span, "a second rest for the same run", "keep one of them");
            return true;
        }
        details.recovery.after = Some(seconds);
        true
    }

    /// Whether somebody could run the last run in this time.
    pub(crate) fn is_likely_time(&self, seconds: f64) -> bool {
        self.last_run.is_some_and(|run| run.is_likely_time(seconds))
    }
}

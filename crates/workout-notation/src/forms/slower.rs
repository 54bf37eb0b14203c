//! How much slower or faster than another pace: `plus 15 seconds / 400m`, `+2 s a lap`.

use crate::cursor::Cursor;
use crate::forms::pace::{Pace, SHORT_S};
use crate::rest_words::RESTS;

/// No pace is given for less, in metres.
const LEAST_PER_M: f64 = 50.0;

/// So much slower than another pace.
struct Slower {
    /// In seconds; negative is faster.
    seconds: f64,
    /// For each of these distances, in metres; nothing for each run.
    per_m: Option<f64>,
    /// Whether each run differs so much from the one before: `+ 1s each rep`.
    is_each: bool,
}

impl Cursor<'_> {
    /// `+ 3s` behind the pace of a race.
    pub(crate) fn off_race(&mut self, race_m: f64) -> Option<Pace> {
        let before = self.place();
        let slower = self.slower_behind_comma().filter(|slower| !slower.is_each);
        let Some(Slower { seconds, per_m, .. }) = slower else {
            self.go_back(before);
            return None;
        };
        self.bind_since(before);
        Some(Pace::OffRace { race_m, seconds, per_m })
    }

    /// The same behind another pace, which is kept as it is written.
    pub(crate) fn slower_by(&mut self) {
        let before = self.place();
        let begins = before + usize::from(self.is_sign(0, ','));
        match self.slower_behind_comma() {
            Some(_) => self.keep(begins),
            None => self.go_back(before),
        }
    }

    fn slower_behind_comma(&mut self) -> Option<Slower> {
        if self.is_sign(0, ',') && self.is_sign(1, '+') {
            self.skip();
        }
        let is_minus = self.is_sign(0, '-') || self.is_word(0, &["minus"]);
        if !is_minus && !self.is_sign(0, '+') && !self.is_word(0, &["plus"]) || !self.is_duration_at(1) {
            return None;
        }
        let tokens = if self.is_sign(2, ':') { 4 } else { 3 };
        // `@ 32 + 90 s rest`, `@ 800 pace - 2 min`: a time alone is the rest.
        let is_per = self.is_sign(tokens, '/') || self.is_word(tokens, &["per", "a", "each"]);
        // Nobody runs for so short a time in a list of runs, unless it is said how.
        let is_short =
            self.number_at(1).is_some_and(|seconds| seconds <= SHORT_S) && self.seconds_in(2) == Some(1.0);
        let is_slower = is_per
            || self.is_word(tokens, &["slower", "faster"])
            || is_short
                && !self.is_sign(0, '-')
                && !self.is_word(tokens, RESTS)
                && !self.is_word(tokens, &["run"])
                && !self.is_effort(tokens);
        if !is_slower {
            return None;
        }
        self.skip();
        let seconds = self.seconds("a time", "write for example `+ 3s`").ok()?.value;
        self.skip_all(usize::from(is_per));
        let per_m = if is_per { self.per_m() } else { None };
        let is_each = is_per && per_m.is_none();
        if is_each {
            self.word(&["rep"]);
        }
        let is_faster = self.word(&["faster"]) || is_minus;
        self.word(&["slower"]);
        if per_m.is_some_and(|per_m| per_m < LEAST_PER_M) {
            return None;
        }
        Some(Slower { seconds: if is_faster { -seconds } else { seconds }, per_m, is_each })
    }
}

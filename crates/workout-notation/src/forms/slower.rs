//! How much slower or faster than another pace: `plus 15 seconds / 400m`, `+2 s a lap`.

use crate::cursor::Cursor;
use crate::forms::pace::{Pace, SHORT_S};
use crate::forms::recovery::RESTS;

/// What a mile, a kilometre and a lap are taken for, in metres.
const PER: [(&str, f64); 4] = [("lap", 400.0), ("laps", 400.0), ("mile", 1609.344), ("km", 1000.0)];

/// No pace is given for less, in metres.
const LEAST_PER_M: f64 = 50.0;

/// So much slower than another pace.
struct Slower {
    /// In seconds; negative is faster.
    seconds: f64,
    /// For each of these distances, in metres; nothing for each run.
    per_m: Option<f64>,
}

impl Cursor<'_> {
    /// `+ 3s` behind the pace of a race.
    pub(crate) fn off_race(&mut self, race_m: f64) -> Option<Pace> {
        let before = self.place();
        let Some(Slower { seconds, per_m }) = self.slower_behind_comma() else {
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
        let mut per_m = None;
        if is_per {
            self.skip();
            per_m = self.metres().map(|(metres, _)| metres);
            if per_m.is_none() {
                per_m = PER.into_iter().find(|(word, _)| self.word(&[word])).map(|(_, metres)| metres);
                self.word(&["rep"]);
            }
        }
        let is_faster = self.word(&["faster"]) || is_minus;
        self.word(&["slower"]);
        if per_m.is_some_and(|per_m| per_m < LEAST_PER_M) {
            return None;
        }
        Some(Slower { seconds: if is_faster { -seconds } else { seconds }, per_m })
    }
}

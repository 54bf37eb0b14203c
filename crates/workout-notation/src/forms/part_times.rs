//! How fast each part of one run is: `600 (400 in 64, 200 in 30)`, `last 200 in 28`, `first lap at 1500 pace`.

use crate::cursor::Cursor;
use crate::last_run::LastRun;
use crate::quantity::LAPS;
use crate::turns::Turns;

/// Words for one part of several.
const PARTS: [&str; 9] =
    ["first", "second", "third", "fourth", "last", "final", "middle", "next", "remaining"];

/// What a part is of.
const NOUNS: [&str; 14] = [
    "lap", "laps", "half", "one", "ones", "rep", "reps", "run", "runs", "leg", "part", "bit", "straight",
    "bend",
];

/// How close the parts of a run must come to it, in metres.
const SAME_LENGTH_M: f64 = 0.5;

/// The most parts that are looked for.
const MOST_PARTS: usize = 8;

impl Cursor<'_> {
    /// `first 200 in 30, second in 28`: kept as it is written, as no target of the whole run comes of it.
    pub(crate) fn named_parts(&mut self) -> bool {
        let begins = self.place();
        let mut parts = 0;
        while parts < MOST_PARTS {
            let before = self.place();
            if parts > 0 {
                self.joint_of_parts();
            }
            if !self.named_part(parts > 0) {
                self.go_back(before);
                break;
            }
            parts += 1;
        }
        if parts > 0 {
            self.keep(begins);
        }
        parts > 0
    }

    /// `(400 in 64, 200 in 30)`: parts that come to the run, each with its time, which are kept as they are written.
    pub(crate) fn parts_with_times(&mut self) -> bool {
        let Some(LastRun::Metres(length_m)) = self.last_run else { return false };
        let begins = self.place();
        let mut parts = Vec::new();
        while parts.len() < MOST_PARTS {
            let before = self.place();
            if !parts.is_empty() {
                self.joint_of_parts();
            }
            let is_distance = self.metres_tokens(0).is_some_and(|tokens| self.is_time_of_part(tokens));
            let Some((metres, _)) = (if is_distance { self.metres() } else { None }) else {
                self.go_back(before);
                break;
            };
            if !self.time_of_part() {
                break;
            }
            parts.push(metres);
        }
        let is_whole = parts.len() > 1 && (parts.iter().sum::<f64>() - length_m).abs() <= SAME_LENGTH_M;
        let Some(turns) = Turns::new(&parts).filter(|_| is_whole) else {
            self.go_back(begins);
            return false;
        };
        self.keep(begins);
        self.divided = Some(turns);
        true
    }

    /// Steps over what stands between two parts.
    fn joint_of_parts(&mut self) {
        while [',', ';', '/', '+', '.'].iter().any(|&sign| self.sign(sign)) || self.word(&["and", "then"]) {}
    }

    /// `the last 200 in 28`
    fn named_part(&mut self, is_further: bool) -> bool {
        self.word(&["the"]);
        let is_ordinal = self.is_number(0) && self.is_word(1, &["st", "nd", "rd", "th"]) && self.is_glued(1);
        if is_ordinal {
            self.skip_all(2);
        } else if !self.word(&PARTS) {
            return false;
        }
        if let Some(tokens) = self.metres_tokens(0).filter(|_| !self.is_times(1)) {
            self.skip_all(tokens);
        }
        while self.word(&NOUNS) || self.word(&LAPS) {}
        if is_further && self.is_effort(0) {
            self.effort();
            return true;
        }
        self.time_of_part()
    }

    /// Whether the time of a part stands `ahead`: `in 64`, `@ 1500 pace`.
    fn is_time_of_part(&self, ahead: usize) -> bool {
        let is_joined =
            self.is_sign(ahead, '@') || self.is_sign(ahead, ':') || self.is_word(ahead, &["in", "at"]);
        is_joined && self.is_number(ahead + 1) && !self.is_times(ahead + 2)
    }

    fn time_of_part(&mut self) -> bool {
        if !self.is_time_of_part(0) {
            return false;
        }
        self.skip();
        if self.is_bare_pace() {
            while !self.word(&["pace", "speed", "effort"]) && !self.sign('%') && !self.is_at_end() {
                self.skip();
            }
            return true;
        }
        let problems = self.problems.len();
        let mut is_read = self.seconds("", "").is_ok();
        if is_read && self.is_sign(0, '-') && self.is_number(1) && !self.is_times(2) {
            self.skip();
            is_read = self.seconds("", "").is_ok();
        }
        // `3:00/km`
        let is_rate = self.is_sign(0, '/') && (self.metres_in(1).is_some() || self.is_word(1, &LAPS))
            || self.is_word(0, &["per"]);
        if is_read && is_rate {
            self.skip_all(2);
        }
        self.problems.truncate(problems);
        is_read && self.metres_in(0).is_none()
    }
}

//! Paces that several runs have by turns: `alternating 72/68`, `odd @ 70, even @ 66`, `@ 70/80/90%`.

use crate::cursor::Cursor;
use crate::shared::SharedPace;
use crate::spanned::Spanned;

const ODD: [&str; 2] = ["odd", "odds"];
const EVEN: [&str; 2] = ["even", "evens"];

/// The most paces of a list.
const MOST_PACES: usize = 12;

impl Cursor<'_> {
    /// `alternating 72/68`, `odd @ 70, even @ 66`: one pace after the other, over and over.
    pub(crate) fn alternating(&mut self) -> bool {
        let (before, problems) = (self.place(), self.problems.len());
        let is_odd = self.is_word(0, &ODD);
        if !is_odd && !self.is_word(0, &["alternating", "alternate", "alternately", "alt"]) {
            return false;
        }
        self.skip();
        let mut paces = Vec::new();
        while paces.len() < 2 {
            self.word(&["reps", "runs", "ones", "between"]);
            if !self.sign('@') {
                self.word(&["in", "at"]);
            }
            if !self.is_number(0) || self.metres_in(1).is_some() || self.is_times(1) {
                break;
            }
            let Ok(time) = self.seconds("", "") else { break };
            paces.push(Spanned::new(SharedPace::Time(*time), time.span));
            if paces.len() < 2 {
                let is_joined = [',', '/', '-', '+', ';'].iter().any(|&sign| self.sign(sign))
                    | self.word(&["and", "then"]);
                if !is_joined || is_odd && !self.word(&EVEN) {
                    break;
                }
            }
        }
        self.problems.truncate(problems);
        if paces.len() < 2 || self.is_sign(0, '/') && !self.is_duration_at(1) {
            self.go_back(before);
            return false;
        }
        self.shared.paces = paces;
        self.shared.is_alternating = true;
        true
    }

    /// `start at 80 finish at 70`: the first and the last of times that become faster.
    pub(crate) fn start_and_finish(&mut self) -> bool {
        const STARTS: [&str; 3] = ["start", "starting", "begin"];
        if !self.is_word(0, &STARTS) {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let mut paces = Vec::new();
        for words in [STARTS, ["finish", "finishing", "end"]] {
            while !paces.is_empty() && (self.sign(',') || self.word(&["and", "then"])) {}
            if !self.word(&words) || !(self.sign('@') || self.word(&["at", "in"])) || !self.is_number(0) {
                break;
            }
            let Ok(time) = self.seconds("", "") else { break };
            if !self.is_likely_time(*time) {
                break;
            }
            paces.push(Spanned::new(SharedPace::Time(*time), time.span));
        }
        self.problems.truncate(problems);
        if paces.len() < 2 {
            self.go_back(before);
            return false;
        }
        self.shared.paces = paces;
        self.shared.is_progression = true;
        true
    }

    /// `70/80/90%`, `80%, 85%, 90%`: a percentage for each run. Two with a dash are a range.
    pub(crate) fn list_of_percents(&mut self) -> bool {
        let before = self.place();
        let mut percents = Vec::new();
        let mut has_sign = false;
        while percents.len() < MOST_PACES {
            let begins = self.place();
            let Some((percent, _)) = self.number().filter(|(percent, _)| (30.0..=120.0).contains(percent))
            else {
                break;
            };
            has_sign = self.sign('%');
            percents.push(Spanned::new(SharedPace::Percent(percent), self.since(begins)));
            let is_joined = [',', '/', '-'].iter().any(|&sign| self.is_sign(0, sign));
            let is_more = self.is_sign(2, '%')
                || [',', '/', '-'].iter().any(|&sign| self.is_sign(2, sign)) && self.is_number(3);
            if !is_joined || !self.is_number(1) || !is_more {
                break;
            }
            self.skip();
        }
        if percents.len() < 3 || !has_sign {
            self.go_back(before);
            return false;
        }
        self.shared.paces = percents;
        true
    }
}

//! What the runners are told that changes nothing on the ground, with numbers that are kept as they are written:
//! `last 50 fast`, `teams of 3`, `(note: 4 barriers a lap)`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::last_run::LastRun;
use crate::phrases::Phrases;
use crate::quantity::LAPS;

/// The most words and numbers of one.
const MOST_TOKENS: usize = 24;

const PARTS: [&str; 9] = ["first", "last", "final", "middle", "next", "second", "third", "every", "each"];
const GROUPS: [&str; 6] = ["teams", "groups", "pairs", "squads", "team", "group"];
const THINGS: [&str; 23] = [
    "hurdles", "hurdle", "h", "barriers", "cones", "athletes", "runners", "boxes", "steps", "strides",
    "stride", "bpm", "cm", "kg", "inches", "inch", "spikes", "mm", "touches", "contacts", "points", "point",
    "people",
];
const AFTER_A_DISTANCE: [&str; 13] = [
    "decel",
    "deceleration",
    "in",
    "out",
    "relay",
    "flat",
    "approach",
    "apart",
    "spacing",
    "zone",
    "accel",
    "mark",
    "go",
];

pub(crate) const FORM: Form = Form {
    begins: Phrases::NONE,
    words: &["note"],
    rows: &[row(
        &["6 x 150 (note: last 50 fast)", "8 x 400 teams of 3"],
        "what is told besides, kept as it is written",
    )],
};

/// Words for a kind of running that changes no distance and no time.
const EVENTS: [&str; 12] = [
    "relay",
    "relays",
    "steeplechase",
    "steeple",
    "sc",
    "wheelchair",
    "wheelchairs",
    "racerunner",
    "racewalk",
    "racewalking",
    "racewalkers",
    "handcycle",
];

/// Words behind such a kind that belong to it.
#[rustfmt::skip]
const BEHIND_EVENTS: [&str; 18] = [
    "leg", "legs", "team", "teams", "barrier", "barriers", "push", "pushes", "technique", "style", "racing", "race", "walk",
    "walking", "walkers", "changeovers", "chair", "rounds",
];

impl Cursor<'_> {
    /// `relay leg`, `steeplechase barriers`, `race walk`: kept, so that it is seen what kind of running it is.
    pub(crate) fn event(&mut self) -> bool {
        let begins = self.place();
        let is_walk = self.is_word(0, &["race"]) && self.is_word(1, &["walk", "walking", "walkers"]);
        if !is_walk && (!self.is_word(0, &EVENTS) || self.is_run_name(0)) {
            return false;
        }
        self.skip_all(1 + usize::from(is_walk));
        while self.word(&BEHIND_EVENTS) {}
        self.keep(begins);
        true
    }

    /// Reads what is told besides if it comes next, and says whether it does.
    pub(crate) fn aside(&mut self) -> bool {
        self.keep_next(self.aside_tokens())
    }

    /// Keeps so many tokens as they are written, and says whether there are any.
    fn keep_next(&mut self, tokens: Option<usize>) -> bool {
        let begins = self.place();
        let Some(tokens) = tokens else { return false };
        self.skip_all(tokens);
        self.keep(begins);
        true
    }

    /// The same behind a word that joins it to what stands before.
    pub(crate) fn aside_in_list(&mut self) -> bool {
        let before = self.place();
        if self.is_sign(0, '/') || self.is_word(0, &["then", "and"]) {
            self.skip();
        }
        let is_here = self.aside();
        if !is_here {
            self.go_back(before);
        }
        is_here
    }

    /// `(note: …)`: everything to the bracket that closes.
    pub(crate) fn note_in_brackets(&mut self) -> bool {
        if !(self.is_sign(0, '(') && self.is_word(1, &["note"])) {
            return false;
        }
        let before = self.place();
        self.skip_all(2);
        if self.is_sign(0, ':') {
            self.skip();
        }
        let begins = self.place();
        while !self.is_at_end() && !self.is_sign(0, ')') {
            self.skip();
        }
        if self.is_at_end() || self.place() == begins {
            self.go_back(before);
            return false;
        }
        self.keep(begins);
        self.skip();
        true
    }

    /// `1 on 1 off`, `30s hard / 30s easy`: how a run by time is divided; how many tokens.
    fn on_and_off_tokens(&self) -> Option<usize> {
        if !matches!(self.last_run, Some(LastRun::Timed(_))) {
            return None;
        }
        // `3 min hard, 1 min float, 2 min hard, 1 min float`: runs of a list, each with its effort.
        const EFFORTS: [&str; 9] =
            ["hard", "fast", "quick", "float", "easy", "slow", "jog", "steady", "rest"];
        if self.is_word_before(1, &EFFORTS) || self.is_word_before(2, &EFFORTS) {
            return None;
        }
        let part = |ahead: usize, words: &[&str]| {
            let unit = ahead + 1 + usize::from(self.seconds_in(ahead + 1).is_some());
            (self.is_number(ahead) && self.is_word(unit, words)).then_some(unit + 1)
        };
        let on = part(0, &["on", "hard", "fast", "quick"])?;
        let is_joined = [',', '/', '-', '+'].iter().any(|&sign| self.is_sign(on, sign))
            || self.is_word(on, &["and", "then"]);
        part(on + usize::from(is_joined), &["off", "easy", "float", "slow", "jog", "steady"])
    }

    /// Keeps how a run by time is divided, if that comes next, and says whether it does.
    pub(crate) fn on_and_off(&mut self) -> bool {
        self.keep_next(self.on_and_off_tokens())
    }

    /// How many tokens it has where one comes next.
    fn aside_tokens(&self) -> Option<usize> {
        if let Some(tokens) = self.on_and_off_tokens() {
            return Some(tokens);
        }
        let sign = usize::from(self.is_sign(0, '-') || self.is_sign(0, '@'));
        let words = usize::from(self.is_word(sign, &["with", "about", "over", "of", "at", "every"]));
        let number = sign + words;
        if self.is_word(0, &GROUPS) {
            return self.group_tokens();
        }
        if self.is_word(sign + words, &["rpe", "hr", "pulse", "lactate", "borg"]) {
            let name = sign + words + 1;
            let of = usize::from(
                self.is_word(name, &["of", "at"]) || self.is_sign(name, ':') || self.is_sign(name, '='),
            );
            return self
                .is_number(name + of)
                .then(|| self.range_end(name + of))
                .map(|end| end + usize::from(self.is_word(end, &["bpm"])));
        }
        if self.is_word(0, &PARTS) && self.is_number(1) && !self.is_times(2) && !self.is_duration_at(1) {
            let unit = usize::from(self.metres_in(2).is_some() || self.is_word(2, &THINGS));
            return Some(self.words_end(2 + unit));
        }
        if self.is_word(0, &["first", "last", "final"])
            && self.is_word(1, &["one", "rep", "run", "lap", "few", "set"])
        {
            return Some(self.words_end(2));
        }
        // `into the 2nd exchange zone`
        let the = 1 + usize::from(self.is_word(1, &["the"]));
        if self.is_word(0, &["into", "in", "through", "to"])
            && self.is_word(the + 1, &["st", "nd", "rd", "th"])
        {
            return Some(self.words_end(the + 2));
        }
        // `100 m in, 50 m out`, where the first distance is the run.
        if self.is_word(0, &["in"])
            && (self.is_sign(1, ',') || self.is_sign(1, '/'))
            && self.metres_tokens(2).is_some_and(|tokens| self.is_word(2 + tokens, &["out"]))
        {
            return self.metres_tokens(2).map(|tokens| 3 + tokens);
        }
        if !self.is_number(number) || self.is_times(number + 1) {
            return None;
        }
        if self.is_sign(number + 1, '/')
            && self.number_at(number + 2) == Some(10.0)
            && self.metres_in(number + 3).is_none()
        {
            return Some(number + 3 + usize::from(self.is_word(number + 3, &["effort", "intensity"])));
        }
        let end = self.range_end(number);
        // `4 laps total`, `3.2 km in all`
        let unit = end + usize::from(self.metres_in(end).is_some() || self.is_word(end, &LAPS));
        let in_all = unit + usize::from(self.is_word(unit, &["in"]));
        let is_total =
            self.is_word(in_all, &["total", "altogether"]) || in_all > unit && self.is_word(in_all, &["all"]);
        if is_total && self.word_at(in_all + 1).is_none() && !self.is_number(in_all + 1) {
            return Some(in_all + 1);
        }
        if self.is_word(end, &["per", "a", "each"])
            && self.is_word(end + 1, &["lap", "rep", "set", "athlete", "runner", "group", "side", "leg"])
        {
            return Some(end + 2);
        }
        let adjective = usize::from(self.is_word(end, &["low", "high", "mini", "foot", "small", "of"]));
        let is_hurdles = self.is_word(end + adjective, &["h", "hurdle", "hurdles"]);
        if self.is_word(end + adjective, &THINGS) && (words > 0 || !is_hurdles) && !self.is_word(end, &["of"])
        {
            let end = end + adjective + 1;
            let is_per =
                self.is_word(end, &["a", "per", "each"]) && self.is_word(end + 1, &["lap", "side", "leg"]);
            return Some(if is_per { end + 2 } else { end });
        }
        let metres = self.metres_tokens(number)?;
        let end = number + metres;
        if self.is_word(end, &["flat"]) && self.is_word(end + 1, &["out"]) {
            return None;
        }
        if self.is_word(end, &AFTER_A_DISTANCE) && !(self.is_word(end, &["in"]) && self.is_number(end + 1)) {
            return Some(end + 1);
        }
        // The distance between hurdles: `@ 8m`.
        (self.is_sign(0, '@') && self.is_spacing(number)).then_some(end)
    }

    /// Whether a number of something stands `ahead` that is neither a time nor a distance: `20kg`, `9/10`.
    pub(crate) fn is_thing(&self, ahead: usize) -> bool {
        let is_out_of_ten = self.number_at(ahead).is_some_and(|share| share <= 10.0)
            && self.is_sign(ahead + 1, '/')
            && self.number_at(ahead + 2) == Some(10.0)
            && self.metres_in(ahead + 3).is_none();
        let is_counted =
            self.is_number(ahead) && self.is_word(ahead + 1, &THINGS) && !self.is_word(ahead + 1, &["h"]);
        is_out_of_ten || is_counted
    }

    /// Whether a distance stands `ahead` that is no longer than one between hurdles.
    pub(crate) fn is_spacing(&self, ahead: usize) -> bool {
        self.is_number(ahead)
            && self.metres_in(ahead + 1) == Some(1.0)
            && self.number_at(ahead).is_some_and(|metres| metres < 15.0)
    }

    /// `teams of 3`, `Group A 68s Group B 74s`
    fn group_tokens(&self) -> Option<usize> {
        if self.is_word(1, &["of"]) && self.is_number(2) {
            return Some(self.range_end(2));
        }
        let is_named = self.word_at(1).is_some_and(|name| name.len() == 1) || self.is_number(1);
        if !is_named {
            return None;
        }
        let colon = 2 + usize::from(
            self.is_sign(2, ':')
                || self.is_sign(2, '=')
                || self.is_sign(2, '@')
                || self.is_word(2, &["at", "in"]),
        );
        if !self.is_number(colon) || self.metres_in(colon + 1).is_some() || self.is_times(colon + 1) {
            return None;
        }
        let end = if self.is_sign(colon + 1, ':') { colon + 3 } else { self.range_end(colon) };
        Some(end + usize::from(self.seconds_in(end).is_some()))
    }

    /// Where a number or a range of numbers ends that stands `ahead`.
    fn range_end(&self, ahead: usize) -> usize {
        if self.is_sign(ahead + 1, '-') && self.is_number(ahead + 2) { ahead + 3 } else { ahead + 1 }
    }

    /// Where the words end that stand `ahead`.
    fn words_end(&self, ahead: usize) -> usize {
        let words = (ahead..MOST_TOKENS).take_while(|&at| {
            self.word_at(at).is_some()
                && !self.is_word(at, &["then", "and", "rest", "jog", "walk", "with", "rec", "in"])
        });
        ahead + words.count()
    }
}

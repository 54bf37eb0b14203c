//! Recoveries that are as far, or as long, as the run before them: `equal jog`, `half the distance`, `1:1`, `rest = run time`.

use crate::cursor::Cursor;
use crate::last_run::LastRun;
use crate::phrases::Phrases;
use crate::shared::Equal;
use crate::spanned::Spanned;

/// As far as the run before.
pub(super) const EQUAL: Phrases = Phrases::new(&[
    &[&["back"], &["the"], &["distance"]],
    &[&["the"], &["same"], &["distance"]],
    &[&["the"], &["same"]],
    &[&["equal", "same"], &["distance", "distances", "time"]],
    &[&["equal", "same"]],
]);

/// The same in front of what it is said of.
const EQUAL_IN_FRONT: Phrases =
    Phrases::new(&[&[&["equal", "same"], &["distance", "distances", "time"]], &[&["equal", "same"]]]);

/// Half as far, or half as long.
const HALF: Phrases =
    Phrases::new(&[&[&["half"], &["the"], &["distance", "time"]], &[&["half"], &["distance", "time"]]]);

/// What is as long as a run, of which the first may lead on.
const EQUAL_NOUNS: [&str; 5] = ["float", "rest", "recovery", "rec", "recoveries"];

impl Cursor<'_> {
    /// Whether `equal jog`, `same walk`, `half time recovery` comes next.
    pub(crate) fn is_equal_jog(&self) -> bool {
        let words = self.phrase_at(0, HALF).or_else(|| self.phrase_at(0, EQUAL_IN_FRONT));
        words.is_some_and(|words| {
            self.jog_tokens(words.len()).is_some() || self.is_word(words.len(), &EQUAL_NOUNS)
        })
    }

    /// `1:1 rest`, `w:r 1:2`: the rest as so many times the run, where that is a time or has a target; else it is kept as it is
    /// written.
    pub(super) fn ratio(&mut self, begins: usize) -> bool {
        const WORDS: [&str; 9] = ["work", "rest", "w", "r", "ratio", "recovery", "rec", "run", "recoveries"];
        const IN_FRONT: [&str; 5] = ["work", "w", "rest", "r", "ratio"];
        if !self.is_number(0) && !self.is_word(0, &IN_FRONT) {
            return false;
        }
        while self.word(&IN_FRONT) || self.sign(':') || self.sign('/') {}
        let is_ratio = self.is_sign(1, ':')
            && [0, 2].iter().all(|&ahead| {
                self.written_at(ahead).is_some_and(|text| text.len() == 1) && self.number_at(ahead).is_some()
            });
        let (Some(run), Some(rest)) = (self.number_at(0), self.number_at(2)) else {
            self.go_back(begins);
            return false;
        };
        if !is_ratio || run == 0.0 {
            self.go_back(begins);
            return false;
        }
        self.skip_all(3);
        while self.word(&WORDS) || self.is_word(1, &WORDS) && (self.sign(':') || self.sign('/')) {}
        self.keep(begins);
        let share = rest / run;
        if matches!(self.last_run, None | Some(LastRun::Timed(_))) {
            self.shared.equal = Some(Spanned::new(Equal { is_jog: false, share }, self.since(begins)));
        } else {
            self.shared.as_long = Some(Spanned::new(share, self.since(begins)));
        }
        true
    }

    /// `walk equal distance`, `walk the same`, `equal float`, `half distance jog`: as far as the run before, or half as far.
    pub(super) fn equal(&mut self, begins: usize) -> bool {
        let jog = self.jog_tokens(0).or_else(|| self.is_word(0, &["float"]).then_some(1));
        if let Some(jog) = jog
            && (self.is_one_of(jog, EQUAL) || self.is_one_of(jog, HALF))
        {
            let is_jog = !self.is_word(jog - 1, &["walk", "walking"]);
            self.skip_all(jog);
            let share = if self.one_of(HALF) { 0.5 } else { 1.0 };
            self.one_of(EQUAL);
            self.shared.equal = Some(Spanned::new(Equal { is_jog, share }, self.since(begins)));
            self.rest_behind();
            return true;
        }
        let share = if self.one_of(HALF) {
            0.5
        } else if self.one_of(EQUAL_IN_FRONT) {
            1.0
        } else {
            return false;
        };
        let is_far = self.is_behind_word(&["distance", "distances"]);
        let is_as_long = self.is_behind_word(&["time"]);
        let Some(jog) = self.jog_tokens(0).or_else(|| self.is_word(0, &EQUAL_NOUNS).then_some(1)) else {
            self.go_back(begins);
            return false;
        };
        let is_time = self.is_word(jog - 1, &EQUAL_NOUNS[1..]) && !is_far || is_as_long;
        let is_jog = !self.is_word(jog - 1, &["walk", "walking"]);
        self.skip_all(jog);
        if is_time && self.as_long(begins, share) {
            return true;
        }
        self.shared.equal = Some(Spanned::new(Equal { is_jog, share }, self.since(begins)));
        self.rest_behind();
        true
    }

    /// A rest that lasts a share of each run, where targets say how long that is.
    fn as_long(&mut self, begins: usize, share: f64) -> bool {
        if !matches!(self.last_run, None | Some(LastRun::Timed(_))) {
            // How long a run takes its target says, if it has one.
            self.rest_behind();
            self.shared.as_long = Some(Spanned::new(share, self.since(begins)));
            self.keep(begins);
            return true;
        }
        false
    }

    /// `rest equal time`, `rest = half the time`
    pub(super) fn equal_rest(&mut self, begins: usize) -> bool {
        const RUN_TIME: Phrases =
            Phrases::new(&[&[&["run", "running"], &["time"]], &[&["time"], &["of"], &["run"]]]);
        let share = if self.one_of(HALF) {
            0.5
        } else if self.one_of(EQUAL) || self.one_of(RUN_TIME) {
            1.0
        } else {
            return false;
        };
        let is_time = self.is_behind_word(&["time", "run"]);
        is_time && self.as_long(begins, share)
    }
}

//! How hard a run is, in words.

use crate::block::Details;
use crate::cursor::Cursor;
use crate::spanned::Spanned;

/// Words for how hard a run is.
pub(crate) const EFFORTS: [&str; 29] = [
    "easy",
    "steady",
    "hard",
    "fast",
    "quick",
    "relaxed",
    "tempo",
    "threshold",
    "float",
    "controlled",
    "smooth",
    "brisk",
    "moderate",
    "strong",
    "sprint",
    "sprints",
    "sprinting",
    "strides",
    "progressive",
    "accelerating",
    "building",
    "cruise",
    "fartlek",
    "max",
    "maximum",
    "maximal",
    "submaximal",
    "jogging",
    "walking",
];

/// Words that may follow an effort and add nothing to it.
const RUNNING: [&str; 6] = ["pace", "effort", "run", "running", "runs", "speed"];

impl Cursor<'_> {
    /// Whether a word for how hard a run is stands `ahead`.
    pub(crate) fn is_effort(&self, ahead: usize) -> bool {
        self.is_word(ahead, &EFFORTS)
            || self.is_word(ahead, &["flat", "all"]) && self.is_word(ahead + 1, &["out"])
            || self.is_word(ahead, &["time"]) && self.is_word(ahead + 1, &["trial"])
    }

    /// `easy`, `fast and relaxed`, `tempo pace`, `flat out`, `time trial`
    pub(crate) fn effort(&mut self, details: &mut Details, begins: usize) {
        let mut words = self.effort_word();
        loop {
            let joined = usize::from(self.is_word(0, &["and"]) || self.is_sign(0, '+'));
            if !self.is_effort(joined) {
                break;
            }
            (0..joined).for_each(|_| self.skip());
            words = format!("{words} {}", self.effort_word());
        }
        self.word(&RUNNING);
        self.once(details.effort.is_some(), begins, "effort");
        details.effort = Some(Spanned::new(words, self.since(begins)));
    }

    fn effort_word(&mut self) -> String {
        let word = self.word_at(0).unwrap_or_default().to_lowercase();
        self.skip();
        for second in ["out", "trial"] {
            if matches!((word.as_str(), second), ("flat" | "all", "out") | ("time", "trial"))
                && self.word(&[second])
            {
                return format!("{word} {second}");
            }
        }
        word
    }
}

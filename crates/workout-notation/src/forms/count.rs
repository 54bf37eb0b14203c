//! How often something is run: `6 x 200`, `200 x 6`, `3 sets of 4 x 200`.

use std::ops::Range;

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::phrases::Phrases;
use crate::quantity::LAPS;

/// The most repetitions in one session.
pub const MOST_REPS: u32 = 500;

/// A count of `200 x 6` is below this, and a distance is not.
const LEAST_RUN_M: f64 = 10.0;

pub(crate) const FORM: Form = Form {
    begins: Phrases::NONE,
    words: &["reps", "sets"],
    rows: &[
        row(&["6 x 200", "200"], "repetitions of one distance"),
        row(&["3 x (4 x 200)", "3 sets of 4 x 200"], "sets"),
    ],
};

impl Cursor<'_> {
    /// `200 x 6`: nobody runs 200 times 6 m.
    pub(crate) fn is_distance_first(&self) -> bool {
        let is_so = self.is_times(1)
            && self.number_at(0).is_some_and(|metres| metres >= LEAST_RUN_M)
            && self.number_at(2).is_some_and(|count| count < LEAST_RUN_M);
        let is_else = self.metres_in(3).is_some()
            || self.seconds_in(3).is_some()
            || self.is_word(3, &LAPS)
            // `10 x 2 hurdles`
            || self.is_word(3, &["h", "hurdle", "hurdles", "half"])
            || self.track_part_at(3).is_some()
            || self.is_sign(3, ':')
            || self.is_times(3)
            || self.is_count_word(3)
            || self.is_sign(3, ',')
                && self.is_glued(3)
                && self.is_glued(4)
                && self.written_at(4).is_some_and(|text| text.len() == 3);
        is_so && !is_else
    }

    /// Whether a word behind a count stands `ahead`: `sets of`, `times`, `reps x`.
    pub(crate) fn is_count_word(&self, ahead: usize) -> bool {
        self.is_word(ahead, &["times", "by"])
            || self.is_word(ahead, &["set", "sets", "rep", "reps", "lots", "series", "rounds"])
                && (self.is_word(ahead + 1, &["of"])
                    || self.is_times(ahead + 1)
                    || self.is_number(ahead + 1)
                    || self.is_sign(ahead + 1, '(')
                    || self.is_sign(ahead + 1, ':'))
    }

    /// Whether a number and a times sign stand `ahead`.
    pub(crate) fn is_counted_item(&self, ahead: usize) -> bool {
        self.is_number(ahead) && (self.is_times(ahead + 1) || self.is_count_word(ahead + 1))
    }

    pub(crate) fn count(&mut self) -> Option<u32> {
        let (value, span) = self.number()?;
        let is_times = self.is_times(0);
        self.skip();
        if !is_times && self.is_times(0) || self.is_word(0, &["of"]) || self.is_sign(0, ':') {
            self.skip();
        }
        self.whole_count(value, span)
    }

    pub(crate) fn whole_count(&mut self, value: f64, span: Range<usize>) -> Option<u32> {
        let is_count = value.fract() == 0.0 && (1.0..=f64::from(MOST_REPS)).contains(&value);
        if !is_count {
            let message = if value.fract() == 0.0 && value > 0.0 {
                format!("`{}` repetitions are too many", &self.text[span.clone()])
            } else {
                format!("`{}` is not a number of repetitions", &self.text[span.clone()])
            };
            self.problem(span, message, format!("write a whole number from 1 to {MOST_REPS}"));
        }
        is_count.then_some(value as u32)
    }
}

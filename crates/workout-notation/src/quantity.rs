//! Distances and durations.

use std::fmt;
use std::ops::Range;

use crate::cursor::{Cursor, Read};
use crate::spanned::Spanned;
use crate::unit::MINUTES;

/// The longest duration that is read, in seconds.
const LONGEST_S: f64 = 6.0 * 3600.0;

pub(crate) const LAPS: [&str; 2] = ["lap", "laps"];

/// What to write instead of a time that cannot be.
pub(crate) const TIME_THAT_CAN_BE: &str = "write more than 0 s and at most 6 hours";

/// Whether somebody may run or rest so many seconds.
pub(crate) fn is_time_that_can_be(seconds: f64) -> bool {
    seconds > 0.0 && seconds <= LONGEST_S
}

/// `3.20`: minutes with a point in front of two digits of seconds, in seconds.
pub(crate) fn minutes_and_seconds(written: &str) -> Option<f64> {
    let (minutes, seconds) = written.split_once('.').filter(|(_, seconds)| seconds.len() == 2)?;
    let seconds = seconds.parse::<u32>().ok().filter(|seconds| *seconds < 60)?;
    Some(f64::from(minutes.parse::<u32>().ok()?.checked_mul(60)?.checked_add(seconds)?))
}

/// `1.30`, `2.15`: the same as rests are written.
pub(crate) fn minutes_of_rest(written: &str) -> Option<f64> {
    minutes_and_seconds(written).filter(|rest_s| *rest_s < 21.0 * 60.0 && rest_s % 5.0 == 0.0)
}

impl Cursor<'_> {
    /// The metres of a unit that stands `ahead`.
    pub(crate) fn metres_in(&self, ahead: usize) -> Option<f64> {
        self.unit(ahead)?.metres()
    }

    /// The seconds of a unit of time that stands `ahead`: a word, or the ticks of `2'30"`.
    pub(crate) fn seconds_in(&self, ahead: usize) -> Option<f64> {
        if self.is_sign(ahead, '"') {
            return Some(1.0);
        }
        if self.is_sign(ahead, '\'') {
            return Some(if self.is_sign(ahead + 1, '\'') { 1.0 } else { 60.0 });
        }
        self.unit(ahead)?.seconds()
    }

    fn skip_unit_of_time(&mut self) {
        if self.is_sign(0, '\'') && self.is_sign(1, '\'') {
            self.skip();
        }
        self.skip();
        // `90 sec. rest`
        if self.is_sign(0, '.') && self.is_glued(0) {
            self.skip();
        }
    }

    /// Whether a number with a unit of time stands `ahead`.
    pub(crate) fn is_duration_at(&self, ahead: usize) -> bool {
        self.is_number(ahead)
            && (self.is_sign(ahead + 1, ':') && self.is_number(ahead + 2)
                // A number with an `h` is a race over hurdles.
                || !self.is_word(ahead + 1, &["h"])
                    && self.seconds_in(ahead + 1).is_some()
                    // `200 s: 31` begins what is said of the pace.
                    && !(self.is_word(ahead + 1, &["s"]) && !self.is_glued(ahead + 1)
                        && (self.is_sign(ahead + 2, ':') || self.is_sign(ahead + 2, '='))))
    }

    /// Whether a number with a unit of time comes next.
    pub(crate) fn is_duration(&self) -> bool {
        self.is_duration_at(0)
    }

    /// The metres of a unit that comes next, which is stepped over.
    fn unit_of_length(&mut self) -> Option<f64> {
        let metres = self.metres_in(0)?;
        self.skip();
        Some(metres)
    }

    /// The thousands of `1,000`, behind which their hundreds come next. No ladder has such a step: a
    /// run is longer than 9 m, and never 0 m.
    fn thousands(&mut self, value: f64) -> Option<f64> {
        let hundreds = self.written_at(1)?;
        let is_here = self.is_sign(0, ',')
            && self.is_glued(0)
            && self.is_number(1)
            && self.is_glued(1)
            && hundreds.len() == 3
            && value.fract() == 0.0
            && (value < 10.0 || value < 100.0 && hundreds == "000");
        if !is_here {
            return None;
        }
        self.skip();
        let (more, _) = self.number()?;
        Some(value * 1000.0 + more)
    }

    /// A distance of any size: `200`, `200m`, `1,000 m`, `1.5 km`, `mile`.
    pub(crate) fn metres(&mut self) -> Option<(f64, Range<usize>)> {
        let begins = self.place();
        let value = match self.number() {
            Some((value, _)) => {
                let value = self.thousands(value).unwrap_or(value);
                value * self.unit_of_length().unwrap_or(1.0)
            }
            None if self.fraction_tokens().is_some() => {
                let share = if self.is_word(0, &["half"]) { 0.5 } else { 0.25 };
                self.skip_all(self.fraction_tokens()?);
                share * self.unit_of_length()?
            }
            // `mile` alone is one, and `5 x K`.
            None if self.is_word(0, &["mile"]) || self.is_word(0, &["k", "km"]) && self.is_behind_times() => {
                self.unit_of_length()?
            }
            None => return None,
        };
        Some((value, self.since(begins)))
    }

    /// How many tokens `half a` or `half` has in front of a unit of length.
    pub(crate) fn fraction_tokens(&self) -> Option<usize> {
        let article = usize::from(self.is_word(1, &["a", "an"]));
        let is_here = self.is_word(0, &["half", "quarter"])
            && self.metres_in(1 + article).is_some_and(|metres| metres > 100.0);
        is_here.then_some(1 + article)
    }

    /// How many tokens a distance has that stands `ahead`; nothing where none does.
    pub(crate) fn metres_tokens(&self, ahead: usize) -> Option<usize> {
        if !self.is_number(ahead) || self.is_duration_at(ahead) {
            return None;
        }
        Some(1 + usize::from(self.metres_in(ahead + 1).is_some()))
    }

    /// A duration: `48`, `48s`, `3min`, `1:12`, `1:02.5`, `2 min 30`, `2'30"`.
    pub(crate) fn seconds(&mut self, what: &str, help: &str) -> Read<Spanned<f64>> {
        let begins = self.place();
        let Some((value, first)) = self.number() else {
            return Err(self.expected(what, help));
        };
        let mut seconds = value;
        if self.sign(':') {
            match self.number() {
                // `1:1` is a ratio.
                Some((more, more_span))
                    if more < 60.0 && more_span.start == first.end + 1 && more_span.len() > 1 =>
                {
                    seconds = value * 60.0 + more;
                }
                _ => {
                    return Err(self.problem(first, "expected seconds below 60 after the colon", help));
                }
            }
            self.word(MINUTES);
        } else if let Some(unit) = self.seconds_in(0) {
            self.skip_unit_of_time();
            seconds = value * unit;
            if unit == 60.0
                && self.is_seconds_more()
                && let Some((more, _)) = self.number()
            {
                seconds += more;
                if self.seconds_in(0) == Some(1.0) {
                    self.skip_unit_of_time();
                }
            }
        }
        self.time_that_can_be(seconds, begins, what)
    }

    /// Whether a number ahead is minutes and seconds with a point, and a time for the last run.
    pub(crate) fn is_in_minutes(&self, ahead: usize) -> bool {
        let time = self.written_at(ahead).and_then(minutes_and_seconds);
        time.is_some_and(|seconds| self.is_likely_time(seconds))
    }

    /// `1000 @ 3.20`: minutes and seconds, where nobody runs the last run in so few seconds.
    pub(crate) fn in_minutes(&self, time: Spanned<f64>) -> Spanned<f64> {
        let whole_s = minutes_and_seconds(&self.text[time.span.clone()]);
        match whole_s.filter(|whole_s| !self.is_likely_time(time.value) && self.is_likely_time(*whole_s)) {
            Some(whole_s) => Spanned::new(whole_s, time.span),
            None => time,
        }
    }

    /// A time that begins at a place and ends here; none is longer than [`LONGEST_S`].
    pub(crate) fn time_that_can_be(&mut self, seconds: f64, begins: usize, what: &str) -> Read<Spanned<f64>> {
        let span = self.since(begins);
        if !is_time_that_can_be(seconds) {
            let message = format!("`{}` is out of range for {what}", &self.text[span.clone()]);
            return Err(self.problem(span, message, TIME_THAT_CAN_BE));
        }
        Ok(Spanned::new(seconds, span))
    }

    /// Whether a unit or a sign stands `ahead` that makes the number before it a distance, a time, a
    /// percentage or a count of laps.
    pub(crate) fn is_unit(&self, ahead: usize) -> bool {
        self.metres_in(ahead).is_some()
            || self.seconds_in(ahead).is_some()
            || self.is_word(ahead, &LAPS)
            || [':', '%', '/'].iter().any(|&sign| self.is_sign(ahead, sign))
    }

    /// Whether a duration is written in minutes.
    pub(crate) fn has_minutes(&self, duration: &Spanned<f64>) -> bool {
        self.text[duration.span.clone()].contains(['m', 'M', '\'', '′', '’'])
    }

    /// Whether seconds follow a number of minutes: `2 min 30`, `2 min 30 s`.
    fn is_seconds_more(&self) -> bool {
        let is_below_a_minute = self.number_at(0).is_some_and(|more| more < 60.0);
        let is_else = self.is_times(1)
            || self.is_count_word(1)
            || self.metres_in(1).is_some()
            || self.is_word(1, &LAPS)
            || [':', '%', '/'].iter().any(|&sign| self.is_sign(1, sign))
            || self.seconds_in(1).is_some_and(|unit| unit > 1.0);
        is_below_a_minute && !is_else
    }
}

/// A duration in seconds as the notation reads it.
pub(crate) struct Duration(pub(crate) f64);

impl fmt::Display for Duration {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let minutes = (self.0 / 60.0).floor();
        let seconds = self.0 - minutes * 60.0;
        // Only where rounding loses nothing.
        if minutes >= 1.0 && minutes * 60.0 + seconds == self.0 && seconds.fract() == 0.0 {
            write!(f, "{minutes}:{seconds:02}")
        } else {
            write!(f, "{}s", self.0)
        }
    }
}

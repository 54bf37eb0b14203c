//! Distances, durations and lanes.

use std::ops::Range;

use lane_distance::{MOST_LANES, REP_RANGE_M};

use super::block::Length;
use super::cursor::Cursor;
use super::spanned::Spanned;

/// The longest duration that is read, in seconds.
const LONGEST_S: f64 = 6.0 * 3600.0;

/// The most laps of one run.
const MOST_LAPS: f64 = 50.0;

pub(crate) const EXAMPLE: &str = "write for example `6 x 200 in lane 2`";

/// What a word means as a unit of length, in metres.
fn metres_in(word: &str) -> Option<f64> {
    Some(match word {
        "m" | "metre" | "metres" | "meter" | "meters" => 1.0,
        "km" | "k" => 1000.0,
        "yd" | "yds" | "yard" | "yards" => 0.9144,
        "mile" | "miles" | "mi" => 1609.344,
        _ => return None,
    })
}

fn seconds_in(word: &str) -> Option<f64> {
    Some(match word {
        "s" | "sec" | "secs" | "second" | "seconds" => 1.0,
        "min" | "mins" | "minute" | "minutes" => 60.0,
        "h" | "hour" | "hours" => 3600.0,
        _ => return None,
    })
}

fn is_lap(word: &str) -> bool {
    matches!(word, "lap" | "laps")
}

impl Cursor<'_> {
    /// Whether a number with a unit of time comes next.
    pub(crate) fn is_duration(&self) -> bool {
        self.is_number(0) && self.word_at(1).is_some_and(|word| seconds_in(&word).is_some() && word != "h")
            || self.is_number(0) && self.is_sign(1, ':') && self.is_number(2)
    }

    /// The metres of a unit that comes next, which is stepped over.
    fn unit_of_length(&mut self) -> Option<f64> {
        let metres = metres_in(&self.word_at(0)?)?;
        self.skip();
        Some(metres)
    }

    /// A distance of any size: `200`, `200m`, `1.5 km`, `mile`.
    pub(crate) fn metres(&mut self) -> Option<(f64, Range<usize>)> {
        let begins = self.place();
        let value = match self.number() {
            Some((value, _)) => value * self.unit_of_length().unwrap_or(1.0),
            // `mile` alone is one.
            None if self.is_word(0, &["mile"]) => self.unit_of_length()?,
            None => return None,
        };
        Some((value, self.since(begins)))
    }

    /// How far a run is: metres, or laps of the lane that is run.
    pub(crate) fn length(&mut self) -> Option<Spanned<Length>> {
        let begins = self.place();
        let negative = self.sign('-');
        let laps = self.is_number(0) && self.word_at(1).is_some_and(|word| is_lap(&word));
        if laps || self.is_word(0, &["lap"]) {
            let count = self.number().map_or(1.0, |(count, _)| count);
            self.skip();
            let span = self.since(begins);
            if negative || !(0.1..=MOST_LAPS).contains(&count) {
                let message = format!("`{}` is out of range", &self.text[span.clone()]);
                self.problem(span, message, format!("write from 0.1 to {MOST_LAPS} laps"));
                return None;
            }
            return Some(Spanned::new(Length::Laps(count), span));
        }
        let Some((metres, _)) = self.metres() else {
            let message = format!("expected a distance, found {}", self.found());
            self.problem(self.here(), message, EXAMPLE);
            return None;
        };
        let span = self.since(begins);
        if negative || !REP_RANGE_M.contains(&metres) {
            let message = format!("a repetition of `{}` is out of range", &self.text[span.clone()]);
            let (least, most) = (REP_RANGE_M.start(), REP_RANGE_M.end());
            self.problem(span, message, format!("write a distance from {least} m to {most} m"));
            return None;
        }
        Some(Spanned::new(Length::Metres(metres), span))
    }

    /// A duration: `48`, `48s`, `3min`, `1:12`, `1:02.5`, `2 min 30`.
    pub(crate) fn seconds(&mut self, what: &str, help: &str) -> Option<Spanned<f64>> {
        let begins = self.place();
        let Some((value, first)) = self.number() else {
            let message = format!("expected {what}, found {}", self.found());
            self.problem(self.here(), message, help);
            return None;
        };
        let mut seconds = value;
        if self.is_sign(0, ':') {
            self.skip();
            match self.number() {
                Some((more, more_span)) if more < 60.0 && more_span.start == first.end + 1 => {
                    seconds = value * 60.0 + more;
                }
                _ => {
                    self.problem(first, "expected seconds below 60 after the colon", help);
                    return None;
                }
            }
        } else if let Some(second) = self.word_at(0).and_then(|word| seconds_in(&word)) {
            self.skip();
            seconds = value * second;
            // `2 min 30` and `2 min 30 s`
            let more = self.is_number(0) && second == 60.0 && !self.is_times(1);
            let is_rest =
                more && !self.word_at(1).is_some_and(|word| metres_in(&word).is_some() || word == "min");
            if is_rest && let Some((more, _)) = self.number() {
                seconds += more;
                self.word(&["s", "sec", "secs", "second", "seconds"]);
            }
        }
        let span = self.since(begins);
        if !(0.0..=LONGEST_S).contains(&seconds) || seconds == 0.0 {
            let message = format!("`{}` is out of range for {what}", &self.text[span.clone()]);
            self.problem(span, message, "write more than 0 s and at most 6 hours");
            return None;
        }
        Some(Spanned::new(seconds, span))
    }

    /// Lanes: `2`, `2-5`, `2,4,6`, `2 and 4`, `2 to 5`.
    pub(crate) fn lanes(&mut self) -> Option<Spanned<Vec<u8>>> {
        let begins = self.place();
        let mut lanes = Vec::new();
        loop {
            let (first, span) = self.lane()?;
            let mut last = first;
            if self.sign('-') || self.word(&["to"]) {
                let (to, to_span) = self.lane()?;
                if to < first {
                    let message = format!("lanes {first} to {to} run backwards");
                    self.problem(span.start..to_span.end, message, format!("write `lanes {to}-{first}`"));
                }
                last = to;
            }
            for lane in first..=last {
                if lanes.contains(&lane) {
                    self.problem(span.clone(), format!("lane {lane} is named twice"), "name it once");
                } else {
                    lanes.push(lane);
                }
            }
            // A comma goes on with the list only where a number follows it that begins nothing else.
            let goes_on = (self.is_sign(0, ',') || self.is_word(0, &["and"]) || self.is_sign(0, '+'))
                && self.is_number(1)
                && !self.is_times(2)
                && !self
                    .word_at(2)
                    .is_some_and(|word| seconds_in(&word).is_some() || metres_in(&word).is_some());
            if !goes_on {
                break;
            }
            self.skip();
        }
        Some(Spanned::new(lanes, self.since(begins)))
    }

    fn lane(&mut self) -> Option<(u8, Range<usize>)> {
        let help = format!("write a lane from 1 to {MOST_LANES}, for example `in lane 2`");
        let Some((value, span)) = self.number() else {
            let message = format!("expected the number of a lane, found {}", self.found());
            self.problem(self.here(), message, help);
            return None;
        };
        if value.fract() != 0.0 || !(1.0..=f64::from(MOST_LANES)).contains(&value) {
            let message = format!("`{}` is no lane", &self.text[span.clone()]);
            self.problem(span, message, help);
            return None;
        }
        Some((value as u8, span))
    }
}

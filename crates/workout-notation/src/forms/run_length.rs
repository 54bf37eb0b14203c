//! How far a run is: metres, or laps of the lane that is run.

use std::fmt;

use lane_distance::REP_RANGE_M;

use crate::cursor::{Cursor, Read};
use crate::quantity::LAPS;
use crate::spanned::Spanned;

/// How far a run is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunLength {
    /// Metres.
    Metres(f64),
    /// Laps of the lane that is run.
    Laps(f64),
}

impl fmt::Display for RunLength {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Metres(metres) => {
                let written = metres.to_string();
                let unit = if is_time_of_day(&written) { "m" } else { "" };
                write!(f, "{written}{unit}")
            }
            Self::Laps(laps) => write!(f, "{laps} laps"),
        }
    }
}

/// The most laps of one run.
const MOST_LAPS: f64 = 50.0;

pub(crate) const EXAMPLE: &str = "write for example `6 x 200 in lane 2`";

impl Cursor<'_> {
    /// How far a run is: metres, or laps of the lane that is run.
    pub(crate) fn length(&mut self) -> Read<Spanned<RunLength>> {
        let begins = self.place();
        let negative = self.sign('-');
        // `half a lap`
        let article = usize::from(self.is_word(1, &["a"]));
        if self.is_word(0, &["half"]) && self.is_word(1 + article, &LAPS[..1]) {
            self.skip_all(2 + article);
            return Ok(Spanned::new(RunLength::Laps(0.5), self.since(begins)));
        }
        let laps = self.is_number(0) && self.is_word(1, &LAPS);
        if laps || self.is_word(0, &["lap"]) {
            let count = self.number().map_or(1.0, |(count, _)| count);
            self.skip();
            let span = self.since(begins);
            if negative || !(0.1..=MOST_LAPS).contains(&count) {
                let message = format!("`{}` is out of range", &self.text[span.clone()]);
                return Err(self.problem(span, message, format!("write from 0.1 to {MOST_LAPS} laps")));
            }
            return Ok(Spanned::new(RunLength::Laps(count), span));
        }
        let Some((metres, _)) = self.metres() else {
            return Err(
                self.expected("a distance", self.did_you_mean().unwrap_or_else(|| EXAMPLE.to_owned()))
            );
        };
        let span = self.since(begins);
        if negative || !REP_RANGE_M.contains(&metres) {
            let message = format!("a repetition of `{}` is out of range", &self.text[span.clone()]);
            let (least, most) = (REP_RANGE_M.start(), REP_RANGE_M.end());
            return Err(self.problem(span, message, format!("write a distance from {least} m to {most} m")));
        }
        Ok(Spanned::new(RunLength::Metres(metres), span))
    }
}

/// `11.30`, `18.15`: nobody runs so many metres and centimetres.
pub(crate) fn is_time_of_day(written: &str) -> bool {
    let Some((hour, minute)) = written.split_once('.').filter(|(_, minute)| minute.len() == 2) else {
        return false;
    };
    let in_fives = |minute: u32| minute < 60 && minute.is_multiple_of(5);
    hour.parse().is_ok_and(|hour: u32| hour < 24) && minute.parse().is_ok_and(in_fives)
}

//! Times behind a run with no sign in front of them: `10 x 400 78 60s`, `6 x 400 75, 74, 73`.

use crate::cursor::Cursor;
use crate::forms::pace::MOST_TIMES;
use crate::last_run::LastRun;

impl Cursor<'_> {
    /// `6 x 400 75, 74, 73`, `10 x 400 78 60s`: times that somebody could run, with no sign in front of them, where there is one
    /// for each run, or a time with its unit stands behind, which is the rest.
    pub(crate) fn are_bare_times(&mut self) -> bool {
        let (mut at, mut times, mut is_round, mut has_sign) = (0, 0, true, false);
        while times < MOST_TIMES && self.is_number(at) {
            let is_clock = self.is_sign(at + 1, ':') && self.is_number(at + 2);
            let minutes_s = if is_clock { self.number_at(at).unwrap_or_default() * 60.0 } else { 0.0 };
            let last = if is_clock { at + 2 } else { at };
            let seconds = minutes_s + self.number_at(last).unwrap_or_default();
            if !self.is_likely_time(seconds) || self.metres_in(last + 1).is_some() || self.is_times(last + 1)
            {
                break;
            }
            is_round &= !is_clock && seconds % 10.0 == 0.0;
            times += 1;
            at = last + 1;
            has_sign = false;
            if ![',', '/', '-'].iter().any(|&sign| self.is_sign(at, sign)) || !self.is_number(at + 1) {
                break;
            }
            at += 1;
            has_sign = true;
        }
        match times {
            0 | 2 => false,
            1 => !has_sign && self.is_duration_alone_at(at) && !self.is_sign(at + 1, ':'),
            _ => !is_round && self.seconds_in(at).is_none(),
        }
    }

    /// `3 laps @ 80s`: nobody could run them all in that time, and somebody one of them.
    pub(crate) fn is_time_of_one_lap(&self, seconds: f64) -> bool {
        matches!(self.last_run, Some(LastRun::Laps(laps)) if laps > 1.0)
            && !self.is_likely_time(seconds)
            && LastRun::Laps(1.0).is_likely_time(seconds)
    }
}

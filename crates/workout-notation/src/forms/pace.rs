//! How fast a run is: `@ 48`, `in 48-50s`, `@ 75/400`, `@ 90%`, `5k pace`.

use std::fmt;

use crate::cursor::{Cursor, Read, Reported};
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::quantity::Duration;
use crate::spanned::Spanned;

/// How fast a run is.
///
/// ```
/// use workout_notation::{Block, Pace};
///
/// let pace = |text: &str| Block::parse(text).expect("it is well formed").steps()[0].pace.map(|pace| pace.value);
/// let time = |seconds, to_s| Some(Pace::Time { seconds, to_s });
/// assert_eq!(pace("200 @ 32"), time(32.0, None));
/// assert_eq!(pace("400 at 1:12"), time(72.0, None));
/// assert_eq!(pace("300 in 48-50s"), time(48.0, Some(50.0)));
/// assert_eq!(pace("400 @ 1:10-12"), time(70.0, Some(72.0)));
/// assert_eq!(pace("600 @ 75/400"), Some(Pace::Rate { seconds: 75.0, per_m: 400.0 }));
/// assert_eq!(pace("1000 @ 3:20 per km"), Some(Pace::Rate { seconds: 200.0, per_m: 1000.0 }));
/// assert_eq!(pace("150 @ 90% of best"), Some(Pace::Percent(90.0)));
/// for text in ["1000 @ 5k pace", "1000 at 5k pace", "1000 5k pace", "1000 @ 5k"] {
///     assert_eq!(pace(text), Some(Pace::Race(5000.0)));
/// }
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pace {
    /// In this time, in seconds; or between two.
    Time {
        /// The time, or the faster of two.
        seconds: f64,
        /// The slower of two.
        to_s: Option<f64>,
    },
    /// In this time for each of these distances.
    Rate {
        /// The time, in seconds.
        seconds: f64,
        /// The distance, in metres.
        per_m: f64,
    },
    /// At this percentage of the speed of the athlete's best over the run's own distance.
    Percent(f64),
    /// At the pace of a race over this distance, in metres.
    Race(f64),
}

impl fmt::Display for Pace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Time { seconds, to_s: None } => write!(f, "{}", Duration(seconds)),
            Self::Time { seconds, to_s: Some(to_s) } => write!(f, "{}-{}", Duration(seconds), Duration(to_s)),
            Self::Rate { seconds, per_m } => write!(f, "{}/{per_m}", Duration(seconds)),
            Self::Percent(percent) => write!(f, "{percent}%"),
            Self::Race(metres) => write!(f, "{metres} pace"),
        }
    }
}

const NAME: &str = "pace";
const PACE_HELP: &str = "write for example `@ 48s`, `@ 1:12`, `@ 75/400`, `@ 90%` or `@ 800 pace`";
const RATE_HELP: &str = "write for example `@ 75/400` or `@ 3:20/km`";

/// Words between the distance of a race and `pace`.
const RACES: [&str; 6] = ["race", "goal", "target", "date", "best", "pb"];
const BESTS: [&str; 8] = ["best", "pb", "pbs", "sb", "max", "maximum", "effort", "speed"];

/// Distances below 100 m that are raced.
const SHORT_RACES_M: [f64; 5] = [50.0, 55.0, 60.0, 75.0, 80.0];

pub(crate) const PACE: Clause<Pace> = Clause {
    form: Form {
        begins: &[&[&["@", "at"]]],
        words: &["at", "pace"],
        rows: &[
            row(&["200 @ 32", "400 @ 1:12", "300 in 48-50s"], "a time for each run"),
            row(&["600 @ 75/400", "1000 @ 3:20/km"], "a pace"),
            row(&["200 @ 90%"], "a percentage of the speed of a best"),
            row(&["200 @ 800 pace", "1000 @ 5k pace"], "the pace of a race"),
        ],
    },
    name: NAME,
    read: |cursor, value| {
        let begins = cursor.place();
        let is_time = cursor.is_word(0, &["in", "at"]) && cursor.is_number(1);
        if is_time || cursor.is_word(0, &["at"]) && cursor.is_word(1, &["mile"]) {
            cursor.skip();
        } else if !(cursor.sign('@') || cursor.is_number(0) && cursor.is_bare_pace()) {
            return false;
        }
        let Ok(pace) = cursor.pace() else {
            cursor.skip_to_clause();
            return true;
        };
        cursor.word(&["each"]);
        cursor.set(value, Spanned::new(pace, cursor.since(begins)), begins, NAME);
        true
    },
    print: |pace, f| write!(f, "@ {pace}"),
    is_printed_last: |_| false,
    is_of_last_run: |pace, is_alike| matches!(pace, Pace::Time { .. }) && !is_alike,
};

impl Cursor<'_> {
    /// Whether a percentage or the pace of a race comes next, without a sign before it.
    pub(crate) fn is_bare_pace(&self) -> bool {
        self.is_number(0) && self.is_sign(1, '%')
            || self.race_pace_tokens().is_some_and(|(distance, words)| distance > 0 && words > 0)
    }

    fn pace(&mut self) -> Read<Pace> {
        if self.is_number(0) && self.is_sign(1, '%') {
            return self.percent();
        }
        if let Some((_, words)) = self.race_pace_tokens() {
            let (metres, span) = self.metres().ok_or(Reported)?;
            (0..words).for_each(|_| self.skip());
            if !(10.0..=50_000.0).contains(&metres) {
                return Err(self.problem(span, format!("a race of {metres} m is out of range"), PACE_HELP));
            }
            if metres < 100.0 && !SHORT_RACES_M.contains(&metres) {
                let message = format!("no race is run over {metres} m");
                let help = format!("write `@ {metres}s` for a time, or `@ {metres}/400` per 400 m");
                return Err(self.problem(span, message, help));
            }
            return Ok(Pace::Race(metres));
        }
        let first = self.seconds("a pace", PACE_HELP)?;
        if self.is_number(1) && (self.sign('-') || self.word(&["to"])) {
            return self.slower(&first);
        }
        if self.sign('/') || self.word(&["per"]) {
            return self.rate(*first);
        }
        Ok(Pace::Time { seconds: *first, to_s: None })
    }

    fn percent(&mut self) -> Read<Pace> {
        let (percent, span) = self.number().ok_or(Reported)?;
        self.skip();
        if self.is_number(1) && self.sign('-') {
            let help = format!("write for example `@ {percent}%`");
            self.skip();
            self.sign('%');
            return Err(self.problem(
                span.start..self.since(0).end,
                "expected one percentage, found a range",
                help,
            ));
        }
        if self.word(&["of"]) {
            self.word(&["a", "the", "your"]);
            if let Some((race_m, race)) = self.metres() {
                let help = format!("write `@ {percent}%` for the run's own distance, or `@ {race_m} pace`");
                return Err(self.problem(
                    race,
                    "a percentage refers to the best over the run's own distance",
                    help,
                ));
            }
        }
        self.word(&RACES);
        self.word(&BESTS);
        if !(30.0..=120.0).contains(&percent) {
            let message = format!("`{}%` of a best is out of range", &self.text[span.clone()]);
            return Err(self.problem(span, message, "write from 30% to 120%"));
        }
        Ok(Pace::Percent(percent))
    }

    /// The tokens of the distance and of the words after it where a race is named: `800 pace`,
    /// `5k race pace`, `mile pace`; behind an `@` also `5k`.
    fn race_pace_tokens(&self) -> Option<(usize, usize)> {
        let distance = self.metres_tokens(0).or_else(|| self.is_word(0, &["mile"]).then_some(1))?;
        let race = usize::from(self.is_word(distance, &RACES));
        if self.is_word(distance + race, &["pace", "effort"]) {
            return Some((distance, race + 1));
        }
        let is_race = distance == 2 && self.metres_in(1).is_some_and(|metres| metres > 100.0);
        is_race.then_some((distance, 0))
    }

    /// `48-50s`, `1:10-1:12`, `1:10-12`, `3-4min`: what one time leaves out is taken from the other.
    fn slower(&mut self, first: &Spanned<f64>) -> Read<Pace> {
        let is_bare = !self.is_duration();
        let last = self.seconds("the slower of two times", PACE_HELP)?;
        if self.sign('%') {
            let help = format!("write for example `@ {}%`", first.value);
            return Err(self.problem(
                first.span.start..self.since(0).end,
                "expected one percentage, found a range",
                help,
            ));
        }
        let (mut first_s, mut last_s) = (first.value, last.value);
        let first_is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        if first_is_bare && !is_bare && self.has_minutes(&last) {
            first_s *= 60.0;
        } else if is_bare && first_s >= 60.0 && last_s < 60.0 {
            last_s += (first_s / 60.0).floor() * 60.0;
        }
        if first_s > last_s {
            let span = first.span.start..last.span.end;
            return Err(self.problem(span, "the faster time comes first", "swap the two"));
        }
        if self.is_sign(0, '/') {
            let span = first.span.start..last.span.end;
            return Err(self.problem(span, "expected one time per distance, found a range", RATE_HELP));
        }
        Ok(Pace::Time { seconds: first_s, to_s: Some(last_s) })
    }

    /// What follows the `/` of `75/400` or `3:20/km`.
    fn rate(&mut self, seconds: f64) -> Read<Pace> {
        let here = self.here();
        let per_m = if self.is_number(0) {
            self.metres().map(|(metres, _)| metres)
        } else {
            self.metres_in(0).inspect(|_| self.skip())
        };
        let Some(per_m) = per_m else {
            let message = format!("expected a distance after `/`, found {}", self.found());
            return Err(self.problem(here, message, RATE_HELP));
        };
        if !(1.0..=10_000.0).contains(&per_m) {
            return Err(self.problem(here, format!("a pace per {per_m} m is out of range"), RATE_HELP));
        }
        self.word(&["pace"]);
        Ok(Pace::Rate { seconds, per_m })
    }
}

//! How fast a run is.

use crate::block::{Details, Pace};
use crate::cursor::Cursor;
use crate::spanned::Spanned;

const PACE_HELP: &str = "write for example `@ 48s`, `@ 1:12`, `@ 75/400`, `@ 90%` or `@ 800 pace`";
const RATE_HELP: &str = "write for example `@ 75/400` or `@ 3:20/km`";

/// Words between the distance of a race and `pace`.
const RACES: [&str; 6] = ["race", "goal", "target", "date", "best", "pb"];
const BESTS: [&str; 8] = ["best", "pb", "pbs", "sb", "max", "maximum", "effort", "speed"];

/// Distances below 100 m that are raced.
const SHORT_RACES_M: [f64; 5] = [50.0, 55.0, 60.0, 75.0, 80.0];

impl Cursor<'_> {
    /// A pace: `48`, `48s`, `1:12`, `48-50s`, `75/400`, `3:20/km`, `90%`, `800 pace`, `5k pace`.
    pub(crate) fn pace(&mut self, details: &mut Details, begins: usize) {
        if self.is_effort(0) {
            let begins = self.place();
            self.effort(details, begins);
            return;
        }
        let pace = self.pace_value();
        match pace {
            Some(pace) => {
                self.word(&["each"]);
                self.once(details.pace.is_some(), begins, "pace");
                details.pace = Some(Spanned::new(pace, self.since(begins)));
            }
            None => self.skip_to_clause(),
        }
    }

    /// Whether a part of a best or the pace of a race comes next, without a sign before it.
    pub(crate) fn is_bare_pace(&self) -> bool {
        self.is_number(0) && self.is_sign(1, '%')
            || self.race_pace_tokens().is_some_and(|(distance, words)| distance > 0 && words > 0)
    }

    fn pace_value(&mut self) -> Option<Pace> {
        if self.is_number(0) && self.is_sign(1, '%') {
            return self.percent();
        }
        if let Some((_, words)) = self.race_pace_tokens() {
            let (metres, span) = self.metres()?;
            (0..words).for_each(|_| self.skip());
            if !(10.0..=50_000.0).contains(&metres) {
                self.problem(span, format!("a race of {metres} m is out of range"), PACE_HELP);
                return None;
            }
            if metres < 100.0 && !SHORT_RACES_M.contains(&metres) {
                let message = format!("`{metres} pace` is the pace of no race");
                let help = format!("write `@ {metres}s` for a time, or `@ {metres}/400` for each 400 m");
                self.problem(span, message, help);
                return None;
            }
            return Some(Pace::Race(metres));
        }
        let first = self.seconds("a pace", PACE_HELP)?;
        if self.is_number(1) && (self.sign('-') || self.word(&["to"])) {
            return self.slower(&first);
        }
        if self.sign('/') || self.word(&["per"]) {
            return self.rate(*first);
        }
        Some(Pace::Time { seconds: *first, to_s: None })
    }

    fn percent(&mut self) -> Option<Pace> {
        let (percent, span) = self.number()?;
        self.skip();
        if self.is_number(1) && self.sign('-') {
            let help = format!("write for example `@ {percent}%`");
            self.skip();
            self.sign('%');
            self.problem(span.start..self.since(0).end, "a part of a best is one number", help);
            return None;
        }
        if self.word(&["of"]) {
            self.word(&["a", "the", "your"]);
            if let Some((race_m, race)) = self.metres() {
                let help = format!("write `@ {percent}%` for the run's own distance, or `@ {race_m} pace`");
                self.problem(race, "a part of a best is of the best over the run's own distance", help);
                return None;
            }
        }
        self.word(&RACES);
        self.word(&BESTS);
        if !(30.0..=120.0).contains(&percent) {
            let message = format!("`{}` % of a best is out of range", &self.text[span.clone()]);
            self.problem(span, message, "write from 30% to 120%");
            return None;
        }
        Some(Pace::Percent(percent))
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

    /// `48-50s`, `1:10-1:12`, `1:10-12`, `3-4min`: what is left out of one time is that of the other.
    fn slower(&mut self, first: &Spanned<f64>) -> Option<Pace> {
        let is_bare = !self.is_duration();
        let last = self.seconds("the slower of two times", PACE_HELP)?;
        if self.sign('%') {
            let help = format!("write for example `@ {}%`", first.value);
            self.problem(first.span.start..self.since(0).end, "a part of a best is one number", help);
            return None;
        }
        let (mut first_s, mut last_s) = (first.value, last.value);
        let first_is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        if first_is_bare && !is_bare && self.text[last.span.clone()].contains(['m', 'M', '\'', '′', '’'])
        {
            first_s *= 60.0;
        } else if is_bare && first_s >= 60.0 && last_s < 60.0 {
            last_s += (first_s / 60.0).floor() * 60.0;
        }
        if first_s > last_s {
            let span = first.span.start..last.span.end;
            self.problem(span, "the first of two times is the faster one", "exchange them");
            return None;
        }
        if self.is_sign(0, '/') {
            let span = first.span.start..last.span.end;
            self.problem(span, "a time for each distance is one time", RATE_HELP);
            return None;
        }
        Some(Pace::Time { seconds: first_s, to_s: Some(last_s) })
    }

    /// What stands behind the `/` of `75/400` or `3:20/km`.
    fn rate(&mut self, seconds: f64) -> Option<Pace> {
        let here = self.here();
        let per_m = if self.is_number(0) {
            self.metres().map(|(metres, _)| metres)
        } else {
            self.metres_in(0).inspect(|_| self.skip())
        };
        let Some(per_m) = per_m else {
            let message = format!("expected a distance after `/`, found {}", self.found());
            self.problem(here, message, RATE_HELP);
            return None;
        };
        if !(1.0..=10_000.0).contains(&per_m) {
            self.problem(here, format!("a pace for each {per_m} m is out of range"), RATE_HELP);
            return None;
        }
        self.word(&["pace"]);
        Some(Pace::Rate { seconds, per_m })
    }
}

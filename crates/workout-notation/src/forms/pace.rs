//! How fast a run is: `@ 48`, `in 48-50s`, `@ 75/400`, `@ 90%`, `5k pace`.

use std::fmt;

use crate::cursor::{Cursor, Read, Reported};
use crate::doubt::Doubt;
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::forms::jog::LAP_M;
use crate::phrases::Phrases;
use crate::quantity::{Duration, LAPS};
use crate::rest_words::RESTS;
use crate::shared::SharedPace;
use crate::spanned::Spanned;
use crate::unit::MILE_M;

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
/// let off_race = |seconds, per_m| Some(Pace::OffRace { race_m: 1500.0, seconds, per_m });
/// assert_eq!(pace("400 @ 1500 pace + 3s"), off_race(3.0, None));
/// assert_eq!(pace("1000 @ 1500 pace + 2 s a lap"), off_race(2.0, Some(400.0)));
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
    /// Slower than the pace of a race, or faster.
    OffRace {
        /// The distance of the race, in metres.
        race_m: f64,
        /// By how many seconds; negative is faster.
        seconds: f64,
        /// For each of these distances, in metres; nothing for each run.
        per_m: Option<f64>,
    },
}

impl fmt::Display for Pace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Time { seconds, to_s: None } => write!(f, "{}", Duration(seconds)),
            Self::Time { seconds, to_s: Some(to_s) } => write!(f, "{}-{}", Duration(seconds), Duration(to_s)),
            Self::Rate { seconds, per_m } if is_bare_rate(per_m) => {
                write!(f, "{}/{per_m}", Duration(seconds))
            }
            Self::Rate { seconds, per_m } => write!(f, "{}/{per_m}m", Duration(seconds)),
            Self::Percent(percent) => write!(f, "{percent}%"),
            Self::Race(MILE_M) => f.write_str("mile pace"),
            Self::Race(metres) => write!(f, "{metres} pace"),
            Self::OffRace { race_m, seconds, per_m } => {
                let (sign, word) = if seconds < 0.0 { ('-', "faster") } else { ('+', "slower") };
                write!(f, "{race_m} pace {sign} {}s", seconds.abs())?;
                match per_m {
                    Some(per_m) => write!(f, "/{per_m}m"),
                    None => write!(f, " {word}"),
                }
            }
        }
    }
}

/// Whether a number without a unit behind a slash is a distance, in metres: `48/46` is none.
fn is_bare_rate(per_m: f64) -> bool {
    per_m % 50.0 == 0.0
}

const NAME: &str = "pace";
const PACE_HELP: &str = "write for example `@ 48s`, `@ 1:12`, `@ 75/400`, `@ 90%` or `@ 800 pace`";
const RATE_HELP: &str = "write for example `@ 75/400` or `@ 3:20/km`";

/// Words between the distance of a race and `pace`.
const RACES: [&str; 7] = ["race", "goal", "target", "date", "best", "pb", "current"];
const BESTS: [&str; 8] = ["best", "pb", "pbs", "sb", "max", "maximum", "effort", "speed"];

/// What a pace is slower by is hardly more than this, in seconds.
pub(crate) const SHORT_S: f64 = 20.0;

/// The second of two times for runs that become faster is at least this part of the first.
const LEAST_PROGRESSION: f64 = 0.75;

/// The same where a comma stands between them, behind which most write the rest.
const LEAST_BEHIND_COMMA: f64 = 0.94;

/// The most times of a list.
pub(crate) const MOST_TIMES: usize = 12;

/// Words at the end of a pace.
const PACE_WORDS: &[&str] = &["pace", "effort", "speed"];

/// The distance that a time alone is a pace for, in metres: `31 s pace` is for 200 m.
fn usual_distance_m(seconds: f64) -> Option<f64> {
    [(100.0, 11.0..20.0), (200.0, 22.0..45.0), (400.0, 45.0..150.0), (1000.0, 150.0..420.0)]
        .into_iter()
        .find(|(_, times)| times.contains(&seconds))
        .map(|(metres, _)| metres)
}

/// Distances below 100 m that are raced.
const SHORT_RACES_M: [f64; 5] = [50.0, 55.0, 60.0, 75.0, 80.0];

pub(crate) const PACE: Clause<Pace> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&["@", "at"]]]),
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
        let about =
            usize::from(cursor.is_word(1, &["about", "around", "approx", "under", "sub", "approximately"]));
        let is_time = cursor.is_word(0, &["in", "at", "inside"]) && cursor.is_number(1 + about);
        let is_time = is_time && !cursor.is_word(2, &["sets", "set"]);
        if cursor.alternating() || cursor.start_and_finish() || cursor.stepped(value) {
            return true;
        }
        if is_time && cursor.is_thing(1 + about) {
            return false;
        }
        if is_time || cursor.is_word(0, &["at"]) && cursor.is_word(1, &["mile"]) {
            cursor.skip_all(1 + about);
        } else if let Some(tokens) = cursor.pace_key_tokens().or_else(|| cursor.cut_down_tokens()) {
            cursor.skip_all(tokens);
        } else if cursor.is_sign(0, '@') && (cursor.is_spacing(1) || cursor.is_thing(1)) {
            return false;
        } else if cursor.sign('@') {
            cursor.skip_all(usize::from(cursor.is_word(0, &["about", "around", "approx", "under", "sub"])));
        } else if !(cursor.is_number(0) && (cursor.is_bare_pace() || cursor.are_bare_times())) {
            return false;
        }
        if cursor.list_of_races() || cursor.list_of_percents() || cursor.list_of_paces() {
            cursor.word(&["each"]);
            return true;
        }
        let Ok(pace) = cursor.pace() else {
            cursor.skip_to_clause();
            return true;
        };
        cursor.word(&["each", "pace"]);
        // `@ 800 pace (42-44 s)`: the time says the same more exactly.
        if let (Some(Pace::Race(_)), Pace::Time { .. }) = (value.as_deref(), pace)
            && let Some(race) = value.take()
        {
            cursor.asides.push(race.span);
        }
        let pace = match pace {
            Pace::Race(race_m) => cursor.off_race(race_m).unwrap_or(pace),
            Pace::Time { seconds, to_s: None } if cursor.is_time_of_one_lap(seconds) => {
                cursor.doubts.push(Doubt::TimeOfEachLap { seconds });
                Pace::Rate { seconds, per_m: LAP_M }
            }
            pace => pace,
        };
        cursor.set(value, Spanned::new(pace, cursor.since(begins)), begins, NAME);
        cursor.slower_by();
        true
    },
    print: |pace, f| write!(f, "@ {pace}"),
    is_printed_last: |_| false,
    is_of_last_run: |pace, is_alike| matches!(pace, Pace::Time { .. }) && !is_alike,
};

impl Cursor<'_> {
    /// Whether a percentage or the pace of a race comes next, without a sign before it.
    pub(crate) fn is_bare_pace(&self) -> bool {
        self.is_number(0)
            && (self.is_sign(1, '%')
                || self.is_sign(1, '-') && self.is_sign(3, '%')
                || self.seconds_in(1).is_some() && self.is_word(2, &["pace", "speed"]))
            || self.race_pace_tokens().is_some_and(|(distance, words)| distance > 0 && words > 0)
            || self.is_rate_with_pace()
    }

    /// `5:25/mile pace`, `75/400 pace`
    fn is_rate_with_pace(&self) -> bool {
        let time = if self.is_sign(1, ':') && self.is_number(2) { 3 } else { 1 };
        (self.is_sign(time, '/') || self.is_word(time, &["per"]))
            && (self.metres_in(time + 1).is_some() || self.is_number(time + 1) && time == 3)
            && self.is_word(time + 2, &["pace"])
    }

    /// `s:`, `pace:`, `target =`, `i95%`: how many tokens.
    fn pace_key_tokens(&self) -> Option<usize> {
        let is_key = self.is_word(0, &["s", "i", "pace", "speed", "target", "time", "intensity"]);
        if is_key && (self.is_sign(1, ':') || self.is_sign(1, '=')) && self.is_number(2) {
            return Some(2);
        }
        // `target 80 secs`, but not `target 6 reps`
        let is_target = self.is_word(0, &["target", "targets", "tgt", "aim", "aiming"]);
        let of = 1 + usize::from(self.is_word(1, &["of", "for", "time"]));
        if is_target && self.number_at(of).is_some_and(|seconds| self.is_likely_time(seconds)) {
            return Some(of);
        }
        // `target 2.40`
        let has_minutes = self.is_sign(of + 1, ':') || self.is_in_minutes(of);
        if is_target && self.is_number(of) && has_minutes {
            return Some(of);
        }
        (self.is_word(0, &["i"]) && self.is_number(1) && self.is_sign(2, '%')).then_some(1)
    }

    /// The paces of several races, one for each run: `5k-3k-mile-800 pace`.
    fn list_of_races(&mut self) -> bool {
        let (before, problems) = (self.place(), self.problems.len());
        let mut paces = Vec::new();
        while paces.len() < 12 && !self.is_duration() {
            let begins = self.place();
            let Some((metres, _)) = self.metres().filter(|(metres, _)| (100.0..=50_000.0).contains(metres))
            else {
                break;
            };
            let is_said = self.word(&PACE_WORDS[..1]);
            paces.push(Spanned::new(SharedPace::Race(metres), self.since(begins)));
            let is_joined =
                ['-', '/', ','].iter().any(|&sign| self.is_sign(0, sign)) || self.is_word(0, &["and"]);
            // `@ 5k/3k pace, 400 jog`
            let is_over = is_said
                && !self.metres_tokens(1).is_some_and(|tokens| self.is_word(1 + tokens, &PACE_WORDS[..1]));
            if !is_joined
                || is_over
                || self.is_duration_at(1)
                || !(self.is_number(1) || self.is_word(1, &["mile"]))
            {
                break;
            }
            self.skip();
        }
        let is_list = paces.len() > 1 && (self.is_behind_word(PACE_WORDS) || self.word(PACE_WORDS));
        if !is_list {
            self.problems.truncate(problems);
            self.go_back(before);
            return false;
        }
        self.word(&["pace"]);
        self.shared.paces = paces;
        true
    }

    /// Whether a number with nothing in front of it is the next of some times, all near to one another; the second needs a
    /// third behind it.
    fn is_next_of_spaced_times(&self, seconds: f64, is_third: bool) -> bool {
        const NEAR: std::ops::RangeInclusive<f64> = 0.88..=1.12;
        let is_near = |ahead: usize, before: f64| {
            let next = self.number_at(ahead).filter(|next| NEAR.contains(&(next / before)));
            next.filter(|_| !self.is_times(ahead + 1) && !self.is_unit(ahead + 1))
        };
        is_near(0, seconds).is_some_and(|next| is_third || is_near(1, next).is_some())
    }

    /// Three times or more, one for each run, or two that become faster: `32, 31, 30`, `34-32-30`, `50-46`.
    pub(crate) fn list_of_paces(&mut self) -> bool {
        let (before, problems) = (self.place(), self.problems.len());
        let mut times: Vec<Spanned<SharedPace>> = Vec::new();
        let mut has_comma = false;
        let mut joint = None;
        while times.len() < MOST_TIMES
            && self.is_number(0)
            && !self.is_sign(1, '%')
            && self.metres_in(1).is_none()
        {
            let Ok(time) = self.seconds("a pace", PACE_HELP) else { break };
            if let Some(SharedPace::Time(seconds)) = times.last().map(|last| last.value)
                && !(seconds * 0.4..=seconds * 1.35).contains(&*time)
            {
                break;
            }
            let seconds = *time;
            times.push(Spanned::new(SharedPace::Time(seconds), time.span));
            let sign = [',', '-', '/', '>'].into_iter().find(|&sign| self.is_sign(0, sign));
            // `32, and 30`, `36 -> 30`, `36 down to 30`
            let more = usize::from(
                self.is_sign(0, ',') && self.is_word(1, &["and"])
                    || self.is_sign(0, '-') && self.is_sign(1, '>')
                    || self.is_word(0, &["down"]) && self.is_word(1, &["to"]),
            );
            let is_joined = more > 0 || self.is_word(0, &["and", "then", "to"]);
            // `56 54 52 50`
            if self.is_next_of_spaced_times(seconds, joint == Some(' ')) {
                joint = Some(' ');
                has_comma = false;
                continue;
            }
            let Some(sign) = sign.or_else(|| is_joined.then_some(',')) else {
                break;
            };
            // `@ 75-73-71, 60s`: behind another sign stands the rest.
            let is_last = !joint.is_some_and(|joint| {
                let is_clock = self.is_sign(2, ':');
                self.is_sign(2, joint) || self.is_sign(3, joint) || is_clock && self.is_sign(4, joint)
            });
            if sign == ',' && more == 0 && !is_joined && is_last && joint.is_some_and(|joint| joint != ',') {
                break;
            }
            joint = Some(sign);
            let next = 1 + more;
            if !self.is_number(next)
                || !self.is_time_of_a_list(next, times.last())
                // `75/400` is a pace, `45/46/47` are three times.
                || sign == '/' && times.len() < 2 && !self.is_sign(if self.is_sign(2, ':') { 4 } else { 2 }, '/')
            {
                break;
            }
            has_comma = sign == ',' && !is_joined && more == 0;
            self.skip_all(next);
        }
        let seconds: Vec<f64> = (times.iter())
            .map(|time| match time.value {
                SharedPace::Time(seconds) => seconds,
                SharedPace::Race(_) | SharedPace::Percent(_) => 0.0,
            })
            .collect();
        // Two times are a range, or a time and a rest, unless the second is faster.
        let is_list = seconds.len() > 2 || seconds.len() == 2 && seconds[1] < seconds[0];
        // `75/400`, `70-72/400`, `32, 31 x`
        let is_rest_behind = self.is_sign(0, '/') && (self.is_duration_at(1) || self.is_rest_at(1));
        let is_else = self.is_sign(0, '/') && !is_rest_behind
            || self.is_sign(0, '%')
            || self.is_times(0)
            || self.is_word(0, &["per"])
            // `@ 2:30 - 90 s`: nobody becomes so much faster. `@ 75, 60s`: behind a comma stands the rest, unless it is about
            // as long as the run.
            || seconds.len() == 2
                && seconds[1] < seconds[0] * if has_comma { LEAST_BEHIND_COMMA } else { LEAST_PROGRESSION };
        if !is_list || is_else {
            self.problems.truncate(problems);
            self.go_back(before);
            return false;
        }
        self.shared.is_progression = seconds.len() == 2;
        if let (true, [_, second]) = (has_comma && self.is_at_end(), seconds.as_slice()) {
            self.doubts.push(Doubt::TargetOrRest { seconds: *second });
        }
        self.shared.paces = times;
        true
    }

    /// Whether what stands behind the next sign says that it is a rest: `@ 34 - 30s rec`.
    fn is_rest_behind_sign(&self, first_s: f64) -> bool {
        let end = if self.is_sign(2, ':') { 4 } else { 2 };
        let unit = self.seconds_in(end);
        let end = end + usize::from(unit.is_some());
        unit == Some(60.0) && first_s >= 10.0
            || self.is_word(end, RESTS)
                && !self.is_number(end + 1)
                && !self.is_sign(end + 1, ':')
                && !self.is_sign(end + 1, '=')
            || self.is_jog_of_rest(end)
            || self.between_tokens(end).is_some_and(|between| self.word_at(end + between).is_none())
            || self.is_word(2, &["x"])
            || self.is_counted_item(1)
    }

    /// Whether a word for a jog stands `ahead` that says of the time before it what is done in it.
    fn is_jog_of_rest(&self, ahead: usize) -> bool {
        self.jog_tokens(ahead).is_some_and(|jog| {
            !self.is_number(ahead + jog) && !self.is_word(ahead + jog, &["back", "exactly"])
        })
    }

    /// Whether the number `ahead` is about as large as the last time of a list, and nothing else is made of it.
    fn is_time_of_a_list(&self, ahead: usize, last: Option<&Spanned<SharedPace>>) -> bool {
        let Some(SharedPace::Time(seconds)) = last.map(|last| last.value) else { return false };
        let is_clock = self.is_sign(ahead + 1, ':') && self.is_number(ahead + 2);
        let Some(value) = self.number_at(ahead) else { return false };
        let value =
            if is_clock { value * 60.0 + self.number_at(ahead + 2).unwrap_or_default() } else { value };
        let end = if is_clock { ahead + 3 } else { ahead + 1 };
        let unit = self.seconds_in(end);
        let is_rest = unit.is_some()
            && (self.is_word(end + 1, RESTS) && !self.is_number(end + 2)
                || self.is_jog_of_rest(end + 1)
                || self.between_tokens(end + 1).is_some());
        let is_minutes = unit == Some(60.0);
        (seconds * 0.4..=seconds * 1.35).contains(&value)
            && !is_rest
            && !is_minutes
            && self.metres_in(end).is_none()
            && !self.is_times(end)
            && !self.is_count_word(end)
            && !self.is_word(end, &LAPS)
            && self.jog_tokens(end).is_none()
            && !self.is_sign(end, '%')
    }

    fn pace(&mut self) -> Read<Pace> {
        if self.is_number(0) && self.is_sign(1, '%') || self.is_percent_range() {
            return self.percent();
        }
        if self.is_word(0, &["goal", "target", "current", "race"]) && self.is_number(1) {
            self.skip();
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
        let first = self.in_minutes(first);
        if self.is_word(0, &["pace", "speed"]) {
            // `31 sec pace` is for the distance that such a time is run over.
            self.skip();
            if let Some(per_m) = usual_distance_m(*first) {
                return Ok(Pace::Rate { seconds: *first, per_m });
            }
        }
        if self.is_number(1) && !self.is_rest_behind_sign(*first) && (self.sign('-') || self.word(&["to"])) {
            return self.slower(&first);
        }
        if self.is_sign(0, '/') && self.is_duration_at(1) {
            // `@ 30s / 60s`: a time is the rest.
            return Ok(Pace::Time { seconds: *first, to_s: None });
        }
        if let Some(to_s) = self.slower_behind_slash(&first) {
            return Ok(Pace::Time { seconds: *first, to_s: Some(to_s) });
        }
        if self.sign('/') || self.word(&["per"]) {
            return self.rate(*first);
        }
        Ok(Pace::Time { seconds: *first, to_s: None })
    }

    /// `56/57`: a time hardly longer than the one in front, and no distance.
    fn slower_behind_slash(&mut self, first: &Spanned<f64>) -> Option<f64> {
        let is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        let first_s = first.value;
        let slower = self.number_at(1).filter(|_| self.is_sign(0, '/') && !self.is_unit(2))?;
        if !is_bare || !(first_s..=first_s * 1.3).contains(&slower) || slower % 50.0 == 0.0 {
            return None;
        }
        self.skip();
        self.number().map(|(slower, _)| slower)
    }

    fn percent(&mut self) -> Read<Pace> {
        let (mut percent, mut span) = self.number().ok_or(Reported)?;
        self.sign('%');
        if self.is_number(1) && (self.sign('-') || self.word(&["to"])) {
            let (most, most_span) = self.number().ok_or(Reported)?;
            self.sign('%');
            self.doubts.push(Doubt::PercentRange { least: percent, most });
            span.end = most_span.end;
            percent = most;
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

    /// `80-85%`, `80 to 85%`
    fn is_percent_range(&self) -> bool {
        self.is_number(0)
            && (self.is_sign(1, '-') || self.is_word(1, &["to"]))
            && self.is_number(2)
            && self.is_sign(3, '%')
    }

    /// The tokens of the distance and of the words after it where a race is named: `800 pace`,
    /// `5k race pace`, `mile pace`; behind an `@` also `5k`.
    fn race_pace_tokens(&self) -> Option<(usize, usize)> {
        let distance = self.metres_tokens(0).or_else(|| self.is_word(0, &["mile"]).then_some(1))?;
        // `3000SC pace`
        let steeple = usize::from(self.is_word(distance, &["sc", "steeple", "steeplechase"]));
        let race = steeple + usize::from(self.is_word(distance + steeple, &RACES));
        if self.is_word(distance + race, &["pace", "effort"]) {
            return Some((distance, race + 1));
        }
        if self.is_word(0, &["mile"]) {
            return Some((1, race));
        }
        let is_race = distance == 2
            && self.number_at(0).zip(self.metres_in(1)).is_some_and(|(value, unit)| value * unit >= 100.0);
        is_race.then_some((distance, 0))
    }

    /// `48-50s`, `1:10-1:12`, `1:10-12`, `3-4min`: what one time leaves out is taken from the other.
    fn slower(&mut self, first: &Spanned<f64>) -> Read<Pace> {
        let is_bare = !self.is_duration();
        let last = self.seconds("the slower of two times", PACE_HELP)?;
        let last = self.in_minutes(last);
        let (mut first_s, mut last_s) = (first.value, last.value);
        let first_is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        if first_is_bare && self.has_minutes(&last) {
            first_s *= 60.0;
        } else if is_bare && last_s < 60.0 {
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
        let is_bare = self.is_number(0) && self.metres_in(1).is_none();
        let Some(per_m) = self.per_m() else {
            let message = format!("expected a distance after `/`, found {}", self.found());
            return Err(self.problem(here, message, RATE_HELP));
        };
        if !(10.0..=10_000.0).contains(&per_m) {
            return Err(self.problem(here, format!("a pace per {per_m} m is out of range"), RATE_HELP));
        }
        if is_bare && !is_bare_rate(per_m) {
            let message = format!("`{seconds}/{per_m}` could be two times, or a time for {per_m} m");
            let help = "write `@ 46-48` for a range, `alternating 48/46`, or `@ 75/400` for a pace";
            return Err(self.problem(here, message, help));
        }
        self.word(&["pace"]);
        Ok(Pace::Rate { seconds, per_m })
    }

    /// The distance that a time is for, in metres: `/400`, `/lap`, `per km`.
    pub(crate) fn per_m(&mut self) -> Option<f64> {
        if self.word(&LAPS) {
            Some(400.0)
        } else if self.is_number(0) {
            self.metres().map(|(metres, _)| metres)
        } else {
            self.metres_in(0).inspect(|_| self.skip())
        }
    }
}

//! Reading how long a recovery is: `rest 90s`, `off 3:00`, `2min / 8min`, `8min between sets`, `6-5-4 min`.

use crate::cursor::{Cursor, Read};
use crate::doubt::Doubt;
use crate::forms::jog::JOGS;
use crate::forms::recovery::{AFTER, Gap, KIND, REST, Recovery, RecoveryKind, SET_REST};
use crate::last_run::LastRun;
use crate::phrases::Phrases;
use crate::quantity::minutes_of_rest;
use crate::rest_words::RESTS;
use crate::shared::PerDistance;
use crate::spanned::Spanned;

const REST_HELP: &str = "write for example `rest 90s` or `rest 3min / 8min between sets`";
const CYCLE_HELP: &str = "write for example `off 3:00`";

/// A bare number below this is hardly meant as seconds of rest.
pub(crate) const LEAST_BARE_S: f64 = 10.0;

/// Faster than this, in metres a second, nobody runs over and over with time to spare before the next start.
const FASTEST_CYCLE_M_S: f64 = 5.5;

/// How many tokens of a text are looked at for `between`.
const MOST_LOOKED_AT: usize = 16;

/// Words behind a duration from one start to the next.
const CYCLES: [&str; 4] = ["cycle", "cycles", "turnaround", "turnarounds"];

/// Letters for a rest.
/// A cycle that is shorter than so many times a slow run could be the rest.
const CLOSE: f64 = 1.5;

/// Behind minutes without a unit so many more may be minutes.
const MOST_BARE_MINUTES: f64 = 20.0;

const LETTERS: [&str; 3] = ["r", "rr", "p"];

/// Words behind a duration that make it a recovery, though another word would make it a run.
const RESTING: [&str; 6] = ["off", "float", "standing", "recover", "apart", "break"];

/// Whether a number without a unit is rather a distance in metres than a time in seconds.
fn is_usual_distance(number: f64) -> bool {
    number >= 100.0 && number % 50.0 == 0.0
}

/// The least that is a distance in front of a word for a rest, in metres: `20 rec`.
const LEAST_JOG_M: f64 = 10.0;

impl Cursor<'_> {
    /// Whether a duration comes next that says how long a recovery is: `2min / 8min between sets`,
    /// `8min between sets`, `90s rest`, `2 min jog`.
    pub(crate) fn is_duration_gap(&mut self) -> bool {
        self.is_bare_rest()
            || self.is_duration_before(|cursor| {
                cursor.is_sign(0, '/')
                    || cursor.between_tokens(0).is_some()
                    || cursor.is_word(0, &RESTING)
                    || cursor.is_word(0, &CYCLES)
                    || cursor.is_word(0, &["full", "set", "active", "passive"]) && cursor.is_word(1, RESTS)
                    || cursor.is_word(0, &["after"]) && cursor.is_word(1, &["each"])
                    || cursor.is_word(0, &["easy", "slow"]) && cursor.between_tokens(1).is_some()
                    || cursor.is_word(0, RESTS)
                    || cursor.is_word(0, &[AFTER])
                    || cursor.is_per_distance()
                    || cursor.jog_tokens(0).is_some()
            })
    }

    /// Whether a number without a unit that is no distance stands in front of a word for a rest: `2.30 rec`, `2 rest`.
    fn is_bare_rest(&self) -> bool {
        let is_short = self.number_at(0).is_some_and(|number| number < LEAST_JOG_M);
        is_short && !self.is_duration() && self.is_word(1, RESTS)
    }

    /// Whether a duration stands `ahead` that is neither a run by time nor a clause of its own.
    pub(crate) fn is_duration_alone_at(&mut self, ahead: usize) -> bool {
        let before = self.place();
        self.skip_all(ahead);
        let is_alone = !self.is_duration_gap()
            && self.is_duration_before(|cursor| {
                !cursor.is_effort(0)
                    && !cursor.is_times(0)
                    && !cursor.is_word(
                        0,
                        &["jog", "walk", "run", "on", "of", "hard", "efforts", "effort", "continuous"],
                    )
            });
        self.go_back(before);
        is_alone
    }

    /// Whether a duration or a range of durations comes next, and something that `is_behind` recognises after it.
    fn is_duration_before(&mut self, is_behind: impl Fn(&Self) -> bool) -> bool {
        if !self.is_duration() && !self.is_time_range(0) {
            return false;
        }
        let (before, problems, doubts) = (self.place(), self.problems.len(), self.doubts.len());
        let is_so = self.time("", "").is_ok() && is_behind(self);
        self.problems.truncate(problems);
        self.doubts.truncate(doubts);
        self.go_back(before);
        is_so
    }

    /// Whether a range of durations stands `ahead`: `20-25 mins`, `3 to 4 min`.
    pub(crate) fn is_time_range(&self, ahead: usize) -> bool {
        let unit = usize::from(self.seconds_in(ahead + 1).is_some());
        // `47s - 8 min rest` are two times.
        let sign = ahead + unit + 1;
        let is_apart = unit > 0
            && self.is_sign(sign, '-')
            && !self.is_glued(sign)
            && self.seconds_in(ahead + 1) != self.seconds_in(sign + 2);
        self.is_number(ahead)
            && !is_apart
            && (self.is_sign(sign, '-') || self.is_word(sign, &["to"]))
            && self.is_duration_at(sign + 1)
    }

    /// A duration, or the longer of a range.
    fn time(&mut self, what: &str, help: &str) -> Read<Spanned<f64>> {
        if !self.is_time_range(0) {
            return self.seconds(what, help);
        }
        let begins = self.place();
        let is_bare = !self.is_duration();
        let first = self.seconds(what, help)?;
        self.skip();
        let last = self.seconds(what, help)?;
        let least_s = if is_bare && self.has_minutes(&last) { *first * 60.0 } else { *first };
        let span = self.since(begins);
        if least_s > *last {
            return Err(self.problem(span, "the shorter rest comes first", "swap the two"));
        }
        self.doubts.push(Doubt::RestRange { least_s, most_s: *last });
        Ok(Spanned::new(*last, span))
    }

    /// How long a recovery is, with a unit where minutes could be meant.
    fn recovery_seconds(&mut self, what: &str, help: &str) -> Read<Spanned<f64>> {
        let is_bare = self.is_number(0) && !self.is_duration() && !self.is_time_range(0);
        let is_metres = is_bare && self.metres_in(1).is_some();
        // `r3`, `R = 8`: who writes a letter writes minutes.
        let is_behind_letter = self.is_behind_word(&LETTERS)
            || self.is_behind('\'') && self.is_word_before(2, &LETTERS)
            || (self.is_behind('=') || self.is_behind(':'))
                && (self.is_word_before(2, &LETTERS)
                    || self.is_sign_before(2, '\'') && self.is_word_before(3, &LETTERS));
        let begins = self.place();
        let seconds = self.time(what, help)?;
        let value = *seconds;
        if is_metres {
            self.skip();
            let span = self.since(begins);
            let message = format!("expected a time, found the distance `{}`", &self.text[span.clone()]);
            return Err(self.problem(
                span,
                message,
                format!("write `{value}min`, `{value}s` or `jog {value}`"),
            ));
        }
        // `r1 R10`
        let are_minutes = self.doubts.contains(&Doubt::BareMinutes) && value <= MOST_BARE_MINUTES;
        if is_bare && (value < LEAST_BARE_S || are_minutes) && is_behind_letter {
            if !are_minutes {
                self.doubts.push(Doubt::BareMinutes);
            }
            let rest_s = minutes_of_rest(&self.text[seconds.span.clone()]).unwrap_or(value * 60.0);
            return Ok(Spanned::new(rest_s, seconds.span));
        }
        // `rec 1.45`
        if is_bare && let Some(rest_s) = minutes_of_rest(&self.text[seconds.span.clone()]) {
            self.doubts.push(Doubt::BareMinutes);
            return Ok(Spanned::new(rest_s, seconds.span));
        }
        if is_bare && value < LEAST_BARE_S && !self.is_sign(0, '/') {
            let minutes = value * 60.0;
            let help = format!("write `{value}min` for {minutes} s, or `{value}s`");
            return Err(self.problem(seconds.span, format!("`{value}` could be seconds or minutes"), help));
        }
        Ok(seconds)
    }

    /// How long recoveries are: `90s`, `2min / 8min`, `8min between sets`, `90s, 75s, 60s`.
    pub(crate) fn rests(&mut self, recovery: &mut Recovery, begins: usize, is_for_runs: bool) -> Read<()> {
        let rest = |seconds: Spanned<f64>| Spanned::new(Gap::Rest(*seconds), seconds.span);
        if self.list_of_rests()? {
            self.words_of_rest(recovery);
            self.between_runs();
            return Ok(());
        }
        // `2 x 4 x 150, walk back / 8 min`
        let is_behind_way =
            self.is_behind('/') && self.sets > 1 && recovery.kind.is_some() && recovery.gap.is_none();
        let mut first = self.recovery_seconds("a rest", REST_HELP)?;
        let is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        if self.word(&CYCLES) {
            let cycle = Spanned::new(Gap::Cycle(*first), self.since(begins));
            self.set(&mut recovery.gap, cycle, begins, REST);
            return Ok(());
        }
        self.words_of_rest(recovery);
        if self.word(&[AFTER]) {
            self.set(&mut recovery.after, first, begins, REST);
            return Ok(());
        }
        if self.is_per_distance() {
            return self.per_distance(first);
        }
        let is_said_for_runs = self.between_runs();
        let is_for_runs = is_said_for_runs || is_for_runs;
        if self.is_second_rest() {
            if self.sets < 2 && self.is_sign(0, '/') && self.is_likely_time(*first) {
                let message = format!("`{}` could be the time of each run", &self.text[first.span.clone()]);
                let help = "write `@` in front of it, or `rest` where there are no sets".to_owned();
                return Err(self.problem(first.span, message, help));
            }
            self.skip();
            let begins_second = self.place();
            let sets = self.recovery_seconds("a rest between sets", REST_HELP)?;
            // `2/8min`: the unit of the second is that of both.
            if is_bare && *first < LEAST_BARE_S && self.has_minutes(&sets) {
                first.value *= 60.0;
            } else if is_bare && *first < LEAST_BARE_S {
                let message = format!("`{}` could be seconds or minutes", *first);
                self.problem(first.span.clone(), message, REST_HELP);
            }
            let jogs = recovery.jogs;
            self.words_of_rest(recovery);
            recovery.jogs = jogs;
            self.between_sets();
            self.set(&mut recovery.gap, rest(first), begins, REST);
            self.set(&mut recovery.set_rest, sets, begins_second, SET_REST);
        } else if !is_for_runs && self.between_sets() {
            self.words_of_rest(recovery);
            self.set(&mut recovery.set_rest, first, begins, SET_REST);
        } else if (self.sets > 1 && recovery.gap.is_some() || is_behind_way)
            && recovery.set_rest.is_none()
            && !is_said_for_runs
        {
            // `2 x 2 x 200 (45s) 12min`
            self.set(&mut recovery.set_rest, first, begins, SET_REST);
        } else if recovery.gap.is_some() && recovery.after.is_none() && self.goes_on_with_item() {
            // `3 x mile 75 s rest / jog 4 min / 2 x 600`: what follows the whole series.
            recovery.after = Some(first);
        } else {
            self.set(&mut recovery.gap, rest(first), begins, REST);
        }
        Ok(())
    }

    /// Whether a list goes on behind what was read.
    pub(crate) fn goes_on_with_item(&mut self) -> bool {
        let (before, left, problems) = (self.place(), self.not_read.len(), self.problems.len());
        let goes_on = self.separator().is_some();
        self.not_read.truncate(left);
        self.problems.truncate(problems);
        self.go_back(before);
        goes_on
    }

    /// Whether a sign comes next that joins the rest between sets to the one between runs: `2min / 8min`,
    /// `60s & 3min`.
    fn is_second_rest(&mut self) -> bool {
        if !self.is_number(1) {
            return false;
        }
        if self.is_sign(0, '/') {
            return !self.is_counted_item(1) && self.metres_in(2).is_none();
        }
        let is_joined = self.written() == Some("&") || self.is_sign(0, ',') || self.is_word(0, &["and"]);
        let is_and = self.written() == Some("&") || self.is_word(0, &["and"]);
        let has_sets = self.sets > 1 || self.sets == 1 && is_and;
        is_joined && has_sets && (self.is_duration_alone_at(1) || self.is_rest_at(1))
    }

    /// Whether a duration stands `ahead` that says itself that it is a rest.
    pub(crate) fn is_rest_at(&mut self, ahead: usize) -> bool {
        let before = self.place();
        self.skip_all(ahead);
        let is_rest = self.is_duration_before(|cursor| {
            cursor.is_word(0, RESTS)
                && !cursor.is_number(1)
                && !cursor.is_sign(1, ':')
                && !cursor.is_sign(1, '=')
        });
        self.go_back(before);
        is_rest
    }

    /// Three rests or more, one for each run: `6-5-4 min`, `90 s, 75 s, 60 s`. Nothing is read where there are fewer.
    fn list_of_rests(&mut self) -> Read<bool> {
        let before = self.place();
        let mut numbers = 0;
        let mut ahead = 0;
        let mut is_in_minutes = false;
        let mut last = None;
        let mut joint = None;
        let (mut bare, mut distances) = (0, 0);
        // A list ends in a unit; one look at each number is enough.
        while numbers < 12
            && let Some(number) = self.number_at(ahead)
        {
            // `120-90-60 / 6-5-4 min`: runs are no rests.
            if last.is_some_and(|last: f64| !(last / 3.0..=last * 3.0).contains(&number)) {
                return Ok(false);
            }
            last = Some(number);
            numbers += 1;
            let is_clock = self.is_sign(ahead + 1, ':') && self.is_number(ahead + 2);
            ahead += if is_clock { 3 } else { 1 };
            if let Some(unit) = self.seconds_in(ahead) {
                is_in_minutes = unit == 60.0;
                ahead += 1 + usize::from(self.is_sign(ahead, '\'') && self.is_sign(ahead + 1, '\''));
            } else if !is_clock && self.metres_in(ahead).is_some() {
                return Ok(false);
            } else {
                bare += 1;
                distances += usize::from(!is_clock && is_usual_distance(number));
            }
            if ![',', '-', '/'].iter().any(|&sign| self.is_sign(ahead, sign))
                && !self.is_word(ahead, &["then", "and"])
                || !self.is_number(ahead + 1)
            {
                break;
            }
            // `200-400-200, 90s`: behind another sign stands something else.
            let next = self.written_at(ahead).filter(|sign| [",", "-", "/"].contains(sign));
            if joint.is_some() && next.is_some() && joint != next {
                return Ok(false);
            }
            joint = next;
            ahead += 1;
        }
        // `400, 300, 200, 90s`
        if bare > 0 && bare == distances {
            return Ok(false);
        }
        // `400, 300, 200 s: 31`
        let is_key = self.is_sign(ahead, ':') || self.is_sign(ahead, '=');
        if numbers < 3 || is_key || !self.is_unit_of_time_before(ahead) {
            return Ok(false);
        }
        let end = before + ahead;
        let mut rests = Vec::new();
        while self.place() < end {
            let is_bare = !self.is_duration();
            let seconds = self.seconds("a rest", REST_HELP)?;
            let value = if is_bare && is_in_minutes { *seconds * 60.0 } else { *seconds };
            rests.push(Spanned::new(value, seconds.span));
            if self.place() < end {
                self.skip();
            }
        }
        self.shared.rests = rests;
        Ok(true)
    }

    /// Whether three rests or more come next.
    pub(crate) fn is_list_of_rests(&mut self) -> bool {
        let (before, problems) = (self.place(), self.problems.len());
        let held = std::mem::take(&mut self.shared.rests);
        let is_list = self.is_number(0) && matches!(self.list_of_rests(), Ok(true));
        self.shared.rests = held;
        self.problems.truncate(problems);
        self.go_back(before);
        is_list
    }

    /// Whether the token before the one `ahead` is a unit of time, or seconds behind a colon.
    fn is_unit_of_time_before(&self, ahead: usize) -> bool {
        let Some(last) = ahead.checked_sub(1) else { return false };
        self.seconds_in(last).is_some()
            || self.is_sign(last, '\'')
            || self.is_number(last) && last > 0 && self.is_sign(last - 1, ':')
    }

    /// Whether `for every 10m` or `per 100m` comes next.
    fn is_per_distance(&self) -> bool {
        let words = usize::from(self.is_word(0, &["for"]));
        self.is_word(words, &["every", "each", "per"])
            && self.is_number(words + 1)
            && self.metres_in(words + 2).is_some()
    }

    /// `for every 10m`: the rest grows with the run before it.
    fn per_distance(&mut self, seconds: Spanned<f64>) -> Read<()> {
        self.word(&["for"]);
        self.skip();
        let Some((per_m, span)) = self.metres() else { return Err(self.expected("a distance", REST_HELP)) };
        if per_m <= 0.0 {
            return Err(self.problem(span, "a distance of 0 m has no rest", REST_HELP));
        }
        let whole = seconds.span.start..span.end;
        self.shared.per_distance = Some(Spanned::new(PerDistance { seconds: *seconds, per_m }, whole));
        Ok(())
    }

    /// How long the recovery between sets is, behind those words.
    pub(crate) fn set_rest(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        if self.is_sign(0, ':') || self.is_sign(0, '=') {
            self.skip();
        }
        let sets = self.recovery_seconds("a rest between sets", REST_HELP)?;
        self.words_of_rest(recovery);
        self.set(&mut recovery.set_rest, sets, begins, SET_REST);
        Ok(())
    }

    /// Words behind a duration: `90s rest`, `2 min jog`, `3 min walk back`.
    fn words_of_rest(&mut self, recovery: &mut Recovery) {
        let begins = self.place();
        self.word(&["active", "passive"]);
        if let Some(jog) =
            self.jog_tokens(0).filter(|&jog| !self.is_number(jog) && !self.is_word(jog, &["exactly"]))
        {
            let is_jog = (0..jog).any(|ahead| self.is_word(ahead, &JOGS));
            self.skip_all(jog);
            recovery.jogs = is_jog && !self.is_word(0, &["back"]) && recovery.kind.is_none();
            if self.word(&["back"]) {
                let kind = if is_jog { RecoveryKind::JogBack } else { RecoveryKind::WalkBack };
                let back = Spanned::new(kind, self.since(begins));
                self.set(&mut recovery.kind, back, begins, KIND);
            }
        }
        if self.is_word(0, &["standing"]) && self.is_word(1, RESTS) {
            recovery.kind = Some(Spanned::new(RecoveryKind::Stand, self.here()));
            self.skip();
        }
        self.rest_behind();
        if self.between_tokens(1).is_some() {
            self.word(&["easy", "slow"]);
        }
        if !self.is_number(1) {
            self.word(&["off", "float", "break", "apart"]);
        }
    }

    /// `5 min set rest`, `jog 200 rec`, but not the `R 8min` that follows.
    pub(crate) fn rest_behind(&mut self) {
        if self.is_word(0, RESTS) && !self.is_number(1) && !self.is_sign(1, '=') && !self.is_sign(1, ':') {
            self.skip();
            // `200 recovery jog`
            self.word(&["jog", "walk"]);
            // `4 min rec.`
            if self.is_sign(0, '.') && self.is_glued(0) && !self.is_glued(1) {
                self.skip();
            }
        }
    }

    /// How many tokens `between`, `btw`, `b/w` has where it stands `ahead`.
    pub(crate) fn between_tokens(&self, ahead: usize) -> Option<usize> {
        if self.is_word(ahead, &["between", "betw", "btw", "btwn", "btn", "bw"]) {
            return Some(1);
        }
        let is_short = self.is_word(ahead, &["b"])
            && self.is_sign(ahead + 1, '/')
            && self.is_word(ahead + 2, &["w", "t"]);
        is_short.then_some(3)
    }

    /// Whether `between` stands anywhere: what it stands in is no rest between blocks.
    pub(crate) fn has_between(&self) -> bool {
        (0..MOST_LOOKED_AT).any(|ahead| self.between_tokens(ahead).is_some())
    }

    /// Steps over `between` and what it stands between, or over phrases that say the same.
    fn between_any(&mut self, nouns: &[&str], phrases: Phrases) -> bool {
        if let Some(between) = self.between_tokens(0) {
            let article = usize::from(self.is_word(between, &["each", "the", "every", "all"]));
            if self.is_word(between + article, nouns) {
                self.skip_all(between + article + 1);
                return true;
            }
        }
        self.one_of(phrases)
    }

    pub(crate) fn between_sets(&mut self) -> bool {
        const SETS: Phrases = Phrases::new(&[
            &[&["after", "per"], &["each", "every"], &["set"]],
            &[&["set"], &["rest", "recovery"]],
            &[&["per"], &["set"]],
        ]);
        self.between_any(&["set", "sets", "series", "blocks"], SETS)
    }

    pub(crate) fn between_runs(&mut self) -> bool {
        const RUNS: Phrases = Phrases::new(&[
            &[&["after"], &["each", "every"], &["rep", "run", "one"]],
            &[&["per"], &["rep", "run"]],
        ]);
        const NOUNS: [&str; 16] = [
            "reps",
            "rep",
            "runs",
            "run",
            "effort",
            "efforts",
            "repetition",
            "repetitions",
            "each",
            "them",
            "intervals",
            "interval",
            "sprint",
            "sprints",
            "one",
            "all",
        ];
        if self.between_any(&NOUNS, RUNS) {
            return true;
        }
        let Some(between) = self.between_tokens(0) else { return false };
        if self.is_word(between, &["each", "all"]) {
            self.skip_all(between + 1);
            return true;
        }
        // `between` alone, unless the next word says between what.
        let is_alone = self.word_at(between).is_none() && !self.is_number(between)
            || self.is_clause(between) && !self.is_word(between, &["the"]);
        if is_alone {
            self.skip_all(between);
        }
        is_alone
    }

    /// `between sets 5min`, `between reps 90s`
    pub(crate) fn between(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        if self.between_sets() {
            self.sign(':');
            if self.is_distance_jog() || self.is_word(0, &["jog", "walk"]) && !self.is_duration_at(1) {
                return self.jog(recovery, begins);
            }
            self.jog_of_time();
            self.set_rest(recovery, begins)
        } else if self.between_runs() {
            self.sign(':');
            if self.is_distance_jog() || self.jog_tokens(0).is_some() {
                return self.jog(recovery, begins);
            }
            self.rests(recovery, begins, true)
        } else {
            self.skip();
            Err(self.expected("`sets` or `reps` after `between`", REST_HELP))
        }
    }

    /// `jog 3 min`: the word adds nothing to the time.
    fn jog_of_time(&mut self) {
        if self.is_word(0, &["jog", "walk"]) && self.is_number(1) {
            self.skip();
        }
    }

    /// What follows `off`, `every` or `on`: from one start to the next; after a run that leaves no time for it, the rest.
    pub(crate) fn cycle(&mut self, recovery: &mut Recovery, begins: usize, may_be_rest: bool) -> Read<()> {
        let is_bare = self.is_number(0) && !self.is_duration() && !self.is_time_range(0);
        let seconds = self.recovery_seconds("a time from start to start", CYCLE_HELP)?;
        // `off 200`
        if is_bare && *seconds >= 100.0 && *seconds % 100.0 == 0.0 {
            let message = format!("`{}` could be seconds or metres", *seconds);
            let help = format!("write `{0} jog` for metres, or `off {0}s`", *seconds);
            return Err(self.problem(seconds.span, message, help));
        }
        let is_short = match self.last_run {
            Some(LastRun::Metres(metres)) => *seconds < metres / FASTEST_CYCLE_M_S,
            Some(LastRun::Laps(laps)) => *seconds < laps * 400.0 / FASTEST_CYCLE_M_S,
            Some(LastRun::Timed(run_s)) => *seconds <= run_s,
            _ => false,
        };
        if may_be_rest && (self.jog_tokens(0).is_some() || self.is_word(0, RESTS)) {
            // `off 2 min jog`, `off 3 mins recovery`
            self.words_of_rest(recovery);
            let rest = Spanned::new(Gap::Rest(*seconds), seconds.span);
            self.set(&mut recovery.gap, rest, begins, KIND);
            return Ok(());
        }
        let gap = if may_be_rest && is_short {
            self.doubts.push(Doubt::CycleTooShort { seconds: *seconds });
            Gap::Rest(*seconds)
        } else {
            let is_close =
                self.last_run.and_then(LastRun::slowest_s).is_some_and(|run_s| *seconds < run_s * CLOSE);
            if may_be_rest && is_close {
                self.doubts.push(Doubt::CycleOrRest { seconds: *seconds });
            }
            Gap::Cycle(*seconds)
        };
        self.word(&CYCLES);
        self.set(&mut recovery.gap, Spanned::new(gap, self.since(begins)), begins, KIND);
        if self.is_number(1) && self.sign('/') {
            self.set_rest(recovery, begins)?;
            self.between_sets();
        }
        Ok(())
    }
}

//! What stands in brackets behind a run: clauses, and times without a word.

use crate::cursor::{Cursor, Read};
use crate::doubt::Doubt;

use crate::forms::{Details, Gap, LEAST_BARE_S, Pace};
use crate::last_run::LastRun;
use crate::shared::SharedPace;
use crate::spanned::Spanned;
use crate::turns::Turns;

impl Cursor<'_> {
    /// `(90s)`, `(200 jog)`, `(in lane 2, rest 90s)`, `(42-44 sec)`: what stands in brackets behind a run.
    pub(crate) fn in_brackets(&mut self, details: &mut Details) {
        let begins = self.here();
        if self.words_in_brackets() {
            return;
        }
        self.skip();
        self.is_in_brackets = true;
        self.value_in_brackets(details);
        loop {
            self.clauses(details);
            if self.is_at_end() || self.is_sign(0, ')') {
                break;
            }
            self.not_understood();
        }
        self.is_in_brackets = false;
        if !self.sign(')') {
            self.problem(begins, "unclosed `(`", "add `)` after what belongs to the run");
        }
    }

    /// `(bend + straight)`, `(tall & relaxed)`: words with a sign between them that joins runs elsewhere stay unread.
    fn words_in_brackets(&mut self) -> bool {
        let begins = self.place();
        self.skip();
        let mut has_plus = false;
        while self.word_at(0).is_some() || self.is_sign(0, '+') {
            has_plus |= self.is_sign(0, '+');
            self.skip();
        }
        let span = self.since(begins + 1);
        if !has_plus || !self.sign(')') {
            self.go_back(begins);
            return false;
        }
        self.leave(span);
        true
    }

    /// A time that stands first in brackets: the rest, or where a rest is given as well, the time of the run.
    fn value_in_brackets(&mut self, details: &mut Details) {
        let begins = self.place();
        // `@ 4:48 (80s laps)`: the pace in other words.
        let unit = 1 + usize::from(self.seconds_in(1).is_some());
        if details.pace.is_some() && self.is_number(0) && self.is_word(unit, &["lap", "laps"]) {
            self.skip_all(unit + 1);
            self.keep(begins);
            return;
        }
        if self.on_and_off()
            || self.bare_range_of_times(details)
            || self.parts_with_times()
            || self.times_of_runs(details)
            || self.times_of_parts(details)
            || self.bare_minutes(details)
            || self.bare_list_of_minutes()
            || self.pair_of_rests(details)
        {
            return;
        }
        if self.number_at(0).is_some_and(|seconds| seconds >= 10.0 && self.is_likely_time(seconds))
            && self.is_sign(1, ')')
            && details.pace.is_none()
            && let Some((seconds, span)) = self.number()
        {
            details.pace = Some(Spanned::new(Pace::Time { seconds, to_s: None }, span));
            if !self.has_open_rest {
                self.doubts.push(Doubt::TargetOrRest { seconds });
            }
            return;
        }
        // `6 x 400 (75) (60)`: behind the time of the run stands the rest.
        let is_bare_rest = details.pace.is_some()
            && details.recovery.gap.is_none()
            && self.number_at(0).is_some_and(|seconds| seconds >= LEAST_BARE_S)
            && self.is_sign(1, ')');
        let is_time = self.is_duration() || self.is_time_range(0) || is_bare_rest;
        if !is_time || self.is_duration_gap() {
            return;
        }
        self.rest_was_time_of_run(details);
        if self.is_time_of_run(details) {
            let (problems, place) = (self.problems.len(), self.place());
            if let Ok(pace) = self.time_of_run() {
                if let Some(race) = details.pace.take() {
                    self.asides.push(race.span);
                }
                details.pace = Some(Spanned::new(pace, self.since(begins)));
                return;
            }
            self.problems.truncate(problems);
            self.go_back(place);
        }
        let was_given = details.recovery.gap.is_some();
        if self.rests(&mut details.recovery, begins, false).is_err() {
            self.skip_to_clause();
            return;
        }
        if let Some(Gap::Rest(seconds)) = details.recovery.gap.as_deref().copied()
            && !was_given
            && details.pace.is_none()
            && self.shared.paces.is_empty()
            && self.is_likely_time(seconds)
        {
            self.doubts.push(Doubt::RestOrTarget { seconds });
        }
    }

    /// `6 x 400 (75s) (60s)`: of two times in brackets the first is that of the run, where it could be.
    fn rest_was_time_of_run(&mut self, details: &mut Details) {
        // `2 x 4 x 400 (90s) (5min)`: the second is that between sets.
        if self.sets < 2
            && details.pace.is_none()
            && let Some(Gap::Rest(seconds)) = details.recovery.gap.as_deref().copied()
            && self.doubts.last() == Some(&Doubt::RestOrTarget { seconds })
            && let Some(gap) = details.recovery.gap.take()
        {
            self.doubts.pop();
            details.pace = Some(Spanned::new(Pace::Time { seconds, to_s: None }, gap.span));
        }
    }

    /// `6 x 200 (32-34)`: close times of the run, in seconds without a word; nobody rests for a range of close times.
    fn bare_range_of_times(&mut self, details: &mut Details) -> bool {
        let (Some(from_s), Some(to_s)) = (self.number_at(0), self.number_at(2)) else { return false };
        let is_range = (self.is_sign(1, '-') || self.is_word(1, &["to"])) && self.is_sign(3, ')');
        let is_close = from_s >= 10.0 && is_close_range(from_s, to_s);
        if !is_range
            || !is_close
            || details.pace.is_some()
            || !self.is_likely_time(from_s)
            || !self.is_likely_time(to_s)
        {
            return false;
        }
        let begins = self.place();
        self.skip_all(3);
        self.bind_since(begins);
        let pace = Pace::Time { seconds: from_s, to_s: Some(to_s) };
        details.pace = Some(Spanned::new(pace, self.since(begins)));
        true
    }

    /// `4 x 1k (3:10, 3:08, 3:06, 3:04)`: times of the runs one after the other, as somebody could run each of them.
    fn times_of_runs(&mut self, details: &Details) -> bool {
        if details.pace.is_some() || !self.shared.paces.is_empty() {
            return false;
        }
        let before = self.place();
        let is_list = self.list_of_paces() && self.is_sign(0, ')');
        let is_down = ["down", ">", "→"].iter().any(|down| self.text[self.since(before)].contains(down));
        let is_list = is_list && (is_down || self.shared.paces.len() > 2);
        let are_likely = self.shared.paces.iter().all(|pace| match pace.value {
            SharedPace::Time(seconds) => seconds >= 10.0 && self.is_likely_time(seconds),
            SharedPace::Race(_) | SharedPace::Percent(_) => false,
        });
        if is_list && are_likely {
            return true;
        }
        self.shared.paces.clear();
        self.shared.is_progression = false;
        self.go_back(before);
        false
    }

    /// Whether the time in brackets is that of the run: nobody rests for a range of close times or a broken second,
    /// and where a rest stands outside the brackets, what stands inside is something else.
    fn is_time_of_run(&mut self, details: &Details) -> bool {
        if details.pace.as_deref().is_some_and(|pace| !matches!(pace, Pace::Race(_) | Pace::Percent(_))) {
            return false;
        }
        let before = self.place();
        let (problems, doubts) = (self.problems.len(), self.doubts.len());
        let first = self.seconds("", "").ok();
        let is_range = self.is_sign(0, '-') || self.is_word(0, &["to"]);
        let second = if is_range {
            self.skip();
            self.seconds("", "").ok()
        } else {
            None
        };
        // `10 x 100 (15s) x 2, 4 min`: a set has two rests.
        let is_in_sets = self.is_times(1) && self.is_number(2);
        let is_alone = self.is_sign(0, ')') && !is_in_sets;
        self.problems.truncate(problems);
        self.doubts.truncate(doubts);
        self.go_back(before);
        let Some(first) = first.filter(|_| is_alone) else { return false };
        let (seconds, is_close) = match second {
            Some(second) => (*second, is_close_range(*first, *second)),
            None => (*first, false),
        };
        let is_exact = first.fract() != 0.0;
        let is_likely = self.is_likely_time(seconds);
        is_likely && (is_close || is_exact || self.has_open_rest && self.sets < 2)
    }

    /// The time of a run, or its range.
    fn time_of_run(&mut self) -> Read<Pace> {
        let first = self.seconds("a pace", "write for example `@ 48s`")?;
        if self.is_number(1) && (self.sign('-') || self.word(&["to"])) {
            let last = self.seconds("a pace", "write for example `@ 48s`")?;
            return Ok(Pace::Time { seconds: *first, to_s: Some(*last) });
        }
        Ok(Pace::Time { seconds: *first, to_s: None })
    }

    /// `10 x 400 w/ 200 float (70/50)`: the times of the run and of its recovery; `800 (62, 66)`: those of its halves.
    fn times_of_parts(&mut self, details: &mut Details) -> bool {
        let before = self.place();
        let mut times: Vec<f64> = Vec::new();
        let problems = self.problems.len();
        while self.is_number(0) && times.len() < 9 && self.metres_in(1).is_none() {
            let Ok(time) = self.seconds("", "") else { break };
            times.push(*time);
            if !((self.is_sign(0, ',') || self.is_sign(0, '/') || self.is_sign(0, '-')) && self.is_number(1))
            {
                break;
            }
            self.skip();
        }
        self.problems.truncate(problems);
        let is_closed = self.is_sign(0, ')') && times.len() > 1;
        let span = self.since(before);
        let length_m = match self.last_run {
            Some(LastRun::Metres(metres)) => metres,
            _ => 0.0,
        };
        if is_closed && details.pace.is_none() {
            let kind_m = details.recovery.kind.as_deref().and_then(|kind| kind.on_m());
            if times.len() == 2
                && kind_m.is_some()
                && details.recovery.gap.is_none()
                && self.is_likely_time(times[0])
            {
                details.pace = Some(Spanned::new(Pace::Time { seconds: times[0], to_s: None }, span.clone()));
                details.recovery.gap = Some(Spanned::new(Gap::Rest(times[1]), span));
                return true;
            }
            let each_m = length_m / times.len() as f64;
            let sum: f64 = times.iter().sum();
            let is_even = times.iter().all(|time| (each_m / 10.6..=each_m / 3.2).contains(time));
            let is_close = times.iter().all(|time| (time * times.len() as f64 / sum - 1.0).abs() < 0.25);
            if is_even && is_close && self.is_likely_time(sum) {
                details.pace = Some(Spanned::new(Pace::Time { seconds: sum, to_s: None }, span));
                self.divided = Turns::new(&[each_m]);
                return true;
            }
        }
        self.go_back(before);
        false
    }

    /// `600 + 400 + 200 (8, 6)`, `(5-4-3)`: minutes between the runs of a list, which grow shorter.
    pub(crate) fn bare_list_of_minutes(&mut self) -> bool {
        let mut count = 0;
        let mut last = 31.0;
        while let Some(minutes) =
            self.number_at(2 * count).filter(|minutes| *minutes < last && *minutes > 0.0)
        {
            last = minutes;
            count += 1;
            let sign = 2 * count - 1;
            if !self.is_sign(sign, ',') && !self.is_sign(sign, '-') && !self.is_sign(sign, '/') {
                break;
            }
        }
        let is_closed = self.is_sign((2 * count).saturating_sub(1), ')')
            || self.kind((2 * count).saturating_sub(1)).is_none();
        if count < 3 || !is_closed || !self.shared.rests.is_empty() {
            return false;
        }
        for _ in 0..count {
            if let Some((minutes, span)) = self.number() {
                self.shared.rests.push(Spanned::new(minutes * 60.0, span));
            }
            if self.shared.rests.len() < count {
                self.skip();
            }
        }
        self.doubts.push(Doubt::BareMinutes);
        true
    }

    /// `350 + 250 + 150 (15 min, 12 min)`: the rests of three runs that stand in no set.
    fn pair_of_rests(&mut self, details: &Details) -> bool {
        // `600/400/200 x 2 (3', 8')` has turns.
        let is_counted =
            self.number_before(2).is_some_and(|turns| turns <= MOST_TURNS) && self.is_times_before(3);
        if self.sets > 0 || is_counted || !self.shared.rests.is_empty() || details.recovery.gap.is_some() {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let mut rests = Vec::new();
        while rests.len() < 2 && self.is_duration() {
            let Ok(seconds) = self.seconds("", "") else { break };
            rests.push(seconds);
            if rests.len() < 2 && ![',', '/', '+'].iter().any(|&sign| self.sign(sign)) {
                break;
            }
        }
        self.problems.truncate(problems);
        if rests.len() < 2 || !self.is_sign(0, ')') {
            self.go_back(before);
            return false;
        }
        self.shared.rests = rests;
        true
    }

    /// `2 sets 4 x 50 (2, 6)`: minutes between runs and between sets.
    fn bare_minutes(&mut self, details: &mut Details) -> bool {
        let is_pair = self.sets > 1
            && (self.is_sign(1, ',') || self.is_sign(1, '/') || self.is_sign(1, '+') || self.is_sign(1, '-'))
            && self.is_sign(3, ')');
        is_pair && self.pair_of_minutes(details)
    }

    /// `3 x (200, 150, 100) 2/6`: the same without brackets, at the end.
    pub(crate) fn bare_minutes_behind_sets(&mut self, details: &mut Details) -> bool {
        let is_last = self.kind(3).is_none();
        let is_pair = self.sets > 0 && self.is_behind(')') && self.is_sign(1, '/') && is_last;
        is_pair && self.pair_of_minutes(details)
    }

    /// Two numbers with a sign between them, as minutes between runs and between sets.
    fn pair_of_minutes(&mut self, details: &mut Details) -> bool {
        let (Some(first), Some(second)) = (self.number_at(0), self.number_at(2)) else { return false };
        if details.recovery.gap.is_some() || !(first < second && second <= 30.0) {
            return false;
        }
        let first_span = self.here();
        self.skip_all(2);
        let second_span = self.here();
        self.skip();
        self.bind_since(self.place() - 3);
        details.recovery.gap = Some(Spanned::new(Gap::Rest(first * 60.0), first_span));
        details.recovery.set_rest = Some(Spanned::new(second * 60.0, second_span));
        self.doubts.push(Doubt::BareMinutes);
        true
    }
}

/// A number behind a times sign that is no larger counts the turns of a list.
const MOST_TURNS: f64 = 10.0;

/// Whether somebody could mean two times as one target.
fn is_close_range(from_s: f64, to_s: f64) -> bool {
    to_s >= from_s && to_s <= from_s * 1.3
}

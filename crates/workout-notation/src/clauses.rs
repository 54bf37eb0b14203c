//! Reading the clauses behind a run.

use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::forms::{Details, Gap, Pace};
use crate::last_run::LastRun;
use crate::spanned::Spanned;

/// Words that may stand before a clause and add nothing to it.
const CONNECTORS: [&str; 5] = ["with", "w", "and", "plus", "of"];

/// Words between a connector and its clause that add nothing.
#[rustfmt::skip]
const FILLERS: [&str; 17] = [
    "a", "an", "the", "reducing", "decreasing", "increasing", "shortening", "short", "long", "active", "passive",
    "about", "approx", "only", "just", "some", "then",
];

/// Words that a list goes on with, which no clause begins with.
const LIST_WORDS: [&str; 8] = ["then", "and", "plus", "followed", "repeat", "twice", "x", "finally"];

/// The most words in a row behind the word for a clause that say nothing.
const MOST_IDLE: usize = 12;

/// The most words in a row that are left unread in front of a run of a list.
const MOST_UNREAD: usize = 6;

impl Cursor<'_> {
    /// Reads clauses, and what stands between them that says nothing, until something else comes.
    pub(crate) fn clauses(&mut self, details: &mut Details) {
        loop {
            let before = self.place();
            let is_apart =
                self.skip_signs() | self.connector() | self.is_behind(')') | self.is_rest_by_itself();
            if self.clause(details) || is_apart && self.bare_rest(details) || self.aside_in_list() {
                continue;
            }
            if !self.unread_words(before) {
                self.go_back(before);
                return;
            }
        }
    }

    /// `6 x 200 3'`: minutes alone that nobody takes for the run.
    fn is_rest_by_itself(&self) -> bool {
        let is_minutes = self.is_number(0) && self.seconds_in(1) == Some(60.0);
        is_minutes && self.number_at(0).is_some_and(|minutes| !self.is_likely_time(minutes * 60.0))
    }

    /// Steps over signs that stand between clauses, and says whether there were any.
    fn skip_signs(&mut self) -> bool {
        let before = self.place();
        loop {
            let is_stop =
                self.is_sign(0, '.') && !(self.is_glued(0) && self.is_glued(1) && self.is_number(1));
            // `(walk back) - spikes`
            let is_dash = self.is_sign(0, '-')
                && self.word_at(1).is_some()
                && !self.is_glued(0)
                && !self.is_clause(1)
                && !self.is_effort(1)
                && !self.is_item(1);
            if !self.is_sign(0, ',') && !self.is_sign(0, ';') && !is_stop && !is_dash && !self.is_idle_colon()
            {
                break;
            }
            self.skip();
        }
        self.place() > before
    }

    /// `2 x 400m: rest 90s`
    fn is_idle_colon(&self) -> bool {
        self.is_sign(0, ':') && !(self.is_glued(0) && self.is_glued(1) && self.is_number(1))
    }

    /// `- rest 90s`, `w/ 90s rest`, `and 5 min between sets`
    fn connector(&mut self) -> bool {
        let before = self.place();
        // `200 + 20 min`: what joins runs makes a time alone a run.
        // `then 5 min rest` is no run, whatever joins it.
        if (self.is_sign(0, '+') || self.is_word(0, &["then", "and", "plus"])) && self.is_rest_at(1) {
            self.skip();
            return true;
        }
        let is_plus = self.written() == Some("+");
        let joins_runs = self.is_sign(0, '+') || self.is_word(0, &["and", "plus"]);
        let is_word = self.word(&CONNECTORS);
        if is_word {
            self.sign('/');
            self.fillers();
        }
        if !is_word && !self.sign('-') && !self.sign('/') && !self.sign('+') {
            return false;
        }
        if !is_word {
            self.word(&CONNECTORS);
            self.fillers();
        }
        // `with the wind` and `with 20 run-in` are more than their first word, and a dash between
        // numbers makes a ladder.
        if is_plus {
            let is_jog =
                self.is_distance_jog() && !(1..4).any(|ahead| self.is_word(ahead, &["jogging", "walking"]));
            let goes_on = is_jog || self.is_clause(0) && !self.is_word(0, &["the"]);
            if !goes_on {
                self.go_back(before);
            }
            return goes_on;
        }
        let goes_on = self.is_duration_gap()
            || !joins_runs && (self.is_duration_alone_at(0) || self.is_time_range(0))
            || self.is_distance_jog()
            || !joins_runs && self.is_list_of_rests()
            || self.is_clause(0) && !self.is_word(0, &["the"])
            || self.is_bare_pace() && !is_word;
        if !goes_on {
            self.go_back(before);
        }
        goes_on
    }

    /// Steps over words that add nothing.
    fn fillers(&mut self) {
        let words = (0..4).take_while(|&ahead| self.is_word(ahead, &FILLERS)).count();
        self.skip_all(words);
    }

    /// Reads one clause if one comes next, and says whether it does. Words that begin a clause and say nothing that a
    /// clause could, without a number, are left unread.
    fn clause(&mut self, details: &mut Details) -> bool {
        // `20 x 400 in 4 sets of 5`
        if self.is_word(0, &["in"]) && self.is_number(1) && self.is_word(2, &["sets", "set"]) {
            return false;
        }
        if self.run_in() {
            return true;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let held = (self.asides.len(), self.doubts.len());
        if details.read(self) {
            let is_nothing = self.problems.len() == problems + 1 && self.last_expected == Some(problems);
            if is_nothing && self.are_idle_words(before) {
                self.problems.truncate(problems);
                self.asides.truncate(held.0);
                self.doubts.truncate(held.1);
                self.go_back(before);
                self.leave_words();
            }
            return true;
        }
        if self.is_sign(0, '(') && !self.is_in_brackets {
            if !self.note_in_brackets() {
                self.in_brackets(details);
            }
            return true;
        }
        // `in-and-out` belongs to the run.
        if !self.is_word(0, &["in"]) || self.is_sign(1, '-') || self.is_word(1, &["and"]) {
            return false;
        }
        if self.are_idle_words(before) {
            self.leave_words();
            return true;
        }
        if self.aside() {
            return true;
        }
        self.skip();
        self.expected("`lane` after `in`", "write for example `in lane 2` or `in lanes 2-5`");
        self.skip_to_clause();
        true
    }

    /// Whether the words that begin at a place end before any number does, so that nothing is lost with them but words.
    fn are_idle_words(&self, place: usize) -> bool {
        let mut at = place;
        while at < place + MOST_IDLE && self.is_word_from_start(at) {
            at += 1;
        }
        at > place && at < place + MOST_IDLE && !self.is_number_from_start(at)
    }

    /// Leaves the words unread that come next.
    fn leave_words(&mut self) {
        let begins = self.place();
        self.skip();
        while self.word_at(0).is_some()
            && !self.is_clause(0)
            && !self.is_effort(0)
            && !self.is_word(0, &LIST_WORDS)
        {
            self.skip();
        }
        let span = self.since(begins);
        self.leave(span);
    }

    /// Words that no form knows, left unread; those in front of a run of a list are left to the list.
    fn unread_words(&mut self, before: usize) -> bool {
        let begins = self.place();
        if self.is_word(0, &["w"]) && self.is_sign(1, '/') && self.word_at(2).is_some() {
            self.skip_all(2);
        }
        // The word for a clause that none came of, with another word behind it.
        if self.is_clause(0)
            && self.word_at(0).is_some()
            && !self.is_number(1)
            && !self.is_word(0, &LIST_WORDS)
        {
            self.skip();
        }
        let mut has_number = false;
        while self.word_at(0).is_some()
            && !self.is_clause(0)
            && (!self.is_effort(0) || self.place() == begins)
            && !self.is_word(0, &LIST_WORDS)
            && !self.is_run_name(0)
        {
            self.skip();
            // `U15`, `Y9s`
            if self.is_number(0) && self.is_glued(0) {
                has_number = true;
                self.skip();
            }
        }
        if self.place() == begins {
            return false;
        }
        // `betwen sets 5min`: what is misspelt may be what the number belongs to.
        if self.is_number(0) && !self.is_counted_item(0) && self.is_misspelt_since(begins) {
            self.go_back(begins);
            return false;
        }
        if has_number {
            self.keep(begins);
            return true;
        }
        let is_in_front = self.is_item(0) && self.is_counted_item(0) && begins > before;
        if is_in_front {
            return false;
        }
        let span = self.since(begins);
        self.leave(span);
        true
    }

    /// Whether one of the words from a place on is nearly a word of the notation.
    fn is_misspelt_since(&mut self, begins: usize) -> bool {
        let end = self.place();
        self.go_back(begins);
        let is_misspelt = (0..(end - begins).min(MOST_UNREAD)).any(|_| {
            let is_misspelt = self.did_you_mean().is_some();
            self.skip();
            is_misspelt
        });
        self.go_back(end);
        is_misspelt
    }

    /// Notes words as not read; words that follow one another are noted together.
    pub(crate) fn leave(&mut self, span: std::ops::Range<usize>) {
        match self.not_read.last_mut() {
            Some(last) if last.end <= span.start && self.text[last.end..span.start].trim().is_empty() => {
                last.end = span.end;
            }
            _ => self.not_read.push(span),
        }
    }

    /// How many unread words stand in front of a counted run: `finish with 1 x 300`.
    pub(crate) fn words_before_item(&self) -> Option<usize> {
        let words = (0..MOST_UNREAD)
            .take_while(|&ahead| {
                self.word_at(ahead).is_some() && !self.is_effort(ahead) && !self.is_times(ahead)
            })
            .count();
        (words > 0 && self.is_counted_item(words)).then_some(words)
    }

    /// Whether a number and a times sign stand `ahead`.
    pub(crate) fn is_counted_item(&self, ahead: usize) -> bool {
        self.is_number(ahead) && (self.is_times(ahead + 1) || self.is_count_word(ahead + 1))
    }

    /// A duration alone behind a comma, a dash or a bracket is the rest.
    fn bare_rest(&mut self, details: &mut Details) -> bool {
        if self.follows_timed && details.effort.is_none() && !self.is_list_of_rests() {
            return false;
        }
        if !self.is_duration_alone_at(0) && !self.is_list_of_rests() {
            return false;
        }
        let (begins, here) = (self.place(), self.here());
        let was_given = details.recovery.gap.is_some();
        if was_given && self.sets < 2 {
            // `6 x 40 (3min), 10min, 4 x 60`: what follows the whole series.
            return self.rest_afterwards(details);
        }
        if self.rests(&mut details.recovery, begins, false).is_err() {
            self.skip_to_clause();
            return true;
        }
        if let Some(Gap::Rest(seconds)) = details.recovery.gap.as_deref().copied()
            && !was_given
            && details.pace.is_none()
            && details.recovery.gap.as_ref().is_some_and(|gap| gap.span.start == here.start)
            && self.is_likely_time(seconds)
        {
            self.doubts.push(Doubt::RestOrTarget { seconds });
        }
        true
    }

    /// A second rest in front of a further item: the rest between the two.
    fn rest_afterwards(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        let (problems, doubts) = (self.problems.len(), self.doubts.len());
        let Ok(seconds) = self.seconds("a rest", "write for example `rest 90s`") else {
            self.problems.truncate(problems);
            self.go_back(begins);
            return false;
        };
        let goes_on = self.goes_on_with_item();
        if !goes_on || details.recovery.after.is_some() {
            self.doubts.truncate(doubts);
            let span = seconds.span;
            self.problem(span, "a second rest for the same run", "keep one of them");
            return true;
        }
        details.recovery.after = Some(seconds);
        true
    }

    /// Whether somebody could run the last run in this time.
    fn is_likely_time(&self, seconds: f64) -> bool {
        let metres = match self.last_run {
            Some(LastRun::Metres(metres)) => metres,
            Some(LastRun::Laps(laps)) => laps * 400.0,
            _ => return false,
        };
        let slowest_m_s = if metres <= 600.0 { 4.0 } else { 3.2 };
        let fastest_m_s = match metres {
            ..=450.0 => 10.6,
            ..=1100.0 => 8.0,
            _ => 7.2,
        };
        (metres / fastest_m_s..=metres / slowest_m_s).contains(&seconds)
    }

    /// `(90s)`, `(200 jog)`, `(in lane 2, rest 90s)`, `(42-44 sec)`: what stands in brackets behind a run.
    fn in_brackets(&mut self, details: &mut Details) {
        let begins = self.here();
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

    /// A time that stands first in brackets: the rest, or where a rest is given as well, the time of the run.
    fn value_in_brackets(&mut self, details: &mut Details) {
        let begins = self.place();
        if self.times_of_parts(details) || self.bare_minutes(details) || self.bare_list_of_minutes() {
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
        let is_time = self.is_duration() || self.is_time_range(0);
        if !is_time || self.is_duration_gap() {
            return;
        }
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
            && self.is_likely_time(seconds)
        {
            self.doubts.push(Doubt::RestOrTarget { seconds });
        }
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
        let is_alone = self.is_sign(0, ')');
        self.problems.truncate(problems);
        self.doubts.truncate(doubts);
        self.go_back(before);
        let Some(first) = first.filter(|_| is_alone) else { return false };
        let (seconds, is_close) = match second {
            Some(second) => (*second, *second <= *first * 1.3 && *second >= *first),
            None => (*first, false),
        };
        let is_exact = first.fract() != 0.0;
        let is_likely = self.is_likely_time(seconds);
        is_likely && (is_close || is_exact || self.has_open_rest && self.sets < 2)
    }

    /// The time of a run, or its range.
    fn time_of_run(&mut self) -> crate::cursor::Read<Pace> {
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
            if length_m > 0.0 && is_even && is_close && self.is_likely_time(sum) {
                details.pace = Some(Spanned::new(Pace::Time { seconds: sum, to_s: None }, span));
                self.divided = Some(times.len());
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

    /// `2 sets 4 x 50 (2, 6)`: minutes between runs and between sets.
    fn bare_minutes(&mut self, details: &mut Details) -> bool {
        let is_pair = self.sets > 1
            && (self.is_sign(1, ',') || self.is_sign(1, '/') || self.is_sign(1, '+') || self.is_sign(1, '-'))
            && self.is_sign(3, ')');
        let (Some(first), Some(second)) = (self.number_at(0), self.number_at(2)) else { return false };
        if !is_pair || details.recovery.gap.is_some() || !(first < second && second <= 30.0) {
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

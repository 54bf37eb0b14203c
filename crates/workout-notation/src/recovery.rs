//! What is done between runs: how long, and how the runners get to the next start.

use crate::block::{Details, Gap, Way};
use crate::cursor::Cursor;
use crate::spanned::Spanned;

const REST_HELP: &str = "write for example `rest 90s` or `rest 3min / 8min between sets`";
const OFF_HELP: &str = "write for example `off 3:00`";
const WAY_HELP: &str = "write for example `jog 200`, `walk back` or `changing ends`";

/// Words that say that a recovery follows, or that what stood before was one.
pub(crate) const RESTS: [&str; 8] =
    ["rest", "rests", "rec", "recs", "recovery", "recoveries", "recover", "r"];

/// A bare number below this is hardly meant as seconds of rest.
const LEAST_BARE_S: f64 = 10.0;

/// The longest way from a run to the next, in metres.
const LONGEST_WAY_M: f64 = 10_000.0;

impl Cursor<'_> {
    /// `jog`, `slow walk`: how many tokens, where such words stand `ahead`.
    fn way_tokens(&self, ahead: usize) -> Option<usize> {
        let slow = usize::from(self.is_word(ahead, &["easy", "slow", "slowly", "light", "gentle"]));
        self.is_word(ahead + slow, &["jog", "walk", "jogging", "walking"]).then_some(slow + 1)
    }

    /// Whether a duration comes next that says how long a recovery is: `2min / 8min between sets`,
    /// `8min between sets`, `90s rest`, `2 min jog`.
    pub(crate) fn is_duration_gap(&mut self) -> bool {
        if !self.is_duration() {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        // However it goes, a duration has a few tokens.
        let read = self.seconds("", "").is_some();
        let is_gap = read
            && (self.is_sign(0, '/')
                || self.is_word(0, &["between", "betw", "btw", "standing"])
                || self.is_word(0, &["full", "set"]) && self.is_word(1, &RESTS)
                || self.is_word(0, &RESTS)
                || self.way_tokens(0).is_some());
        self.problems.truncate(problems);
        self.go_back(before);
        is_gap
    }

    /// Whether a way that is named behind its distance comes next: `200 jog`, `100m easy walk`.
    pub(crate) fn is_distance_way(&self) -> bool {
        let Some(distance) = self.metres_tokens(0) else { return false };
        let Some(way) = self.way_tokens(distance) else { return false };
        // In `400, 200 jog 100` the number belongs to the run before.
        !self.is_number(distance + way) && !self.is_word(distance + way, &["back"])
    }

    /// A clause that says what is done between runs; false where none comes next.
    pub(crate) fn recovery_clause(&mut self, details: &mut Details) -> bool {
        let begins = self.place();
        if self.is_word(0, &RESTS)
            || self.is_word(0, &["full", "complete", "sufficient"]) && self.is_word(1, &RESTS)
        {
            self.rest_clause(details, begins);
        } else if self.is_word(0, &["on"]) && self.is_number(1)
            || self.is_word(0, &["go", "going"]) && self.is_word(1, &["every"])
        {
            self.skip();
            self.word(&["every"]);
            self.off_clause(details, begins);
        } else if self.word(&["off", "every"]) {
            self.off_clause(details, begins);
        } else if self.is_word(0, &["between"]) {
            self.between_clause(details, begins);
        } else if self.is_way() {
            self.way(details, begins);
        } else {
            return false;
        }
        true
    }

    fn is_way(&self) -> bool {
        const WAYS: [&str; 8] =
            ["jog", "walk", "walkback", "jogback", "stand", "standing", "change", "changing"];
        let is_slow = self.is_word(0, &["easy", "slow", "slowly", "light", "gentle"]);
        self.is_word(0, &WAYS) || is_slow && self.is_word(1, &["jog", "walk", "jogging", "walking"])
    }

    /// What follows `rest`: a duration, a way, `between sets 5min`, or `full`.
    fn rest_clause(&mut self, details: &mut Details, begins: usize) {
        let is_capital = self.written() == Some("R");
        if self.word(&["full", "complete", "sufficient"]) {
            self.word(&RESTS);
            return;
        }
        self.skip();
        if self.is_word(0, &RESTS) && !self.is_sign(1, '=') {
            self.skip();
        }
        if self.is_sign(0, ':') || self.is_sign(0, '=') || self.is_word(0, &["of", "is"]) {
            self.skip();
        }
        if self.is_word(0, &["standing"]) && self.is_number(1) {
            details.recovery.way = Some(Spanned::new(Way::Stand, self.here()));
            self.skip();
        }
        if self.word(&["full", "complete"]) {
            self.word(&RESTS);
        } else if self.is_distance_way() || self.way_tokens(0).is_some() {
            self.way(details, begins);
        } else {
            let is_for_sets = self.between_sets() || is_capital && details.recovery.between.is_some();
            let is_for_runs = !is_for_sets && self.between_runs();
            if is_for_sets {
                self.set_gap(details, begins);
            } else {
                self.gaps(details, begins, is_for_runs);
            }
        }
    }

    /// How long a recovery is, with a unit where it could be meant in minutes.
    fn gap_seconds(&mut self, what: &str, help: &str) -> Option<Spanned<f64>> {
        let is_bare = self.is_number(0) && !self.is_duration();
        let is_metres = is_bare && self.metres_in(1).is_some();
        let has_unit_later = self.is_sign(1, '-') && self.is_number(2);
        let begins = self.place();
        let seconds = self.seconds(what, help)?;
        if is_metres {
            self.skip();
            let (span, value) = (self.since(begins), *seconds);
            let message = format!("`{}` is a distance, and this is a time", &self.text[span.clone()]);
            self.problem(span, message, format!("write `{value}min`, `{value}s` or `jog {value}`"));
            return None;
        }
        if has_unit_later {
            self.skip();
            let _ = self.seconds(what, help)?;
            let span = self.since(begins);
            let message = format!("`{}` is two times, and {what} is one", &self.text[span.clone()]);
            self.problem(span, message, help);
            return None;
        }
        if is_bare && *seconds < LEAST_BARE_S && !self.is_sign(0, '/') {
            let value = *seconds;
            let minutes = value * 60.0;
            let message = format!("`{value}` could be seconds or minutes");
            let help = format!("write `{value}min` for {minutes} s, or `{value}s`");
            self.problem(seconds.span, message, help);
            return None;
        }
        Some(seconds)
    }

    /// How long recoveries are: `90s`, `2min / 8min`, `8min between sets`.
    fn gaps(&mut self, details: &mut Details, begins: usize, is_for_runs: bool) {
        let Some(mut first) = self.gap_seconds("a rest", REST_HELP) else {
            self.skip_to_clause();
            return;
        };
        let is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        self.words_of_rest(details);
        let is_for_runs = self.between_runs() || is_for_runs;
        if self.is_number(1) && self.sign('/') {
            let Some(sets) = self.gap_seconds("a rest between sets", REST_HELP) else {
                self.skip_to_clause();
                return;
            };
            // `2/8min`: the unit of the second is that of both.
            let is_minutes = self.text[sets.span.clone()].contains(['m', 'M', '\'', '′', '’']);
            if is_bare && *first < LEAST_BARE_S && is_minutes {
                first.value *= 60.0;
            } else if is_bare && *first < LEAST_BARE_S {
                let message = format!("`{}` could be seconds or minutes", *first);
                self.problem(first.span.clone(), message, REST_HELP);
            }
            self.words_of_rest(details);
            self.between_sets();
            self.once(details.recovery.between.is_some(), begins, "rest");
            self.once(details.recovery.sets.is_some(), begins, "rest between sets");
            details.recovery.between = Some(rest(&first));
            details.recovery.sets = Some(rest(&sets));
        } else if !is_for_runs && self.between_sets() {
            self.words_of_rest(details);
            self.once(details.recovery.sets.is_some(), begins, "rest between sets");
            details.recovery.sets = Some(rest(&first));
        } else {
            self.once(details.recovery.between.is_some(), begins, "rest");
            details.recovery.between = Some(rest(&first));
        }
    }

    /// How long the recovery between sets is, said behind those words.
    fn set_gap(&mut self, details: &mut Details, begins: usize) {
        if self.is_sign(0, ':') || self.is_sign(0, '=') {
            self.skip();
        }
        let Some(sets) = self.gap_seconds("a rest between sets", REST_HELP) else {
            self.skip_to_clause();
            return;
        };
        self.words_of_rest(details);
        self.once(details.recovery.sets.is_some(), begins, "rest between sets");
        details.recovery.sets = Some(rest(&sets));
    }

    /// A recovery that begins with its duration.
    pub(crate) fn gap_clause(&mut self, details: &mut Details, begins: usize) {
        self.gaps(details, begins, false);
    }

    /// Words behind a duration: `90s rest`, `2 min jog`, `3 min walk back`.
    fn words_of_rest(&mut self, details: &mut Details) {
        let begins = self.place();
        if let Some(way) = self.way_tokens(0).filter(|&way| !self.is_number(way)) {
            (0..way).for_each(|_| self.skip());
            if self.word(&["back"]) {
                self.once(details.recovery.way.is_some(), begins, "way to the next start");
                details.recovery.way = Some(Spanned::new(Way::WalkBack, self.since(begins)));
            }
        }
        if self.is_word(0, &["standing"]) && self.is_word(1, &RESTS) {
            details.recovery.way = Some(Spanned::new(Way::Stand, self.here()));
            self.skip();
        }
        // `5 min set rest`, but not the `R 8min` that follows.
        if self.is_word(0, &RESTS) && !self.is_number(1) && !self.is_sign(1, '=') && !self.is_sign(1, ':') {
            self.skip();
        }
    }

    fn between_sets(&mut self) -> bool {
        const SETS: [&[&str]; 8] = [
            &["between", "sets"],
            &["between", "each", "set"],
            &["between", "the", "sets"],
            &["betw", "sets"],
            &["btw", "sets"],
            &["after", "each", "set"],
            &["set", "rest"],
            &["set", "recovery"],
        ];
        self.one_of(&SETS)
    }

    fn between_runs(&mut self) -> bool {
        const RUNS: [&[&str]; 9] = [
            &["between", "reps"],
            &["between", "runs"],
            &["between", "each", "rep"],
            &["between", "each", "run"],
            &["between", "each"],
            &["between", "the", "reps"],
            &["between", "the", "runs"],
            &["betw", "reps"],
            &["btw", "reps"],
        ];
        // `between` alone, where no word follows that says between what.
        self.one_of(&RUNS)
            || self.is_word(0, &["between"])
                && (self.word_at(1).is_none() || self.is_clause(1) && !self.is_word(1, &["the"]))
                && self.word(&["between"])
    }

    /// `between sets 5min`, `between reps 90s`
    fn between_clause(&mut self, details: &mut Details, begins: usize) {
        if self.between_sets() {
            self.set_gap(details, begins);
        } else if self.between_runs() {
            self.gaps(details, begins, true);
        } else {
            self.skip();
            let message = format!("expected `sets` or `reps` after `between`, found {}", self.found());
            self.problem(self.here(), message, REST_HELP);
            self.skip_to_clause();
        }
    }

    /// `off 3:00`, `every 3:00`, `on 3:00`: from one start to the next.
    fn off_clause(&mut self, details: &mut Details, begins: usize) {
        let Some(seconds) = self.gap_seconds("a time from start to start", OFF_HELP) else {
            self.skip_to_clause();
            return;
        };
        self.once(details.recovery.between.is_some(), begins, "recovery");
        details.recovery.between = Some(Spanned::new(Gap::Off(*seconds), self.since(begins)));
        if self.is_number(1) && self.sign('/') {
            self.set_gap(details, begins);
            self.between_sets();
        }
    }

    /// How the runners get to the next start: `jog 200`, `200 jog`, `walk back`, `walk 100`,
    /// `standing`, `changing ends`.
    pub(crate) fn way(&mut self, details: &mut Details, begins: usize) {
        const BACK: [&[&str]; 4] =
            [&["walk", "back"], &["walk", "-", "back"], &["jog", "back"], &["jog", "-", "back"]];
        let slow = usize::from(self.way_tokens(0) == Some(2));
        (0..slow).for_each(|_| self.skip());
        let way = if self.one_of(&BACK) || self.word(&["walkback", "jogback"]) {
            Some(Way::WalkBack)
        } else if self.one_of(&[&["changing", "ends"], &["change", "ends"]]) {
            Some(Way::ChangeEnds)
        } else if self.word(&["stand", "standing"]) {
            Some(Way::Stand)
        } else if self.is_distance_way() {
            let Some(way) = self.distance_way() else { return };
            Some(way)
        } else if self.is_word(0, &["jog", "walk"]) {
            let is_jog = self.is_word(0, &["jog"]);
            self.skip();
            if self.is_duration() {
                // A jog for a time leads back to the start.
                self.gaps(details, begins, false);
                return;
            }
            match self.metres() {
                Some((metres, span)) => {
                    let Some(way) = self.way_of(is_jog, metres, span) else { return };
                    Some(way)
                }
                None => None,
            }
        } else {
            None
        };
        let Some(way) = way else {
            let message = format!("expected a distance or `back`, found {}", self.found());
            self.problem(self.here(), message, WAY_HELP);
            self.skip_to_clause();
            return;
        };
        self.once(details.recovery.way.is_some(), begins, "way to the next start");
        details.recovery.way = Some(Spanned::new(way, self.since(begins)));
        // `jog 200 rec`, `walk back recovery`
        if self.is_word(0, &RESTS) && !self.is_number(1) && !self.is_sign(1, '=') && !self.is_sign(1, ':') {
            self.skip();
        }
        self.between_runs();
        // `jog 200 in 90s`, `walk back 2min`, `walk back, 2min`: how long it may take.
        if self.is_sign(0, ',') && self.is_duration_alone_at(1) {
            self.skip();
        }
        let is_timed = self.is_word(0, &["in"]) && self.is_number(1);
        if is_timed {
            self.skip();
        }
        if is_timed || self.is_duration() && !self.is_duration_gap() {
            self.gaps(details, begins, false);
        }
    }

    /// Whether a duration stands `ahead` that is neither a run by time nor a clause of its own.
    pub(crate) fn is_duration_alone_at(&mut self, ahead: usize) -> bool {
        let (before, problems) = (self.place(), self.problems.len());
        (0..ahead).for_each(|_| self.skip());
        let is_alone = self.is_duration()
            && !self.is_duration_gap()
            && self.seconds("", "").is_some()
            && !self.is_effort(0)
            && !self.is_word(0, &["jog", "walk", "run"]);
        self.problems.truncate(problems);
        self.go_back(before);
        is_alone
    }

    /// `200 jog`, `100m easy walk`
    fn distance_way(&mut self) -> Option<Way> {
        let (metres, span) = self.metres()?;
        self.word(&["easy", "slow", "slowly", "light", "gentle"]);
        let is_jog = self.is_word(0, &["jog", "jogging"]);
        self.skip();
        self.way_of(is_jog, metres, span)
    }

    fn way_of(&mut self, is_jog: bool, metres: f64, span: std::ops::Range<usize>) -> Option<Way> {
        if metres <= 0.0 || metres > LONGEST_WAY_M {
            let message = format!("`{}` is out of range for a recovery", &self.text[span.clone()]);
            self.problem(span, message, format!("write from 1 m to {LONGEST_WAY_M} m"));
            return None;
        }
        Some(if is_jog { Way::Jog(metres) } else { Way::Walk(metres) })
    }
}

fn rest(seconds: &Spanned<f64>) -> Spanned<Gap> {
    Spanned::new(Gap::Rest(seconds.value), seconds.span.clone())
}

//! Reading how long a recovery is: `rest 90s`, `off 3:00`, `2min / 8min`, `8min between sets`.

use crate::cursor::{Cursor, Read};
use crate::form::Phrase;
use crate::forms::recovery::{Gap, KIND, REST, RESTS, Recovery, RecoveryKind, SET_REST};
use crate::spanned::Spanned;

const REST_HELP: &str = "write for example `rest 90s` or `rest 3min / 8min between sets`";
const CYCLE_HELP: &str = "write for example `off 3:00`";

/// A bare number below this is hardly meant as seconds of rest.
const LEAST_BARE_S: f64 = 10.0;

impl Cursor<'_> {
    /// Whether a duration comes next that says how long a recovery is: `2min / 8min between sets`,
    /// `8min between sets`, `90s rest`, `2 min jog`.
    pub(crate) fn is_duration_gap(&mut self) -> bool {
        self.is_duration_before(|cursor| {
            cursor.is_sign(0, '/')
                || cursor.is_word(0, &["between", "betw", "btw", "standing"])
                || cursor.is_word(0, &["full", "set"]) && cursor.is_word(1, RESTS)
                || cursor.is_word(0, RESTS)
                || cursor.jog_tokens(0).is_some()
        })
    }

    /// Whether a duration stands `ahead` that is neither a run by time nor a clause of its own.
    pub(crate) fn is_duration_alone_at(&mut self, ahead: usize) -> bool {
        let before = self.place();
        (0..ahead).for_each(|_| self.skip());
        let is_alone = !self.is_duration_gap()
            && self.is_duration_before(|cursor| {
                !cursor.is_effort(0) && !cursor.is_word(0, &["jog", "walk", "run"])
            });
        self.go_back(before);
        is_alone
    }

    /// Whether a duration comes next, and something that `is_behind` recognises after it.
    fn is_duration_before(&mut self, is_behind: impl Fn(&Self) -> bool) -> bool {
        if !self.is_duration() {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let is_so = self.seconds("", "").is_ok() && is_behind(self);
        self.problems.truncate(problems);
        self.go_back(before);
        is_so
    }

    /// How long a recovery is, with a unit where minutes could be meant.
    fn recovery_seconds(&mut self, what: &str, help: &str) -> Read<Spanned<f64>> {
        let is_bare = self.is_number(0) && !self.is_duration();
        let is_metres = is_bare && self.metres_in(1).is_some();
        let is_range = self.is_sign(1, '-') && self.is_number(2);
        let begins = self.place();
        let seconds = self.seconds(what, help)?;
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
        if is_range {
            self.skip();
            let _ = self.seconds(what, help)?;
            let span = self.since(begins);
            let message = format!("expected {what}, found the range `{}`", &self.text[span.clone()]);
            return Err(self.problem(span, message, "give one time, not a range"));
        }
        if is_bare && value < LEAST_BARE_S && !self.is_sign(0, '/') {
            let minutes = value * 60.0;
            let help = format!("write `{value}min` for {minutes} s, or `{value}s`");
            return Err(self.problem(seconds.span, format!("`{value}` could be seconds or minutes"), help));
        }
        Ok(seconds)
    }

    /// How long recoveries are: `90s`, `2min / 8min`, `8min between sets`.
    pub(crate) fn rests(&mut self, recovery: &mut Recovery, begins: usize, is_for_runs: bool) -> Read<()> {
        let rest = |seconds: Spanned<f64>| Spanned::new(Gap::Rest(*seconds), seconds.span);
        let mut first = self.recovery_seconds("a rest", REST_HELP)?;
        let is_bare = self.text[first.span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        self.words_of_rest(recovery);
        let is_for_runs = self.between_runs() || is_for_runs;
        if self.is_number(1) && self.sign('/') {
            let sets = self.recovery_seconds("a rest between sets", REST_HELP)?;
            // `2/8min`: the unit of the second is that of both.
            if is_bare && *first < LEAST_BARE_S && self.has_minutes(&sets) {
                first.value *= 60.0;
            } else if is_bare && *first < LEAST_BARE_S {
                let message = format!("`{}` could be seconds or minutes", *first);
                self.problem(first.span.clone(), message, REST_HELP);
            }
            self.words_of_rest(recovery);
            self.between_sets();
            self.set(&mut recovery.gap, rest(first), begins, REST);
            self.set(&mut recovery.set_rest, sets, begins, SET_REST);
        } else if !is_for_runs && self.between_sets() {
            self.words_of_rest(recovery);
            self.set(&mut recovery.set_rest, first, begins, SET_REST);
        } else {
            self.set(&mut recovery.gap, rest(first), begins, REST);
        }
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
        if let Some(jog) =
            self.jog_tokens(0).filter(|&jog| !self.is_number(jog) && !self.is_word(jog, &["exactly"]))
        {
            (0..jog).for_each(|_| self.skip());
            if self.word(&["back"]) {
                let back = Spanned::new(RecoveryKind::WalkBack, self.since(begins));
                self.set(&mut recovery.kind, back, begins, KIND);
            }
        }
        if self.is_word(0, &["standing"]) && self.is_word(1, RESTS) {
            recovery.kind = Some(Spanned::new(RecoveryKind::Stand, self.here()));
            self.skip();
        }
        self.rest_behind();
    }

    /// `5 min set rest`, `jog 200 rec`, but not the `R 8min` that follows.
    pub(crate) fn rest_behind(&mut self) {
        if self.is_word(0, RESTS) && !self.is_number(1) && !self.is_sign(1, '=') && !self.is_sign(1, ':') {
            self.skip();
        }
    }

    pub(crate) fn between_sets(&mut self) -> bool {
        const SETS: &[Phrase] = &[
            &[&["between", "betw", "btw"], &["sets"]],
            &[&["between"], &["each"], &["set"]],
            &[&["between"], &["the"], &["sets"]],
            &[&["after"], &["each"], &["set"]],
            &[&["set"], &["rest", "recovery"]],
        ];
        self.one_of(SETS)
    }

    pub(crate) fn between_runs(&mut self) -> bool {
        const RUNS: &[Phrase] = &[
            &[&["between", "betw", "btw"], &["reps"]],
            &[&["between"], &["runs"]],
            &[&["between"], &["each"], &["rep", "run"]],
            &[&["between"], &["each"]],
            &[&["between"], &["the"], &["reps", "runs"]],
        ];
        // `between` alone, unless the next word says between what.
        self.one_of(RUNS)
            || self.is_word(0, &["between"])
                && (self.word_at(1).is_none() || self.is_clause(1) && !self.is_word(1, &["the"]))
                && self.word(&["between"])
    }

    /// `between sets 5min`, `between reps 90s`
    pub(crate) fn between(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        if self.between_sets() {
            self.set_rest(recovery, begins)
        } else if self.between_runs() {
            self.rests(recovery, begins, true)
        } else {
            self.skip();
            Err(self.expected("`sets` or `reps` after `between`", REST_HELP))
        }
    }

    /// What follows `off`, `every` or `on`: from one start to the next.
    pub(crate) fn cycle(&mut self, recovery: &mut Recovery, begins: usize) -> Read<()> {
        let seconds = self.recovery_seconds("a time from start to start", CYCLE_HELP)?;
        let cycle = Spanned::new(Gap::Cycle(*seconds), self.since(begins));
        self.set(&mut recovery.gap, cycle, begins, KIND);
        if self.is_number(1) && self.sign('/') {
            self.set_rest(recovery, begins)?;
            self.between_sets();
        }
        Ok(())
    }
}

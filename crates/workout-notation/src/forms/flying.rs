//! A rolling start: `flying 30 with 20 run-in`, `30m flying (20m run-in)`.

use std::fmt;

use crate::cursor::{Cursor, Reported};
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;
use crate::last_run::LastRun;
use crate::phrases::Phrases;
use crate::spanned::Spanned;

const NAMES: &[&str] = &["flying", "fly", "flys", "flies", "flyers"];
const HELP: &str = "write for example `flying 30 with 20 run-in`";
/// The run-in where none is named, in metres.
const RUN_IN_M: f64 = 20.0;

pub(crate) const FLYING: RunForm = RunForm {
    form: Form {
        begins: Phrases::new(&[&[NAMES]]),
        words: &["flying"],
        rows: &[row(&["flying 30 with 20 run-in"], "20 m to get up to speed, then 30 m")],
    },
    is_counted: |cursor| cursor.is_number(0) && cursor.is_word(1, NAMES) && cursor.is_number(2),
    named: |cursor| {
        if !cursor.word(NAMES) {
            return Ok(None);
        }
        let length = cursor.length()?;
        // `flying 30s` are several.
        if cursor.is_glued(0) {
            cursor.word(&["s"]);
        }
        with_run_in(cursor, &length)
    },
    behind: |cursor, length| if cursor.word(NAMES) { with_run_in(cursor, length) } else { Ok(None) },
};

pub(crate) fn print(f: &mut fmt::Formatter<'_>, metres: f64, run_in_m: f64) -> fmt::Result {
    write!(f, "flying {metres} with {run_in_m} run-in")
}

const RUN_INS: Phrases = Phrases::new(&[
    &[&["run"], &["-"], &["in", "up"]],
    &[&["build"], &["-"], &["up", "in"]],
    &[&["run"], &["in", "up"]],
    &[&["build"], &["up"]],
    &[&["runin", "runup", "build", "buildup", "acceleration", "accel", "roll"]],
]);

fn with_run_in(cursor: &mut Cursor<'_>, length: &Spanned<RunLength>) -> Reading {
    let RunLength::Metres(metres) = length.value else {
        let span = length.span.clone();
        return Err(cursor.problem(
            span,
            "a flying run is measured in metres",
            "write for example `flying 30`",
        ));
    };
    let before = cursor.place();
    let is_in_brackets = cursor.sign('(');
    let is_off = cursor.is_word(0, &["off", "from"]);
    let is_with = cursor.word(&["with", "w", "off", "from"]) | cursor.sign('/');
    // `30 fly off 20m`: a bare number would be a rest.
    let is_bare = is_off && !is_in_brackets && cursor.metres_in(1).is_some();
    // `flying 30 off 90`: from one start to the next.
    let is_cycle =
        is_off && cursor.kind(1).is_none() && cursor.number_at(0).is_some_and(|number| number > 60.0);
    let is_run_in = !is_cycle
        && cursor.metres_tokens(0).is_some_and(|tokens| {
            let is_named =
                is_in_brackets && cursor.is_word(tokens, &["in"]) && cursor.is_sign(tokens + 1, ')')
                    || cursor.is_word(
                        tokens,
                        &["run", "runin", "runup", "build", "buildup", "acceleration", "accel", "roll"],
                    );
            is_named || is_with && !is_in_brackets
        });
    if !is_run_in {
        cursor.go_back(before);
        return Ok(Some(RunKind::Flying { metres, run_in_m: RUN_IN_M }));
    }
    let (run_in_m, span) = cursor.metres().ok_or(Reported)?;
    if !(cursor.one_of(RUN_INS) || is_bare || is_in_brackets && cursor.word(&["in"])) {
        cursor.expected("`run-in`", HELP);
        if cursor.word_at(0).is_some() {
            cursor.skip();
        }
    }
    if is_in_brackets && !cursor.sign(')') {
        cursor.expected("`)` after the run-in", HELP);
    }
    if !(5.0..=100.0).contains(&run_in_m) {
        let message = format!("a run-in of {run_in_m} m is out of range");
        return Err(cursor.problem(span, message, "write a run-in from 5 m to 100 m"));
    }
    Ok(Some(RunKind::Flying { metres, run_in_m }))
}

impl Cursor<'_> {
    /// Reads the run-in of the flying run before, where it stands behind other clauses, and says whether it does.
    pub(crate) fn run_in(&mut self) -> bool {
        if !matches!(self.last_run, Some(LastRun::Flying)) || self.run_in_m.is_some() {
            return false;
        }
        let before = self.place();
        // `30m in`
        let is_in = |tokens| {
            let end = tokens + 1;
            let is_end = self.kind(end).is_none() || self.is_sign(end, ',') || self.is_sign(end, ')');
            self.is_word(tokens, &["in"]) && is_end
        };
        let is_run_in =
            self.metres_tokens(0).is_some_and(|tokens| self.is_one_of(tokens, RUN_INS) || is_in(tokens));
        let Some((run_in_m, span)) = (if is_run_in { self.metres() } else { None }) else { return false };
        let _ = self.one_of(RUN_INS) || self.word(&["in"]);
        if !(5.0..=100.0).contains(&run_in_m) {
            self.go_back(before);
            let message = format!("a run-in of {run_in_m} m is out of range");
            self.problem(span, message, "write a run-in from 5 m to 100 m");
            self.skip_all(2);
        }
        self.run_in_m = Some(run_in_m);
        true
    }
}

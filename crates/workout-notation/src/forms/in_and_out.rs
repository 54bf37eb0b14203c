//! Fast and easy in turn: `in-and-out 50s`, `800 in-and-out 50s`.

use std::fmt;

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;

const HELP: &str = "write for example `in-and-out 50s`";

pub(crate) const IN_AND_OUT: RunForm = RunForm {
    form: Form {
        begins: &[],
        words: &[],
        rows: &[row(
            &["in-and-out 50s", "800 in-and-out 50s"],
            "50 m fast, 50 m easy, for a lap or a distance",
        )],
    },
    is_counted: |_| false,
    named: |cursor| read(cursor, RunLength::Laps(1.0)),
    behind: |cursor, length| read(cursor, length.value),
};

pub(crate) fn print(f: &mut fmt::Formatter<'_>, length: RunLength, turn_m: f64) -> fmt::Result {
    write!(f, "{length} in-and-out {turn_m}s")
}

fn read(cursor: &mut Cursor<'_>, length: RunLength) -> Reading {
    let dash = usize::from(cursor.is_sign(1, '-'));
    let is_here = cursor.is_word(0, &["in", "ins"])
        && (cursor.is_word(1 + dash, &["and"]) || cursor.is_sign(1 + dash, '+'));
    if !is_here {
        return Ok(None);
    }
    (0..2 + dash).for_each(|_| cursor.skip());
    cursor.sign('-');
    if !cursor.word(&["out", "outs"]) {
        return Err(cursor.expected("`out` after `in-and-`", HELP));
    }
    let Some((turn_m, span)) = cursor.number() else {
        return Err(cursor.expected("how far each turn is", HELP));
    };
    cursor.word(&["s", "m", "ms"]);
    if !(10.0..=1000.0).contains(&turn_m) {
        let message = format!("turns of {turn_m} m are out of range");
        return Err(cursor.problem(span, message, "write turns from 10 m to 1000 m"));
    }
    Ok(Some(RunKind::InAndOut { length, turn_m }))
}

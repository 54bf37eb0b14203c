//! A baton exchange through a takeover zone: `exchange zone 2`.

use std::fmt;

use crate::cursor::Cursor;
use crate::form::{Form, Phrase, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};

const NAMES: &[&str] =
    &["exchange", "exchanges", "changeover", "changeovers", "takeover", "takeovers", "handover", "handovers"];
const BEGINS: &[Phrase] = &[&[NAMES], &[&["baton", "relay"], NAMES]];
const ZONES: [&str; 2] = ["zone", "zones"];

pub(crate) const EXCHANGE: RunForm = RunForm {
    form: Form {
        begins: BEGINS,
        words: &["exchange", "zone"],
        rows: &[row(&["exchange zone 2"], "a baton exchange in takeover zone 2")],
    },
    is_counted: |cursor| cursor.is_number(0) && cursor.is_one_of(1, BEGINS),
    named: read,
    behind: |_, _| Ok(None),
};

pub(crate) fn print(f: &mut fmt::Formatter<'_>, zone: u8) -> fmt::Result {
    write!(f, "exchange zone {zone}")
}

fn read(cursor: &mut Cursor<'_>) -> Reading {
    if !cursor.one_of(BEGINS) {
        return Ok(None);
    }
    if cursor.is_word(0, &["in", "at", "on", "through"]) && cursor.is_word(1, &ZONES) {
        cursor.skip();
    }
    cursor.word(&ZONES);
    let (span, found) = (cursor.here(), cursor.found());
    match cursor.number() {
        Some((zone, _)) if [1.0, 2.0, 3.0].contains(&zone) => {
            Ok(Some(RunKind::Exchange { zone: zone as u8 }))
        }
        _ => {
            let message = format!("expected the number of a takeover zone, found {found}");
            Err(cursor.problem(span, message, "write 1, 2 or 3, for example `exchange zone 2`"))
        }
    }
}

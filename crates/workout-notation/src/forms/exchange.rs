//! A baton exchange through a takeover zone: `exchange zone 2`.

use std::fmt;

use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::phrases::Phrases;

const NAMES: &[&str] = &[
    "exchange",
    "exchanges",
    "changeover",
    "changeovers",
    "takeover",
    "takeovers",
    "handover",
    "handovers",
    "handoff",
    "handoffs",
];
const BEGINS: Phrases = Phrases::new(&[
    &[NAMES],
    &[&["baton", "relay"], NAMES],
    &[&["baton", "relay"], &["change", "changes", "pass", "passes"]],
]);
/// A number in front of exchanges is a distance from here on, in metres.
const LEAST_M: f64 = 50.0;

const ZONES: [&str; 2] = ["zone", "zones"];

pub(crate) const EXCHANGE: RunForm = RunForm {
    form: Form {
        begins: BEGINS,
        words: &["exchange", "zone"],
        rows: &[row(&["exchange zone 2"], "a baton exchange in takeover zone 2")],
    },
    // `100 relay changes` are 100 m.
    is_counted: |cursor| {
        cursor.number_at(0).is_some_and(|count| count < LEAST_M) && cursor.is_one_of(1, BEGINS)
    },
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
    let is_zone = cursor.word(&ZONES);
    let comma = usize::from(cursor.is_sign(0, ','));
    let is_ordinal = cursor.is_word(comma + 1, &["st", "nd", "rd"]) && cursor.is_word(comma + 2, &ZONES);
    if is_ordinal {
        cursor.skip_all(comma);
    }
    let (span, found) = (cursor.here(), cursor.found());
    if !is_zone && !cursor.is_number(0) {
        cursor.doubts.push(Doubt::FirstZone);
        return Ok(Some(RunKind::Exchange { zone: 1 }));
    }
    match cursor.number() {
        Some((zone, _)) if [1.0, 2.0, 3.0].contains(&zone) => {
            if is_ordinal {
                cursor.skip_all(2);
            }
            Ok(Some(RunKind::Exchange { zone: zone as u8 }))
        }
        _ => {
            let message = format!("expected the number of a takeover zone, found {found}");
            Err(cursor.problem(span, message, "write 1, 2 or 3, for example `exchange zone 2`"))
        }
    }
}

impl Cursor<'_> {
    /// Whether the name of an exchange stands `ahead`.
    pub(crate) fn is_exchange_name(&self, ahead: usize) -> bool {
        self.is_word(ahead, NAMES) || self.is_word(ahead, &ZONES)
    }
}

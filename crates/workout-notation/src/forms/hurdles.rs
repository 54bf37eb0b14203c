//! A race over hurdles, to the finish or to a hurdle: `110h`, `110h to hurdle 5`, `110h over 5 hurdles`.

use std::fmt;

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;
use crate::spanned::Spanned;

const NAMES: [&str; 2] = ["hurdle", "hurdles"];
const ORDINALS: [&str; 4] = ["st", "nd", "rd", "th"];

pub(crate) const HURDLES: RunForm = RunForm {
    form: Form {
        begins: &[],
        words: &NAMES,
        rows: &[row(&["110h", "110h to hurdle 5"], "over hurdles, to the finish or to a hurdle")],
    },
    is_counted: |_| false,
    named: |_| Ok(None),
    behind: read,
};

pub(crate) fn print(f: &mut fmt::Formatter<'_>, race_m: f64, to_hurdle: Option<u8>) -> fmt::Result {
    write!(f, "{race_m}h")?;
    to_hurdle.map_or(Ok(()), |hurdle| write!(f, " to hurdle {hurdle}"))
}

fn read(cursor: &mut Cursor<'_>, length: &Spanned<RunLength>) -> Reading {
    if !(cursor.word(&["h", "mh"]) || cursor.word(&NAMES)) {
        return Ok(None);
    }
    let RunLength::Metres(race_m) = length.value else {
        let span = length.span.clone();
        return Err(cursor.problem(span, "a hurdles race is measured in metres", "write for example `110h`"));
    };
    cursor.word(&NAMES);
    // `to the 5th hurdle`, but not `to the 400 m start`
    let is_ordinal = cursor.is_word(0, &["to"])
        && cursor.is_word(1, &["the"])
        && cursor.is_number(2)
        && (cursor.is_word(3, &ORDINALS) || cursor.is_word(3, &NAMES[..1]));
    let is_numbered = cursor.one_of(&[&[&["to"], &["hurdle", "h"]]]);
    let is_counted = !is_numbered
        && (cursor.is_word(0, &["over", "to"]) && cursor.is_number(1) || is_ordinal)
        && cursor.word(&["over", "to"]);
    if !is_numbered && !is_counted {
        return Ok(Some(RunKind::Hurdles { race_m, to_hurdle: None }));
    }
    cursor.word(&["the"]);
    let (span, found) = (cursor.here(), cursor.found());
    let hurdle = cursor.number();
    if is_counted {
        cursor.word(&ORDINALS);
        cursor.word(&NAMES);
    }
    match hurdle {
        Some((hurdle, _)) if hurdle.fract() == 0.0 && (1.0..=10.0).contains(&hurdle) => {
            Ok(Some(RunKind::Hurdles { race_m, to_hurdle: Some(hurdle as u8) }))
        }
        _ => {
            let message = format!("expected the number of a hurdle, found {found}");
            Err(cursor.problem(span, message, "write from 1 to 10, for example `110h to hurdle 5`"))
        }
    }
}

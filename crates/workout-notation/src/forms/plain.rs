//! A plain run: `200`, `1km`, `110yd`, `1 mile`, `2 laps`.

use crate::form::{Form, row};
use crate::forms::run_kind::{RunForm, RunKind};
use crate::phrases::Phrases;

pub(crate) const PLAIN: RunForm = RunForm {
    form: Form {
        begins: Phrases::new(&[&[&["mile", "lap"]]]),
        words: &["laps", "metres", "mile", "miles"],
        rows: &[row(&["1km", "110yd", "1 mile", "2 laps"], "units; a lap is one of the lane you run in")],
    },
    is_counted: |_| false,
    named: |_| Ok(None),
    behind: |_, length| Ok(Some(RunKind::Plain(length.value))),
};

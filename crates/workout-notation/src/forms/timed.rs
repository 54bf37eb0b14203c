//! A run by time: `20 min steady`, `10 min jog`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};

pub(crate) const TIMED: RunForm = RunForm {
    form: Form {
        begins: &[],
        words: &["min", "minutes", "sec", "seconds"],
        rows: &[row(&["20 min steady"], "a run by time")],
    },
    is_counted: |_| false,
    named: read,
    behind: |_, _| Ok(None),
};

fn read(cursor: &mut Cursor<'_>) -> Reading {
    // `6 x 200s`: several runs of 200 m, or each of 200 seconds?
    let plural = cursor.number_at(0).filter(|value| *value >= 100.0 && value % 50.0 == 0.0);
    if let Some(value) = plural
        && cursor.is_word(1, &["s"])
        && cursor.is_glued(1)
    {
        let begins = cursor.place();
        cursor.skip();
        cursor.skip();
        let message = format!("`{value}s` could be {value} m or {value} seconds");
        let (minutes, seconds) = ((value / 60.0).floor(), value % 60.0);
        let help = format!("write `{value}m`, or `{minutes}:{seconds:02}` for the time");
        return Err(cursor.problem(cursor.since(begins), message, help));
    }
    if !cursor.is_duration() {
        return Ok(None);
    }
    let seconds = cursor.seconds("how long to run", "write for example `20 min steady`")?;
    Ok(Some(RunKind::Timed { seconds: *seconds }))
}

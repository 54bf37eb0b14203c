//! A run by time: `20 min steady`, `10 min jog`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;

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
    // `6 x 200s`, `fast 80s`: several runs of so many metres.
    if let Some(metres) = cursor.plural_metres() {
        cursor.skip_all(2);
        cursor.bind_since(cursor.place() - 2);
        return Ok(Some(RunKind::Plain(RunLength::Metres(metres))));
    }
    if !cursor.is_duration() {
        return Ok(None);
    }
    let seconds = cursor.seconds("how long to run", "write for example `20 min steady`")?;
    cursor.by_turns();
    Ok(Some(RunKind::Timed { seconds: *seconds }))
}

impl Cursor<'_> {
    /// `25 min of 40/20s`: how it is run by turns is kept as it is written.
    fn by_turns(&mut self) {
        let begins = self.place();
        let is_here = (self.is_word(0, &["of"]) || self.is_sign(0, '('))
            && self.is_number(1)
            && (self.is_sign(2, '/') || self.is_sign(2, '-'))
            && self.is_number(3);
        if !is_here || self.is_sign(0, '(') && !self.is_sign(4, ')') && !self.is_sign(5, ')') {
            return;
        }
        let is_in_brackets = self.is_sign(0, '(');
        self.skip_all(4);
        if self.seconds_in(0).is_some() {
            self.skip();
        }
        if is_in_brackets {
            self.sign(')');
        }
        self.keep(begins);
    }

    /// The metres of `200s`: a time would be written otherwise.
    fn plural_metres(&self) -> Option<f64> {
        let value = self.number_at(0)?;
        let is_plural = self.is_word(1, &["s"]) && self.is_glued(1);
        let is_metres = (100.0..=3000.0).contains(&value) && value % 50.0 == 0.0;
        let is_after_effort = value >= 30.0
            && value % 10.0 == 0.0
            && self.is_behind_word(&["fast", "sprint", "easy", "strides"]);
        (is_plural && (is_metres || is_after_effort)).then_some(value)
    }
}

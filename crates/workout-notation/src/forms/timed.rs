//! A run by time: `20 min steady`, `10 min jog`.

use crate::cursor::{Cursor, Read};
use crate::doubt::Doubt;
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;
use crate::phrases::Phrases;

/// What a time that is read here says.
const HOW_LONG: &str = "how long to run";

/// The longer time of a range is at most so many times the shorter.
const MOST_RANGE: f64 = 2.0;

pub(crate) const TIMED: RunForm = RunForm {
    form: Form {
        begins: Phrases::NONE,
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
    if let Some(seconds) = cursor.range_to_run()? {
        return Ok(Some(RunKind::Timed { seconds }));
    }
    if !cursor.is_duration() {
        return Ok(None);
    }
    let seconds = cursor.seconds(HOW_LONG, "write for example `20 min steady`")?;
    cursor.by_turns();
    Ok(Some(RunKind::Timed { seconds: *seconds }))
}

impl Cursor<'_> {
    /// `20-30 min`, `20 to 30 min`: the longer of two times in one unit. `300 - 2 min` is a run and its rest.
    fn range_to_run(&mut self) -> Read<Option<f64>> {
        let is_range = (self.is_sign(1, '-') || self.is_word(1, &["to"]))
            && self.is_duration_at(2)
            && !self.is_sign(3, ':');
        let range = self.number_at(0).zip(self.number_at(2)).filter(|_| is_range).zip(self.seconds_in(3));
        let Some(((least, most), unit_s)) = range else { return Ok(None) };
        if !(least < most && most <= least * MOST_RANGE) {
            return Ok(None);
        }
        let begins = self.place();
        self.skip_all(4);
        self.bind_since(begins);
        let most_s = *self.time_that_can_be(most * unit_s, begins, HOW_LONG)?;
        self.doubts.push(Doubt::TimeRange { least_s: least * unit_s, most_s });
        Ok(Some(most_s))
    }

    /// `25 min of 40/20s`: how it is run by turns is kept as it is written.
    fn by_turns(&mut self) {
        let begins = self.place();
        if self.distances_by_turns() {
            self.keep(begins);
            return;
        }
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

    /// `of 200 on / 200 off`, `: 300 hard, 100 easy`
    fn distances_by_turns(&mut self) -> bool {
        const FAST: [&str; 7] = ["on", "hard", "fast", "quick", "strong", "steady", "tempo"];
        const SLOW: [&str; 7] = ["off", "easy", "float", "jog", "walk", "slow", "steady"];
        let before = self.place();
        let is_in_brackets = self.is_sign(0, '(');
        let is_led = self.sign('(') || self.sign(':') || self.sign('-') || self.word(&["of", "as", "at"]);
        let mut is_here = is_led;
        for words in [&FAST, &SLOW] {
            let tokens = self.metres_tokens(0).filter(|_| !self.is_times(1));
            self.skip_all(tokens.unwrap_or_default());
            is_here &= tokens.is_some() && self.word(words);
            if words == &FAST {
                let _ =
                    [',', '/', '-', '+'].iter().any(|&sign| self.sign(sign)) || self.word(&["and", "then"]);
            }
        }
        is_here &= !is_in_brackets || self.sign(')');
        if !is_here {
            self.go_back(before);
        }
        is_here
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

//! The ends of a run: `from the 400 m start`, `to the finish line`, `finishing at …`.

use crate::cursor::Cursor;
use crate::form::{Form, Phrase, row};
use crate::forms::clause::Clause;
use crate::spanned::Spanned;

const START: &str = "start";
const FINISH: &str = "finish";
const HELP: &str = "write for example `from the 400 m start` or `to the finish line`";

/// From here on a number behind a plus is a run, and not metres past a mark: `400 m start + 5`.
const LEAST_RUN_M: f64 = 10.0;

pub(crate) const FROM: Clause<String> = Clause {
    form: Form {
        begins: &[&[&["from", "starting", "start"]]],
        words: &["from", "starting", "start", "mark"],
        rows: &[row(&["150 from the 400 m start", "150 to the finish line"], "a fixed start or finish")],
    },
    name: START,
    read: |cursor, value| {
        const FROM: &[Phrase] =
            &[&[&["from"]], &[&["starting"], &["from", "at", "on"]], &[&["start"], &["from", "at"]]];
        // How the athletes stand at the start changes nothing on the ground.
        const STANCES: &[Phrase] = &[
            &[&["from", "off"], &["the"], &["blocks"]],
            &[&["from"], &["blocks", "standing", "crouch"]],
            &[&["out"], &["of"], &["the"], &["blocks"]],
            &[&["out"], &["of"], &["blocks"]],
            &[&["from"], &["a"], &["standing", "rolling"], &["start"]],
            &[&["from"], &["a"], &["crouch"]],
            &[&["block", "standing", "crouch", "rolling"], &["start", "starts"]],
        ];
        let begins = cursor.place();
        if cursor.one_of(STANCES) {
            return true;
        }
        let is_from = cursor.one_of(FROM);
        if is_from {
            let mark = cursor.mark_name("a mark to start from");
            cursor.once(value.is_some(), begins, START);
            *value = mark.or(value.take());
        }
        is_from
    },
    print: |mark, f| write!(f, "from the {mark}"),
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

pub(crate) const TO: Clause<String> = Clause {
    form: Form {
        begins: &[&[&["to", "finishing", "finish"]]],
        words: &["to", "finishing", "finish", "line"],
        rows: &[],
    },
    name: FINISH,
    read: |cursor, value| {
        const TO: &[Phrase] = &[&[&["to"]], &[&["finishing", "finish"], &["at", "on"]]];
        let begins = cursor.place();
        let is_to = cursor.one_of(TO);
        if is_to {
            let mark = cursor.mark_name("a mark to finish at");
            cursor.once(value.is_some(), begins, FINISH);
            *value = mark.or(value.take());
        }
        is_to
    },
    print: |mark, f| write!(f, "to the {mark}"),
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

impl Cursor<'_> {
    /// The name of a mark, up to where something else begins.
    fn mark_name(&mut self, what: &str) -> Option<Spanned<String>> {
        self.word(&["the", "a"]);
        let begins = self.place();
        while !self.is_mark_over() {
            self.skip();
        }
        // `400 m start + 5`: metres past it.
        let is_past = self.place() > begins
            && self.is_sign(0, '+')
            && self.number_at(1).is_some_and(|value| value < LEAST_RUN_M)
            && !self.is_times(2)
            && !self.is_count_word(2)
            && !self.is_word(2, &["lap", "laps", "km", "k", "mile", "miles"])
            && !self.is_duration_at(1);
        if is_past {
            self.skip();
            self.skip();
        }
        let span = self.since(begins);
        let name = self.text[span.clone()].trim();
        if self.place() == begins || name.is_empty() {
            self.expected(what, HELP);
            return None;
        }
        Some(Spanned::new(name.split_whitespace().collect::<Vec<_>>().join(" "), span))
    }

    fn is_mark_over(&self) -> bool {
        self.is_at_end()
            || [')', ',', ';', '+', '@', '(', '/'].iter().any(|&sign| self.is_sign(0, sign))
            || self.is_clause(0) && !self.is_word(0, &["the", "start", "finish"])
            || self.is_in_lane()
            || self.is_duration()
            || self.is_distance_jog()
            || self.is_bare_pace()
    }
}

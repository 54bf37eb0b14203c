//! The ends of a run: `from the 400 m start`, `to the finish line`, `finishing at …`.

use crate::cursor::{Cursor, Read};
use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::phrases::Phrases;
use crate::spanned::Spanned;

const START: &str = "start";
const FINISH: &str = "finish";
const HELP: &str = "write for example `from the 400 m start` or `to the finish line`";

/// From here on a number behind a plus is a run, and not metres past a mark: `400 m start + 5`.
const LEAST_RUN_M: f64 = 10.0;

pub(crate) const FROM: Clause<String> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&["from", "starting", "start"]]]),
        words: &["from", "starting", "start", "mark"],
        rows: &[row(&["150 from the 400 m start", "150 to the finish line"], "a fixed start or finish")],
    },
    name: START,
    read: |cursor, value| {
        const FROM: Phrases = Phrases::new(&[
            &[&["from"]],
            &[&["starting"], &["from", "at", "on"]],
            &[&["start"], &["from", "at"]],
        ]);
        cursor.end(FROM, value, "a mark to start from", START)
    },
    print: |mark, f| write!(f, "from the {mark}"),
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

pub(crate) const TO: Clause<String> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&["to", "finishing", "finish"]]]),
        words: &["to", "finishing", "finish", "line"],
        rows: &[],
    },
    name: FINISH,
    read: |cursor, value| {
        const TO: Phrases = Phrases::new(&[&[&["to"]], &[&["finishing", "finish"], &["at", "on"]]]);
        cursor.end(TO, value, "a mark to finish at", FINISH)
    },
    print: |mark, f| write!(f, "to the {mark}"),
    is_printed_last: |_| false,
    is_of_last_run: |_, _| false,
};

/// Whether words may be the name of a mark: they have a number, or a word for paint.
fn is_mark(name: &str) -> bool {
    const PAINT: [&str; 14] = [
        "start", "line", "mark", "tick", "zone", "finish", "box", "hurdle", "break", "entry", "exit", "cone",
        "lane", "dot",
    ];
    let has_word = name
        .split(|letter: char| !letter.is_alphabetic())
        .any(|word| PAINT.contains(&word.to_lowercase().as_str()));
    has_word || name.contains(|letter: char| letter.is_ascii_digit())
}

impl Cursor<'_> {
    /// Reads one end of a run, and says whether one comes next.
    fn end(
        &mut self,
        begins_with: Phrases,
        value: &mut Option<Spanned<String>>,
        what: &str,
        name: &str,
    ) -> bool {
        let begins = self.place();
        let is_here = self.one_of(begins_with);
        if is_here && let Ok(mark) = self.mark_name(what) {
            if is_mark(&mark) {
                self.set(value, mark, begins, name);
            } else {
                // `from different starts`, `from the gun`
                let span = self.since(begins);
                self.leave(span);
            }
        }
        is_here
    }

    /// The name of a mark, up to where something else begins.
    fn mark_name(&mut self, what: &str) -> Read<Spanned<String>> {
        self.word(&["the", "a"]);
        let begins = self.place();
        while !self.is_mark_over() {
            self.skip();
        }
        // A name ends in no few metres: at the end of a line their `m` would be that of minutes.
        if let Some(few_metres) = self.place().checked_sub(2).filter(|&place| place >= begins) {
            self.go_back(few_metres);
            if !(self.number_at(0).is_some_and(|value| value < LEAST_RUN_M) && self.is_word(1, &["m"])) {
                self.skip_all(2);
            }
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
        self.bind_since(begins);
        let span = self.since(begins);
        let name = self.text[span.clone()].trim();
        if self.place() == begins || name.is_empty() {
            return Err(self.expected(what, HELP));
        }
        Ok(Spanned::new(name.split_whitespace().collect::<Vec<_>>().join(" "), span))
    }

    fn is_mark_over(&self) -> bool {
        self.is_at_end()
            || [')', ',', ';', '+', '@', '(', '/', ':'].iter().any(|&sign| self.is_sign(0, sign))
            || self.is_clause(0) && !self.is_word(0, &["the", "start", "finish"])
            || self.is_word(0, &["then", "and", "plus", "followed"])
            || self.is_in_lane()
            || self.is_duration()
            || self.is_distance_jog()
            || self.is_bare_pace()
    }
}

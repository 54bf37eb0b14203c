//! A group start on a curved line, breaking for the inside: `starting together`.

use crate::form::{Form, row};
use crate::forms::clause::Clause;
use crate::phrases::Phrases;
use crate::spanned::Spanned;

const NAME: &str = "group start";

pub(crate) const TOGETHER: Clause<()> = Clause {
    form: Form {
        begins: Phrases::new(&[&[&["together", "starting", "start"]]]),
        words: &["together"],
        rows: &[row(&["1500 in lanes 2-4 starting together"], "a group start on a curved line")],
    },
    name: NAME,
    read: |cursor, value| {
        const TOGETHER: Phrases = Phrases::new(&[
            &[&["starting", "start"], &["together"]],
            &[&["together"]],
            &[&["group", "mass"], &["start"]],
        ]);
        let begins = cursor.place();
        if !cursor.one_of(TOGETHER) {
            return false;
        }
        cursor.set(value, Spanned::new((), cursor.since(begins)), begins, NAME);
        true
    },
    print: |(), f| f.write_str("starting together"),
    is_printed_last: |()| false,
    is_of_last_run: |(), _| false,
};

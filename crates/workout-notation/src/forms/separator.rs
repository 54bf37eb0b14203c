//! What stands between runs: `300 + 200`, `300, 200`, `200-400-600`, `300 then 200`.

use crate::cursor::Cursor;
use crate::form::{Form, row};

pub(crate) const FORM: Form = Form {
    begins: &[],
    words: &[],
    rows: &[
        row(&["300 + 200 + 100", "2 x (500, 300, 200)"], "runs of several distances"),
        row(&["200-400-600-400-200"], "a ladder"),
    ],
};

impl Cursor<'_> {
    /// Whether a comma or a full stop stands at the end of everything.
    pub(crate) fn is_trailing(&self) -> bool {
        let is_end = self.kind(1).is_none() || self.is_sign(1, ')');
        is_end && [',', ';', '.'].iter().any(|&sign| self.is_sign(0, sign))
    }

    /// Steps over what stands between two items, if it does; a comma says less than a plus.
    pub(crate) fn separator(&mut self) -> Option<char> {
        let before = self.place();
        let mut is_word = false;
        let mut is_comma = false;
        loop {
            if self.sign('+')
                || self.word(&["then", "and", "plus"])
                || self.one_of(&[&[&["followed"], &["by"]]])
                || (is_word || is_comma) && self.words_before_counted()
            {
                is_word = true;
            } else if self.sign(',') || self.sign(';') {
                is_comma = true;
            } else {
                break;
            }
        }
        let is_item = self.is_item(1) && !(self.is_sign(1, '(') && self.is_sign(0, '/'));
        let is_dash = !is_word && !is_comma && is_item && (self.sign('-') || self.sign('/'));
        // `300 (3min) 200` needs no more than the brackets. A plus or a word wants something behind it; a comma may stand anywhere.
        let is_behind_brackets = self.is_behind(')') && self.is_number(0);
        let goes_on = is_word || is_dash || is_behind_brackets || is_comma && self.is_item(0);
        if !goes_on {
            self.go_back(before);
            return None;
        }
        Some(if is_comma && !is_word { ',' } else { '+' })
    }

    /// Steps over words in front of a counted run, which stay unread: `finish with 1 x 300`.
    fn words_before_counted(&mut self) -> bool {
        let Some(words) = self.words_before_item() else { return false };
        let begins = self.place();
        self.skip_all(words);
        let span = self.since(begins);
        self.leave(span);
        true
    }

    /// Whether an item begins `ahead` of the next token.
    pub(crate) fn is_item(&self, ahead: usize) -> bool {
        self.is_number(ahead)
            || ahead == 0 && self.fraction_tokens().is_some()
            || self.is_hurdle_range(ahead)
            || self.is_starts(ahead)
            || self.is_sign(ahead, '(')
            || self.is_run_name(ahead)
            || (self.is_effort(ahead) || self.is_word(ahead, &["jog", "walk", "run"]))
                && self.is_number(ahead + 1)
    }
}

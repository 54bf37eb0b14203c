//! What stands between runs: `300 + 200`, `300, 200`, `200-400-600`, `300 then 200`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::people::is_people;
use crate::phrases::Phrases;

/// A number below this is no distance of a list without signs, in metres.
const LEAST_ROUND_M: f64 = 60.0;

pub(crate) const FORM: Form = Form {
    begins: Phrases::NONE,
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
        if self.is_at_end() {
            return None;
        }
        let before = self.place();
        let mut is_word = false;
        let mut is_comma = false;
        loop {
            if self.sign('+')
                || !self.is_idle_and() && self.word(&["then", "and", "plus"])
                || self.one_of(const { Phrases::new(&[&[&["followed"], &["by"]]]) })
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
        let is_spaced = self.is_spaced_list();
        let goes_on = is_word
            || is_dash
            || is_behind_brackets
            || is_spaced
            || self.is_easy_behind_hard()
            || self.is_counted_behind_counted()
            || is_comma && self.is_item(0);
        if !goes_on {
            self.go_back(before);
            return None;
        }
        Some(if is_comma && !is_word { ',' } else { '+' })
    }

    /// `3x60 3x80 3x100`: counted runs without a sign between them.
    fn is_counted_behind_counted(&self) -> bool {
        let is_glued = |ahead: usize| self.is_glued(ahead + 1) && self.is_glued(ahead + 2);
        self.is_counted_item(0) && is_glued(0) && !self.is_glued(0) && self.number_before(1).is_some()
    }

    /// `30s hard 30s easy`, `200 fast 200 float`: needs no sign.
    fn is_easy_behind_hard(&self) -> bool {
        let unit = usize::from(self.seconds_in(1).is_some() || self.metres_in(1).is_some());
        self.is_word_before(1, &["hard", "fast", "quick"])
            && self.is_number(0)
            && self.is_word(1 + unit, &["easy", "float", "relaxed"])
    }

    /// Whether three round distances or more stand `ahead` with a sign or nothing between them: `Ladder 200-400-600`.
    pub(crate) fn is_list_of_distances(&self, ahead: usize) -> bool {
        let mut at = ahead;
        for _ in 0..2 {
            if !self.is_round_distance(at) {
                return false;
            }
            at += 1 + usize::from(self.metres_in(at + 1).is_some());
            at += usize::from(['-', ',', '/', '+'].iter().any(|&sign| self.is_sign(at, sign)));
        }
        self.is_round_distance(at)
    }

    /// Whether a further one of three distances or more comes next that stand without a sign between them: `300 200 100`.
    fn is_spaced_list(&self) -> bool {
        let (mut back, mut behind) = (0, 0);
        while behind < 2 {
            let unit = usize::from(self.is_word_before(back + 1, &["m"]));
            if !self.is_number_before(back + unit + 1) {
                break;
            }
            back += unit + 1;
            behind += 1;
        }
        let next = 1 + usize::from(self.metres_in(1).is_some());
        let in_a_row = behind + 1 + usize::from(self.is_round_distance(next));
        // `6 x 300 200 100` could count the first or all.
        behind > 0 && in_a_row > 2 && self.is_round_distance(0) && !self.is_times_before(back + 1)
    }

    /// Whether a round distance stands `ahead`, and nothing that makes it something else.
    fn is_round_distance(&self, ahead: usize) -> bool {
        self.number_at(ahead).is_some_and(|metres| metres >= LEAST_ROUND_M && metres % 10.0 == 0.0)
            && !self.is_duration_at(ahead)
            && !self.is_counted_item(ahead)
            && !self.is_sign(ahead + 1, '%')
    }

    /// Steps over words in front of a counted run, which stay unread: `finish with 1 x 300`.
    fn words_before_counted(&mut self) -> bool {
        let Some(words) = self.words_before_item() else { return false };
        let begins = self.place();
        let group = (0..words).filter_map(|ahead| self.word_at(ahead)).find(|word| is_people(word));
        let message = group.map(|group| format!("`{group}` are another group"));
        self.skip_all(words);
        let span = self.since(begins);
        if let Some(message) = message {
            self.problem(span.clone(), message, "write each group on its own line, with its name in front");
        }
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

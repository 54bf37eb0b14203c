//! Lines that are not runs, such as `warm-up 15 min`, and labels before runs, such as `main set:`.

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::token::Kind;

pub(crate) const FORM: Form =
    Form { begins: &[], words: &[], rows: &[row(&["warm-up 15 min", "drills"], "lines that are not runs")] };

/// Words that begin a line which is not a run.
#[rustfmt::skip]
const NOTES: [&str; 25] = [
    "warm", "warmup", "warming", "wu", "cool", "cooldown", "cooling", "cd", "warmdown", "drills",
    "stretch", "stretches", "stretching", "mobility", "core", "plyometrics", "skips", "strides",
    "technique", "break", "rest", "note", "gym", "weights", "talk",
];

/// Those that may follow a distance: `2 laps warm-up`.
const AFTER_A_DISTANCE: [&str; 10] =
    ["warm", "warmup", "warming", "wu", "cool", "cooldown", "cooling", "cd", "warmdown", "drills"];

/// The most words of a label such as `main set:`.
const MOST_WORDS: usize = 4;

/// A line that is not a run.
pub(crate) struct Note {
    pub(crate) words: String,
    pub(crate) lasts_s: Option<f64>,
}

impl Cursor<'_> {
    /// The whole text as a note if it is one: it begins with the name of something that is not a run,
    /// or with a word that begins no run and all its numbers are durations.
    pub(crate) fn note(&mut self) -> Option<Note> {
        let is_named = self.is_named_note();
        let is_run = !matches!(self.kind(0), Some(Kind::Word)) || self.is_run_word() || self.label() > 0;
        if is_run && !is_named {
            return None;
        }
        let begins_clause = self.is_clause(0);
        let mut lasts_s = None;
        let (mut has_number, mut has_duration) = (false, false);
        while !self.is_at_end() {
            if self.is_duration() {
                has_duration = true;
                lasts_s = self.seconds("", "").map_or(lasts_s, |seconds| Some(*seconds));
            } else {
                has_number |= self.is_number(0);
                self.skip();
            }
        }
        let has_problem = !std::mem::take(&mut self.problems).is_empty();
        self.go_back(0);
        if !is_named && (has_number || has_problem || begins_clause && has_duration) {
            return None;
        }
        Some(Note { words: self.text.trim().to_owned(), lasts_s })
    }

    /// `warm-up 15 min`, `15 min warm-up`, `2 laps warm-up`
    fn is_named_note(&mut self) -> bool {
        let names: &[&str] = if self.is_duration() {
            let _ = self.seconds("", "");
            &NOTES
        } else if self.is_number(0) {
            self.skip();
            if self.metres_in(0).is_some() || self.is_word(0, &["lap", "laps"]) {
                self.skip();
            }
            &AFTER_A_DISTANCE
        } else {
            &NOTES
        };
        if self.place() > 0 {
            while self.word(&["easy", "of", "jog", "jogging", "x"]) {}
        }
        // `20 min rest 60s` is a run by time.
        let is_rest_of_run = self.place() > 0 && self.is_word(0, &["rest"]) && self.is_number(1);
        let is_named =
            self.is_word(0, names) && !is_rest_of_run && !(self.place() == 0 && self.is_labelled_strides());
        self.problems.clear();
        self.go_back(0);
        is_named
    }

    /// `strides: 4 x 80` are runs.
    fn is_labelled_strides(&self) -> bool {
        self.is_word(0, &["strides"]) && self.label() > 0
    }

    /// Whether a word comes next that begins a run.
    fn is_run_word(&self) -> bool {
        self.is_run_name(0) || self.is_word(0, &["in"]) && self.is_sign(1, '-')
    }

    /// How many tokens a label before the runs has, such as `main set:`.
    pub(crate) fn label(&self) -> usize {
        let words = (0..MOST_WORDS).take_while(|&ahead| self.word_at(ahead).is_some()).count();
        let is_label = words > 0 && self.is_sign(words, ':') && self.is_item(words + 1);
        if is_label { words + 1 } else { 0 }
    }
}

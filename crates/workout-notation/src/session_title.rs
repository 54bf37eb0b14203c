//! What a session is called.

use std::ops::Range;

use lane_distance::MOST_LANES;

use crate::closing_words::CLOSED;
use crate::cursor::Cursor;
use crate::forms::lanes::LANE_NAMES;
use crate::line_words::words;
use crate::lines::Line;
use crate::problem::Problem;
use crate::session_reader::SessionReader;
use crate::token::Lexed;

impl SessionReader<'_> {
    /// Adds words of a line to the title.
    pub(crate) fn title(&mut self, line: &Line<'_>, words: &str) {
        if words.is_empty() {
            return;
        }
        if let Some(span) = lanes_in(&line.lexed) {
            let written = &line.lexed.text[span.clone()];
            let message = format!("`{written}` in a title closes no lane and gives nobody one");
            let help =
                if says_which_are_open(&line.lexed) || !written.contains(|of: char| of.is_ascii_digit()) {
                    "write which lanes are closed, for example `lanes 1-4 closed`".to_owned()
                } else {
                    format!("write `{written} closed`, or name the lanes behind the runs")
                };
            let span = line.start + span.start..line.start + span.end;
            self.problems.push(Problem::new(span, message).with_help(help));
        }
        // What was said of the day within it has left spaces and commas.
        let mut words = words.split_whitespace().collect::<Vec<_>>().join(" ").replace(" ,", ",");
        while words.contains(",,") {
            words = words.replace(",,", ",");
        }
        let words = without_greeting(&words).trim_matches([',', ' ', '-', '–', '.']).to_owned();
        if words.is_empty() {
            return;
        }
        let title = self.workout.title.take();
        // `(Marg)` is what is left of `One watch (Marg)`.
        let joint = if words.starts_with('(') { " " } else { ", " };
        self.workout.title = Some(title.map_or_else(|| words.clone(), |title| title + joint + &words));
    }
}

/// Where lanes are named in a line: `lanes 5-8`, `L3`, `outside lanes`, `use 3+`, `Sprinters in 5-8`.
fn lanes_in(lexed: &Lexed<'_>) -> Option<Range<usize>> {
    const WHICH: [&str; 7] = ["outside", "outer", "inside", "inner", "middle", "only", "all"];
    let mut cursor = Cursor::new(lexed);
    while !cursor.is_at_end() {
        let begins = cursor.place();
        if cursor.word(&["lane", "lanes", "l", "ln"]) && cursor.is_number(0) && cursor.lanes().is_ok() {
            return Some(cursor.since(begins));
        }
        cursor.go_back(begins);
        let is_few =
            |cursor: &Cursor<'_>| cursor.number_at(0).is_some_and(|lane| lane <= f64::from(MOST_LANES));
        if cursor.word(&["in", "use"]) && is_few(&cursor) {
            cursor.skip();
            let is_several = cursor.is_sign(0, '+') || cursor.is_sign(0, '-') && cursor.is_number(1);
            if is_several {
                cursor.skip();
                let _ = cursor.number();
                return Some(cursor.since(begins));
            }
        }
        cursor.go_back(begins);
        // `1-3 booked by the school`
        if is_few(&cursor) && cursor.lanes_listed().is_some() && cursor.one_of(CLOSED) {
            return Some(cursor.since(begins));
        }
        cursor.go_back(begins);
        // `outside lanes`, `outside 2 lanes`
        if cursor.word(&WHICH) {
            cursor.skip_all(usize::from(is_few(&cursor)));
            if cursor.word(&LANE_NAMES[..2]) {
                return Some(cursor.since(begins));
            }
        }
        cursor.go_back(begins);
        cursor.skip();
    }
    None
}

/// Whether a line says which lanes can be run in, and not which cannot.
fn says_which_are_open(lexed: &Lexed<'_>) -> bool {
    const OPEN: [&str; 10] =
        ["only", "have", "free", "open", "available", "ours", "use", "got", "just", "in"];
    let cursor = Cursor::new(lexed);
    (0..lexed.tokens.len()).any(|ahead| cursor.is_word(ahead, &OPEN))
}

/// A title without the greeting in front of it: `Hi all! Thursday`.
fn without_greeting(title: &str) -> &str {
    const GREETINGS: [&str; 5] = ["hi", "hello", "hey", "evening", "morning"];
    const GREETED: [&str; 8] = ["all", "everyone", "everybody", "team", "folks", "gang", "squad", "both"];
    let words = words(title);
    match words.as_slice() {
        [first, second, sign, ..]
            if first.is_one(&GREETINGS)
                && second.is_one(&GREETED)
                && ["!", ",", "-", "."].contains(&sign.text) =>
        {
            &title[sign.range.end..]
        }
        _ => title,
    }
}

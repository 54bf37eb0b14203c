//! Fast and easy in turn: `in-and-out 50s`, `800 in-and-out 50s`, `150 (50 fast, 50 float, 50 fast)`.

use std::fmt;

use crate::cursor::{Cursor, Read};
use crate::form::{Form, row};
use crate::forms::run_kind::{Reading, RunForm, RunKind};
use crate::forms::run_length::RunLength;
use crate::line_words::{Word, words};
use crate::phrases::Phrases;
use crate::turns::{TURN_M, Turns};

const HELP: &str = "write for example `in-and-out 50s`";

/// Words for a part of a run.
pub(crate) const PARTS: [&str; 30] = [
    "ease",
    "flow",
    "push",
    "roll",
    "fast",
    "float",
    "easy",
    "hard",
    "sprint",
    "relaxed",
    "jog",
    "build",
    "accel",
    "accelerate",
    "acceleration",
    "hold",
    "maintain",
    "smooth",
    "max",
    "cruise",
    "stride",
    "walk",
    "slow",
    "on",
    "off",
    "drive",
    "lift",
    "steady",
    "quick",
    "coast",
];

/// Words for the easy parts.
const OUT: [&str; 2] = ["out", "outs"];

/// How close the parts of a run must come to it, in metres.
const SAME_LENGTH_M: f64 = 0.5;

/// The most parts that are looked for.
const MOST_PARTS: usize = 8;

pub(crate) const IN_AND_OUT: RunForm = RunForm {
    form: Form {
        begins: Phrases::NONE,
        words: &[],
        rows: &[
            row(&["in-and-out 50s", "800 in-and-out 50s"], "50 m fast, 50 m easy, for a lap or a distance"),
            row(
                &["150 (50 fast, 50 float, 50 fast)", "800 (62, 66)"],
                "how one run is divided, in metres or in times",
            ),
        ],
    },
    is_counted: |_| false,
    named: |cursor| match cursor.in_and_out_of_length() {
        Some((length, turns)) => Ok(Some(RunKind::InAndOut { length, turns })),
        None => read(cursor, RunLength::Laps(1.0)),
    },
    behind: |cursor, length| {
        if let Some(turns) = cursor.parts(length.value) {
            return Ok(Some(RunKind::InAndOut { length: turns.0, turns: turns.1 }));
        }
        read(cursor, length.value)
    },
};

pub(crate) fn print(f: &mut fmt::Formatter<'_>, length: RunLength, turns: Turns) -> fmt::Result {
    write!(f, "{length} in-and-out {turns}")
}

fn read(cursor: &mut Cursor<'_>, length: RunLength) -> Reading {
    let dash = usize::from(cursor.is_sign(1, '-'));
    let is_here = cursor.is_word(0, &["in", "ins"])
        && (cursor.is_word(1 + dash, &["and"])
            || ['+', '/'].iter().any(|&sign| cursor.is_sign(1 + dash, sign))
                && cursor.is_word(2 + dash, &OUT))
        && (cursor.is_word(0, &["in"])
            || cursor.is_number(2 + dash)
            || cursor.is_number(3 + dash) && !cursor.is_times(4 + dash)
            || matches!(length, RunLength::Metres(_)));
    if !is_here {
        return Ok(None);
    }
    let has_length = matches!(length, RunLength::Metres(_));
    cursor.skip_all(2 + dash);
    cursor.sign('-');
    if !cursor.word(&OUT) {
        return Err(cursor.expected("`out` after `in-and-`", HELP));
    }
    // `8 x 100 ins and outs`: how far each turn is stands behind it in brackets, or is left to the runners.
    if has_length && !cursor.is_number(0) {
        let parts = cursor.parts(length);
        return Ok(Some(
            parts.map_or(RunKind::Plain(length), |(length, turns)| RunKind::InAndOut { length, turns }),
        ));
    }
    turns(cursor).map(|turns| Some(RunKind::InAndOut { length, turns }))
}

/// How far each turn is: `50s`, `60-40`.
fn turns(cursor: &mut Cursor<'_>) -> Read<Turns> {
    let mut metres = Vec::new();
    loop {
        let Some((turn_m, span)) = cursor.number() else {
            return Err(cursor.expected("how far each turn is", HELP));
        };
        cursor.word(&["s", "m", "ms"]);
        if !TURN_M.contains(&turn_m) {
            let message = format!("turns of {turn_m} m are out of range");
            return Err(cursor.problem(span, message, "write turns from 10 m to 5000 m"));
        }
        metres.push(turn_m);
        if metres.len() >= MOST_PARTS || !(cursor.is_number(1) && cursor.sign('-')) {
            break;
        }
    }
    Turns::new(&metres).ok_or_else(|| cursor.expected("how far each turn is", HELP))
}

/// Whether parts are fast and easy in turn by their words, which is how turns are run anyway.
fn are_fast_and_easy(parts: &str) -> bool {
    const FAST: [&str; 5] = ["fast", "hard", "quick", "sprint", "on"];
    const EASY: [&str; 6] = ["float", "easy", "jog", "relaxed", "slow", "off"];
    let words = words(parts);
    let is_said = |word: &&Word<'_>| word.text.len() > 1 && word.text.starts_with(char::is_alphabetic);
    words
        .iter()
        .filter(is_said)
        .enumerate()
        .all(|(place, word)| if place % 2 == 0 { word.is_one(&FAST) } else { word.is_one(&EASY) })
}

impl Cursor<'_> {
    /// `in/out 150: 50-50-50`: parts behind the run whose name stands in front.
    fn in_and_out_of_length(&mut self) -> Option<(RunLength, Turns)> {
        let before = self.place();
        let parts = (|| {
            (self.word(&["in", "ins"]) && (self.sign('/') || self.sign('-') || self.word(&["and"])))
                .then_some(())?;
            self.sign('-');
            self.word(&OUT).then_some(())?;
            let (metres, _) = self.metres()?;
            self.sign(':');
            self.parts(RunLength::Metres(metres))
        })();
        if parts.is_none() {
            self.go_back(before);
        }
        parts
    }

    /// The parts of a run that stand behind it: `(50 fast, 50 float, 50 fast)`, `(20-20-20)`, `of 60m fast/40m easy`;
    /// with the length of the run.
    fn parts(&mut self, length: RunLength) -> Option<(RunLength, Turns)> {
        let before = self.place();
        let parts = self
            .parts_in_brackets(length)
            .or_else(|| {
                self.go_back(before);
                self.parts_in_turn(length)
            })
            .or_else(|| {
                self.go_back(before);
                self.parts_behind(length)
            });
        if parts.is_none() {
            self.go_back(before);
        }
        parts
    }

    /// `(50 fast, 50 float, 50 fast)`: parts that come to the run.
    fn parts_in_brackets(&mut self, length: RunLength) -> Option<(RunLength, Turns)> {
        let RunLength::Metres(length_m) = length else { return None };
        if !self.sign('(') {
            return None;
        }
        let begins = self.place();
        let (parts, has_words) = self.list_of_parts()?;
        let is_whole = (parts.iter().sum::<f64>() - length_m).abs() <= SAME_LENGTH_M;
        (parts.len() > 1 && is_whole && self.is_sign(0, ')')).then_some(())?;
        let turns = Turns::new(&parts)?;
        // `(50 build, 50 fast, 50 float)`
        if has_words && !are_fast_and_easy(&self.text[self.since(begins)]) {
            self.keep(begins);
        }
        self.skip();
        Some((length, turns))
    }

    /// `150 50/50/50`: three parts or more that come to the run, without brackets.
    fn parts_behind(&mut self, length: RunLength) -> Option<(RunLength, Turns)> {
        let RunLength::Metres(length_m) = length else { return None };
        if !self.is_number(0) || !(self.is_sign(1, '/') || self.is_sign(1, '-')) {
            return None;
        }
        let (parts, _) = self.list_of_parts()?;
        let is_whole = (parts.iter().sum::<f64>() - length_m).abs() <= SAME_LENGTH_M;
        (parts.len() > 2 && is_whole && !self.is_unit(0)).then_some(())?;
        Some((length, Turns::new(&parts)?))
    }

    /// `2 laps of 60m fast/40m easy`: parts that are run over and over.
    fn parts_in_turn(&mut self, length: RunLength) -> Option<(RunLength, Turns)> {
        if !self.word(&["of", "as"]) || !self.is_number(0) || self.is_times(1) {
            return None;
        }
        let (parts, has_words) = self.list_of_parts()?;
        (parts.len() > 1 && has_words).then_some(())?;
        Some((length, Turns::new(&parts)?))
    }

    /// Distances with words for how they are run between them, and whether each has one.
    fn list_of_parts(&mut self) -> Option<(Vec<f64>, bool)> {
        let (mut parts, mut has_words) = (Vec::new(), true);
        loop {
            if self.is_duration() || parts.len() >= MOST_PARTS {
                return None;
            }
            while self.word(&PARTS) {}
            let (metres, _) = self.metres()?;
            parts.push(metres);
            let mut words = 0;
            while words < 3 && (self.word(&PARTS) || self.word(&["run", "running", "pace", "up"])) {
                words += 1;
            }
            has_words &= words > 0;
            let before = self.place();
            let is_joined =
                [',', '-', '/', '+'].iter().any(|&sign| self.sign(sign)) || self.word(&["and", "then"]);
            let goes_on = self.is_number(0) && !self.is_duration() && !self.is_counted_item(0)
                || self.is_word(0, &PARTS) && self.is_number(1);
            if !goes_on || !is_joined && words == 0 {
                self.go_back(before);
                break;
            }
        }
        Some((parts, has_words))
    }

    /// The parts of a run written one after the other, the first of which was read: `50 fast 50 float 50 fast`.
    pub(crate) fn parts_after(&mut self, first_m: f64) -> Option<(f64, Turns)> {
        let before = self.place();
        let mut parts = vec![first_m];
        while parts.len() < MOST_PARTS
            && self.word(&PARTS)
            && self.is_number(0)
            && !self.is_duration()
            && !self.is_times(1)
        {
            let Some((metres, _)) = self.metres() else { break };
            parts.push(metres);
        }
        // The last one has its word as well.
        let is_whole = parts.len() > 2 && self.is_behind_word(&PARTS);
        let turns = Turns::new(&parts).filter(|_| is_whole);
        if turns.is_none() {
            self.go_back(before);
        }
        Some((parts.iter().sum(), turns?))
    }
}

impl Cursor<'_> {
    /// `(60-40-60) fast-float-fast`: how each part of a run is run, behind so many parts.
    pub(crate) fn are_ways_of_parts(&mut self, parts: usize) -> bool {
        let before = self.place();
        let mut words = 0;
        while self.word(&PARTS) {
            words += 1;
            if !((self.is_sign(0, '-') || self.is_sign(0, '/')) && self.is_word(1, &PARTS)) {
                break;
            }
            self.skip();
        }
        let is_so = words > 1 && words == parts;
        if !is_so {
            self.go_back(before);
        }
        is_so
    }
}

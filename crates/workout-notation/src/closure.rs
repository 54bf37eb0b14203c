//! What a line says of lanes that are closed: `lane 1 is closed`, `not in lanes 1-2`, `lane 3 shut from 6.45`.

use std::ops::Range;

use chrono::NaiveTime;
use lane_distance::{LaneNumber, MOST_LANES};

use crate::clock_time::{Written, time};
use crate::closing_words::{CLOSED, KEEP_OUT, OPEN};
use crate::cursor::Cursor;
use crate::forms::lanes::LANE_NAMES;
use crate::line_words::words;
use crate::token::Lexed;

/// Words in front of the time from when on.
const FROM: [&str; 4] = ["from", "after", "at", "by"];

/// Words in front of the time until when.
const UNTIL: [&str; 5] = ["until", "till", "til", "to", "before"];

/// The bytes within which the hours stand.
const LONGEST_HOURS: usize = 80;

/// Words and signs between two times.
const TO: [&str; 8] = ["-", "–", "—", "to", "until", "till", "til", "and"];

/// Words between lanes and what is said of them.
const IS: [&str; 10] = ["is", "are", "still", "currently", "now", "remains", "being", "will", "be", "gets"];

/// Words with which a reason begins.
const REASON: [&str; 13] =
    ["for", "to", "due", "because", "by", "tonight", "today", "again", "this", "with", "while", "as", "so"];

/// Words behind `all` for the whole of a session or more.
const WHOLE_TIME: [&str; 7] = ["night", "evening", "morning", "session", "day", "week", "month"];

/// Words for the lanes from the inside.
const INSIDE: [&str; 4] = ["inside", "inner", "innermost", "first"];

/// Signs with which a reason ends.
const ENDS: [char; 7] = [',', ';', '.', '(', ')', '|', ':'];

/// Signs that part what is said of lanes from the rest of a line.
const PARTS: [char; 5] = [',', ';', '-', '.', ':'];

/// Lanes that a line says are closed.
pub(crate) struct Closure {
    pub(crate) lanes: Vec<LaneNumber>,
    /// The bytes that say so, with the sign that parts them from the rest of the line.
    pub(crate) range: Range<usize>,
    /// For which part of the evening, where it names one.
    pub(crate) hours: Option<ClosureHours>,
}

/// From when on, and until when, as it is written.
#[derive(Clone, Copy)]
pub(crate) struct ClosureHours {
    from: Option<Written>,
    until: Option<Written>,
}

/// When lanes are closed: from when on, and until when.
type FromUntil = (Option<NaiveTime>, Option<NaiveTime>);

impl ClosureHours {
    /// The hours behind a place of a line, and how many bytes of it say so. Where lanes open, not close, the hours are those
    /// before: `opens at 7`.
    fn behind(line: &str, opens: bool) -> Option<(Self, usize)> {
        let words = words(&line[..line.floor_char_boundary(LONGEST_HOURS)]);
        let is = |at: usize, asked: &[&str]| words.get(at).is_some_and(|word| word.is_one(asked));
        let is_range = is(0, &["between"]);
        let ends = is(0, &UNTIL);
        let mut at = usize::from(is_range || ends || is(0, &FROM));
        at += usize::from(at > 0 && is(at, &["about", "around", "roughly"]));
        let (first, next) = time(&words, at)?;
        let second = is(next, &TO).then(|| time(&words, next + 1)).flatten();
        // A number alone is no time: `lane 1 closed 6 x 200`.
        if at == 0 && second.is_none() && !first.is_sure() {
            return None;
        }
        let (hours, mut last) = match second {
            Some((second, next)) => (Self { from: Some(first), until: Some(second) }, next),
            None if ends != opens => (Self { from: None, until: Some(first) }, next),
            None => (Self { from: Some(first), until: None }, next),
        };
        last += usize::from(is(last, &["on", "onwards", "onward"]));
        let length = words[last - 1].range.end;
        (second.is_none() || !opens).then_some((hours, length))
    }

    /// The times of day, of a session that begins at one.
    ///
    /// # Errors
    ///
    /// What is wrong, and what to do about it.
    pub(crate) fn of_day(self, begins: Option<NaiveTime>) -> Result<FromUntil, (&'static str, &'static str)> {
        let Some(begins) = begins else {
            return Err((
                "nothing says when the session begins",
                "write when in the first line, for example `Tuesday 6.30pm`",
            ));
        };
        let later = |time: Written, half: Option<bool>, earliest: NaiveTime| {
            let behind = |half| time.at(half).filter(|time| *time > earliest);
            half.map_or_else(|| behind(None).or_else(|| behind(Some(true))), |half| behind(Some(half)))
        };
        let last_half = self.until.and_then(|until| until.half);
        // What was closed before the session began is closed from its start on.
        let from = self.from.and_then(|from| later(from, from.half.or(last_half), begins));
        match self.until.map(|until| later(until, until.half, from.unwrap_or(begins))) {
            Some(None) => Err((
                "the lanes would be open again before the session begins",
                "leave that out, or write a time behind the start",
            )),
            until => Ok((from, until.flatten())),
        }
    }
}

/// What a line says of closed lanes.
pub(crate) fn closures(lexed: &Lexed<'_>) -> Vec<Closure> {
    let mut found = Vec::new();
    let mut cursor = Cursor::new(lexed);
    while !cursor.is_at_end() {
        let begins = cursor.place();
        match cursor.closure() {
            Some(closure) => found.push(closure),
            None => {
                cursor.go_back(begins);
                cursor.skip();
            }
        }
    }
    found
}

impl Cursor<'_> {
    fn closure(&mut self) -> Option<Closure> {
        let begins = self.place();
        let is_kept_out = self.one_of(KEEP_OUT);
        // `don't use 1 and 2`
        let is_of_lanes = is_kept_out && self.is_behind_word(&["use"]) && self.is_number(0);
        self.sign(':');
        self.word(&["the"]);
        let lanes = if is_of_lanes { self.lanes_listed()? } else { self.lanes_named()? };
        let behind = self.place();
        // `Lane 1 - closed`
        self.sign('-');
        while self.word(&IS) {}
        let opens = self.one_of(OPEN);
        if !opens && !self.one_of(CLOSED) {
            self.go_back(behind);
            if !is_kept_out {
                return None;
            }
        }
        let hours = self.hours_of_closure(opens);
        // Lanes that are open close nothing.
        if opens && hours.is_none() {
            return None;
        }
        self.reason(opens);
        let hours = hours.or_else(|| self.hours_of_closure(opens));
        self.reason_in_brackets();
        Some(Closure { lanes, range: self.with_signs(begins), hours })
    }

    /// `from 18:45`, `until 7pm`, `6.45-7.15`: the part of the evening that comes next, which is stepped over.
    fn hours_of_closure(&mut self, opens: bool) -> Option<ClosureHours> {
        let begins = self.here().start;
        let (hours, length) = ClosureHours::behind(self.text.get(begins..)?, opens)?;
        while !self.is_at_end() && self.here().start < begins + length {
            self.skip();
        }
        Some(hours)
    }

    /// `lane 1`, `lanes 1-3`, `the inside lane`
    fn lanes_named(&mut self) -> Option<Vec<LaneNumber>> {
        if self.is_word(0, &INSIDE) && self.is_word(1, &["lane"]) {
            self.skip_all(2);
            return Some(vec![LaneNumber::FIRST]);
        }
        // `inside two lanes`, `first 3 lanes`
        if self.is_word(0, &INSIDE) && self.is_word(2, &["lanes"]) {
            let count = self.number_at(1).filter(|count| *count >= 1.0)?;
            self.skip_all(3);
            return Some(LaneNumber::first(count as u8).collect());
        }
        if !self.is_in_lane() || !self.is_number(1) {
            return None;
        }
        self.lanes_listed()
    }

    /// `1 or 2`, `lane 1 & lane 8`, `3-5`: each of them, as all are closed.
    pub(crate) fn lanes_listed(&mut self) -> Option<Vec<LaneNumber>> {
        let mut lanes = Vec::new();
        loop {
            self.word(&["in"]);
            self.word(&LANE_NAMES);
            let (first, _) = self.lane().ok()?;
            let is_range = self.is_number(1) && (self.sign('-') || self.word(&["to"]));
            let last = if is_range { self.lane().ok()?.0 } else { first };
            lanes.extend(
                LaneNumber::ALL.into_iter().filter(|lane| (first.min(last)..=first.max(last)).contains(lane)),
            );
            let is_joined = self.is_word(0, &["and", "or", "nor"])
                || [',', '&', '+', '/'].iter().any(|&sign| self.is_sign(0, sign));
            // `in lane 2, lane 1 closed`
            let next = 1 + usize::from(!self.is_sign(0, ',') && self.is_word(1, &LANE_NAMES));
            // `no lane 1, 6 x 200`
            let is_lane = self.number_at(next).is_some_and(|lane| lane <= f64::from(MOST_LANES))
                && !self.is_counted_item(next)
                && !self.is_times(next + 1)
                && !self.is_unit(next + 1)
                && !self.is_thing(next);
            if !is_joined || !is_lane {
                break;
            }
            self.skip();
        }
        lanes.sort_unstable();
        lanes.dedup();
        Some(lanes)
    }

    /// Why lanes are closed; with a number it is left, which would be lost. What it says of the hours is left as well.
    fn reason(&mut self, opens: bool) {
        let begins = self.place();
        // `closed all night`
        let is_whole = self.is_word(0, &["all"]) && self.is_word(1, &WHOLE_TIME);
        if !is_whole && !self.is_word(0, &REASON) {
            return;
        }
        while !self.is_at_end() && !ENDS.iter().any(|&sign| self.is_sign(0, sign)) {
            if self.is_word(0, &FROM) || self.is_word(0, &UNTIL) || self.is_word(0, &["between"]) {
                let here = self.place();
                let has_hours = self.hours_of_closure(opens).is_some();
                self.go_back(here);
                if has_hours {
                    return;
                }
            }
            if self.is_number(0) {
                self.go_back(begins);
                return;
            }
            self.skip();
        }
    }

    /// `(re-marking)`: a reason without a number.
    fn reason_in_brackets(&mut self) {
        if !self.is_sign(0, '(') {
            return;
        }
        let begins = self.place();
        while !self.is_at_end() && !self.is_number(0) && !self.is_sign(0, ')') {
            self.skip();
        }
        if !self.sign(')') {
            self.go_back(begins);
        }
    }

    /// The bytes since a place with the brackets around them, or the sign that parts them from the rest of the line.
    fn with_signs(&mut self, begins: usize) -> Range<usize> {
        let range = self.since(begins);
        let ends = self.place();
        let is_part = |cursor: &Self| PARTS.iter().any(|&sign| cursor.is_sign(0, sign));
        let behind = self.here();
        let (is_closed, is_before_part) = (self.is_sign(0, ')'), is_part(self));
        let Some(before) = begins.checked_sub(1) else {
            return range.start..if is_before_part { behind.end } else { range.end };
        };
        self.go_back(before);
        let (opens, parts, start) = (self.is_sign(0, '('), is_part(self), self.here().start);
        self.go_back(ends);
        match () {
            () if opens && is_closed => start..behind.end,
            () if parts => start..range.end,
            () => range,
        }
    }
}

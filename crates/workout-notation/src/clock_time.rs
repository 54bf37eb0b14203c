//! Times of day in the lines above a session: `6pm start`, `18:00-19:30`, `from 6.30 to 8 pm`.

use std::ops::Range;

use chrono::NaiveTime;

use crate::heading_words::DAYS;
use crate::line_words::{Word, words};

/// Words in front of a time at which something starts.
const START: [&str; 8] = ["start", "starts", "starting", "begin", "begins", "beginning", "from", "time"];

/// Words that may stand beside it.
const BESIDE: [&str; 6] = ["at", "sharp", "prompt", "onwards", "on", ":"];

/// When a line says that a session begins and ends, and the bytes that say nothing else.
type Said = (NaiveTime, Option<NaiveTime>, Option<Range<usize>>);

/// What a line says of when a session begins. Within a title the words stay where they are.
pub(crate) fn clock_times(line: &str) -> Option<Said> {
    if !line.bytes().any(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let words = words(line);
    let mut from = 0;
    while from < words.len() {
        let to = (from..words.len()).find(|&at| is_end(&words, at)).unwrap_or(words.len());
        if let Some((begins, ends)) = phrase(&words[from..to]) {
            // With the sign that parts it from the rest.
            let start = from.checked_sub(1).map_or(words[from].range.start, |sign| words[sign].range.start);
            let end = match words.get(to) {
                Some(sign) if from == 0 => sign.range.end,
                _ => words[to - 1].range.end,
            };
            let is_bracket = from > 0 && words[from - 1].text == "(";
            let end = if is_bracket { words.get(to).map_or(end, |sign| sign.range.end) } else { end };
            return Some((begins, ends, Some(start..end)));
        }
        // `Tuesday 18:00-19:30`, `Tue 24 Nov 18:00-19:30`: the day stays.
        if DAYS.iter().any(|day| words[from].is(day)) {
            let range = |at: &usize| phrase(&words[*at..to]).filter(|(_, ends)| ends.is_some());
            if let Some((at, (begins, ends))) = (from + 1..to).find_map(|at| Some((at, range(&at)?))) {
                return Some((begins, ends, Some(words[at].range.start..words[to - 1].range.end)));
            }
        }
        from = to + 1;
    }
    // `Tuesday 7pm track`: only a half of the day makes sure that it is a time.
    let sure = (0..words.len()).find_map(|at| {
        let (time, next) = time(&words, at)?;
        let half = time.half?;
        let is_free = at == 0 || !["-", "–", "to", "until"].iter().any(|to| words[at - 1].is(to));
        (is_free && next > at).then(|| time.at(Some(half))).flatten()
    });
    sure.map(|begins| (begins, None, None))
}

/// Whether a sign parts what stands in front of it from what follows.
fn is_end(words: &[Word<'_>], at: usize) -> bool {
    let word = &words[at];
    let is_apart = |sign: &Word<'_>| {
        let before = at.checked_sub(1).map(|at| words[at].range.end);
        let behind = words.get(at + 1).map(|word| word.range.start);
        let is_range = number(words, at.wrapping_sub(1)).is_some() && number(words, at + 1).is_some();
        !is_range
            && before.is_some_and(|end| end < sign.range.start)
            && behind.is_some_and(|start| start > sign.range.end)
    };
    [",", ";", "(", ")", "|"].contains(&word.text) || ["-", "–", "—"].contains(&word.text) && is_apart(word)
}

/// When a session begins and ends, where words say that and nothing else.
fn phrase(words: &[Word<'_>]) -> Option<(NaiveTime, Option<NaiveTime>)> {
    let is_word =
        |at: usize, list: &[&str]| words.get(at).is_some_and(|word| list.iter().any(|asked| word.is(asked)));
    let mut at = 0;
    let mut is_start = false;
    while is_word(at, &START) || is_word(at, &BESIDE) {
        is_start |= is_word(at, &START);
        at += 1;
    }
    let (first, next) = time(words, at)?;
    at = next;
    let mut second = None;
    if is_word(at, &["-", "–", "—", "to", "until", "till"]) {
        let (time, next) = time(words, at + 1)?;
        second = Some(time);
        at = next;
    }
    while is_word(at, &START) || is_word(at, &BESIDE) {
        is_start |= is_word(at, &START);
        at += 1;
    }
    let has_half = first.half.is_some() || second.is_some_and(|time| time.half.is_some());
    let is_exact = first.is_exact() && second.is_none_or(|time| time.is_exact());
    if at < words.len() || !(has_half || is_exact || is_start && first.minute.is_some()) {
        return None;
    }
    let ends = match second {
        Some(time) => Some(time.at(time.half)?),
        None => None,
    };
    // `6-7.30pm`: the first is of the same half, unless it would come after the second.
    let half = first.half.or_else(|| second.and_then(|time| time.half));
    let begins = first.at(half)?;
    let begins = match ends {
        Some(ends) if begins >= ends => first.at(None).filter(|begins| *begins < ends)?,
        _ => begins,
    };
    Some((begins, ends))
}

/// A time as it is written.
#[derive(Clone, Copy)]
struct Written {
    hour: u32,
    minute: Option<u32>,
    /// Whether two digits are written for the hour.
    is_full: bool,
    /// Whether it is after noon, where that is said.
    half: Option<bool>,
}

impl Written {
    /// Whether it is written with all four digits, of a time at which people train.
    fn is_exact(self) -> bool {
        self.minute.is_some() && self.is_full && (6..23).contains(&self.hour)
    }

    fn at(self, is_after_noon: Option<bool>) -> Option<NaiveTime> {
        let hour = match is_after_noon {
            Some(_) if !(1..=12).contains(&self.hour) => self.hour,
            Some(is_after_noon) => self.hour % 12 + if is_after_noon { 12 } else { 0 },
            None => self.hour,
        };
        NaiveTime::from_hms_opt(hour, self.minute.unwrap_or(0), 0)
    }
}

fn number(words: &[Word<'_>], at: usize) -> Option<u32> {
    words.get(at).filter(|word| word.text.len() <= 2)?.text.parse().ok()
}

/// A time at a place, and the place behind it.
fn time(words: &[Word<'_>], at: usize) -> Option<(Written, usize)> {
    let hour = number(words, at).filter(|hour| *hour < 24)?;
    let mut next = at + 1;
    let is_glued = |at: usize| words.get(at).is_some_and(|word| word.range.start == words[at - 1].range.end);
    let is_point =
        |at: usize| words.get(at).is_some_and(|word| [":", "."].contains(&word.text)) && is_glued(at);
    let mut minute = None;
    if is_point(next)
        && is_glued(next + 1)
        && let Some(found) = number(words, next + 1).filter(|minute| *minute < 60)
        && words[next + 1].text.len() == 2
    {
        minute = Some(found);
        next += 2;
    }
    let half = match words.get(next) {
        Some(word) if word.is("pm") => Some(true),
        Some(word) if word.is("am") => Some(false),
        _ => None,
    };
    next += usize::from(half.is_some());
    // A longer word or number begins with it: `6 x`, `3:00.5`.
    let is_more = half.is_none()
        && is_glued(next)
        && words[next]
            .text
            .starts_with(|letter: char| letter.is_alphanumeric() || [':', '.'].contains(&letter));
    (!is_more).then_some((Written { hour, minute, is_full: words[at].text.len() == 2, half }, next))
}

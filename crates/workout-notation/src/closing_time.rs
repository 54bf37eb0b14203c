//! Until when the track is open, or when a session ends.

use std::ops::Range;

use chrono::NaiveTime;

use crate::clock_time::{is_end, time};
use crate::line_words::words;

/// Words for a place that closes.
const VENUE: [&str; 9] =
    ["track", "gate", "gates", "lights", "floodlights", "stadium", "venue", "ground", "site"];

/// Words between it and when it does.
const CLOSES: [&str; 12] =
    ["is", "are", "be", "closed", "closes", "close", "shut", "shuts", "locked", "off", "out", "go"];

/// Words for the end of a session.
#[rustfmt::skip]
const FINISH: [&str; 14] = [
    "finish", "finishes", "finishing", "end", "ends", "ending", "done", "finished", "until", "till", "til", "home", "out", "gone",
];

/// Until when the track is open, or when the session ends, where a part of a line says that and nothing else: `track closed
/// from 7.15`, `finish by 8`; and where that stands.
pub(crate) fn closing_time(line: &str, begins: NaiveTime) -> Option<(NaiveTime, Range<usize>)> {
    let words = words(line);
    let mut from = 0;
    while from < words.len() {
        let to = (from..words.len()).find(|&at| is_end(&words, at)).unwrap_or(words.len());
        let part = &words[from..to];
        let is = |at: usize, asked: &[&str]| part.get(at).is_some_and(|word| word.is_one(asked));
        let mut at = usize::from(is(0, &["the", "must", "to"]));
        let is_venue = is(at, &VENUE);
        let first = at + 1;
        if is_venue || is(at, &FINISH) {
            at = first;
            while is_venue && is(at, &CLOSES) {
                at += 1;
            }
            let is_said = !is_venue || at > first;
            while is(at, &["from", "at", "by", ":"]) {
                at += 1;
            }
            if let Some((written, end)) = time(part, at).filter(|_| is_said)
                && end == part.len()
            {
                let later = |half| written.at(half).filter(|ends| *ends > begins);
                let ends = written
                    .half
                    .map_or_else(|| later(None).or_else(|| later(Some(true))), |half| later(Some(half)))?;
                let start = from.checked_sub(1).map_or(part[0].range.start, |sign| words[sign].range.start);
                return Some((ends, start..part[end - 1].range.end));
            }
        }
        from = to + 1;
    }
    None
}

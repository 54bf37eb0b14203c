//! How many people time: `one watch`, `two coaches tonight`, `a watch for each group`.

use std::ops::Range;

use crate::clock_time::is_end;
use crate::line_words::{Word, words};

/// How many people time a session, where its text says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Watches {
    /// One.
    One,
    /// Two.
    Two,
    /// One for each group.
    EachGroup,
}

/// Who or what times.
const NAMES: [&str; 10] = [
    "watch",
    "watches",
    "stopwatch",
    "stopwatches",
    "timer",
    "timers",
    "timekeeper",
    "timekeepers",
    "coach",
    "coaches",
];

/// Words in front of a number of them, and behind it, that change nothing.
const IN_FRONT: [&str; 5] = ["only", "just", "with", "we", "have"];
const BEHIND: [&str; 9] = ["between", "us", "tonight", "today", "here", "only", "there", "for", "all"];

/// How many people time, where a part of a line says that and nothing else; and where that stands.
pub(crate) fn watches(line: &str) -> Option<(Watches, Range<usize>)> {
    let words = words(line);
    let mut from = 0;
    while from < words.len() {
        let to = (from..words.len()).find(|&at| is_end(&words, at)).unwrap_or(words.len());
        if let Some(found) = said(&words[from..to]) {
            let start = from.checked_sub(1).unwrap_or(from);
            // With the sign that parts it from the rest, or both brackets.
            let opens = words.get(to).is_some_and(|sign| sign.text == "(");
            let takes_end = (from == 0 || words[start].text == "(") && to < words.len() && !opens;
            let end = if takes_end { to } else { to - 1 };
            return Some((found, words[start].range.start..words[end].range.end));
        }
        from = to + 1;
    }
    None
}

fn said(part: &[Word<'_>]) -> Option<Watches> {
    let mut at = part.iter().take_while(|word| word.is_one(&IN_FRONT)).count();
    let count = match part.get(at)? {
        word if word.is_one(&["one", "1", "a"]) => Watches::One,
        word if word.is_one(&["two", "2"]) => Watches::Two,
        _ => return None,
    };
    at += 1;
    part.get(at).filter(|word| word.is_one(&NAMES))?;
    let behind = &part[at + 1..];
    let is_each = behind.last().is_some_and(|word| word.is_one(&["each", "group"]))
        && behind.iter().all(|word| word.is_one(&["each", "per", "for", "a", "group"]));
    if is_each && count == Watches::One {
        return Some(Watches::EachGroup);
    }
    let is_count = !part[at - 1].is("a") && behind.iter().all(|word| word.is_one(&BEHIND));
    is_count.then_some(count)
}

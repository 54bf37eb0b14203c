//! What a text says of the day and not of the runs: lanes that are closed, and when it begins.

use std::borrow::Cow;
use std::ops::Range;

use chrono::NaiveTime;
use lane_distance::LaneNumber;

use crate::clock_time::clock_times;
use crate::line_words::{Word, words};
use crate::problem::Problem;

/// What a text says of the day.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Day {
    /// Lanes that nobody can run in, from the inside.
    pub(crate) closed_lanes: Vec<LaneNumber>,
    /// When it begins.
    pub(crate) begins: Option<NaiveTime>,
    /// When it ends.
    pub(crate) ends: Option<NaiveTime>,
    /// What it says and cannot be planned.
    pub(crate) problems: Vec<Problem>,
}

/// Words that say of the lanes in front of them that they are closed.
const CLOSED: [&[&str]; 11] = [
    &["closed"],
    &["shut"],
    &["blocked"],
    &["reserved"],
    &["unavailable"],
    &["not", "available"],
    &["not", "open"],
    &["not", "in", "use"],
    &["out", "of", "use"],
    &["out", "of", "action"],
    &["off", "limits"],
];

/// Words that say of the lanes behind them that nobody runs there.
const KEEP_OUT: [&[&str]; 13] = [
    &["closed"],
    &["shut"],
    &["no"],
    &["not"],
    &["not", "in"],
    &["not", "on"],
    &["avoid"],
    &["avoiding"],
    &["without"],
    &["keep", "out", "of"],
    &["keep", "off"],
    &["stay", "out", "of"],
    &["stay", "off"],
];

/// Words between lanes and what is said of them.
const IS: [&str; 7] = ["is", "are", "still", "currently", "now", "remains", "being"];

/// Words with which a reason begins.
const REASON: [&str; 12] =
    ["for", "due", "because", "by", "tonight", "today", "again", "this", "with", "while", "as", "so"];

/// Words with which a part of the evening begins.
const HOURS: [&str; 6] = ["until", "till", "from", "before", "after", "at"];

/// Words in front of what is said of the day alone in a line.
const REMINDERS: [&str; 7] = ["note", "nb", "reminder", "remember", "please", "and", "but"];

/// Takes what a text says of the day out of it: spaces stand in its place, so that every other word stays where it was.
pub(crate) fn take(text: &str) -> (Cow<'_, str>, Day) {
    let mut day = Day::default();
    let mut said = Vec::new();
    let mut start = 0;
    let mut is_head = true;
    for line in text.split_inclusive('\n') {
        is_head &= !has_run(line);
        if is_head && let Some((begins, ends, range)) = clock_times(line).filter(|_| day.begins.is_none()) {
            (day.begins, day.ends) = (Some(begins), ends);
            said.extend(range.map(|range| start + range.start..start + range.end));
        }
        if may_close(line) {
            for (range, lanes) in closures(line) {
                let hours = hours_behind(line, range.end);
                let span = start + range.start..start + hours.unwrap_or(range.end);
                if hours.is_some() {
                    let problem = Problem::new(span.clone(), "lanes are closed for the whole session");
                    let help = "leave the time out, or write what is run before and after as two sessions";
                    day.problems.push(problem.with_help(help));
                }
                day.closed_lanes.extend(lanes);
                said.push(span);
            }
        }
        start += line.len();
    }
    day.closed_lanes.sort_unstable();
    day.closed_lanes.dedup();
    if said.is_empty() {
        return (Cow::Borrowed(text), day);
    }
    (Cow::Owned(blanked(text, &said)), day)
}

/// Where the time ends that is named behind lanes that are closed; nothing where there is none.
fn hours_behind(line: &str, end: usize) -> Option<usize> {
    let behind = words(&line[end..]);
    let mut words = behind.iter();
    let is_hours = words.next().is_some_and(|word| HOURS.iter().any(|hours| word.is(hours)));
    let begins_number = |word: &Word<'_>| word.text.starts_with(|letter: char| letter.is_ascii_digit());
    let mut number = words.next().filter(|word| is_hours && begins_number(word))?;
    while let Some(more) = words.next().filter(|word| word.text == ":" || begins_number(word)) {
        number = more;
    }
    Some(end + number.range.end)
}

/// Where a text says that lanes are closed, first of all.
pub(crate) fn first_closure(text: &str) -> Option<(Range<usize>, Vec<LaneNumber>)> {
    if may_close(text) { closures(text).into_iter().next() } else { None }
}

/// The text with spaces in some places. A line in which only signs and a reminder are left is empty.
fn blanked(text: &str, said: &[Range<usize>]) -> String {
    let mut is_kept = vec![true; text.len()];
    for range in said {
        is_kept[range.clone()].fill(false);
    }
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let is_kept = &mut is_kept[start..start + line.len()];
        let is_idle = |word: &Word<'_>| {
            let is_gone = !is_kept[word.range.start];
            let is_sign = !word.text.starts_with(char::is_alphanumeric);
            is_gone || is_sign || REMINDERS.iter().any(|reminder| word.is(reminder))
        };
        if is_kept.contains(&false) && words(line).iter().all(is_idle) {
            is_kept.fill(false);
        }
        start += line.len();
    }
    let mut blank = String::with_capacity(text.len());
    for (at, letter) in text.char_indices() {
        match is_kept[at] || matches!(letter, '\n' | '\r') {
            true => blank.push(letter),
            // A letter of several bytes leaves so many spaces.
            false => blank.extend(std::iter::repeat_n(' ', letter.len_utf8())),
        }
    }
    blank
}

/// Whether a line may say that lanes are closed: it takes no memory, as almost no line does.
fn may_close(line: &str) -> bool {
    const FIRST: [&str; 14] = [
        "closed",
        "shut",
        "blocked",
        "reserved",
        "unavailable",
        "out",
        "off",
        "no",
        "not",
        "avoid",
        "avoiding",
        "without",
        "keep",
        "stay",
    ];
    let mut words = line.split(|letter: char| !letter.is_ascii_alphabetic());
    words.any(|word| {
        word.len() > 1
            && matches!(
                word.as_bytes()[0] | 0x20,
                b'c' | b's' | b'b' | b'r' | b'u' | b'o' | b'n' | b'a' | b'w' | b'k'
            )
            && FIRST.iter().any(|first| word.eq_ignore_ascii_case(first))
    })
}

/// Whether a line has a run: a number with a cross or a unit of length.
fn has_run(line: &str) -> bool {
    let bytes = line.as_bytes();
    // Behind a digit another letter begins.
    let behind_digits = (1..bytes.len()).filter(|&at| bytes[at - 1].is_ascii_digit());
    let mut texts = behind_digits.map(|at| line[at..].trim_start_matches(' '));
    texts.any(|behind| {
        let mut letters = behind.chars();
        let first = letters.next();
        let second = letters.next();
        let ends = |letter: Option<char>| letter.is_none_or(|letter| !letter.is_alphabetic());
        match first {
            Some('x' | 'X' | '×' | '*') => true,
            Some('m' | 'M' | 'k' | 'K') => {
                ends(second) || matches!(second, Some('m' | 'M')) && ends(letters.next())
            }
            _ => false,
        }
    })
}

/// Whether words follow at a place, one after the other.
fn follows(words: &[Word<'_>], at: usize, phrase: &[&str]) -> bool {
    phrase.iter().enumerate().all(|(ahead, asked)| words.get(at + ahead).is_some_and(|word| word.is(asked)))
}

/// The longest of some phrases that stands at a place: how many words it has.
fn longest(words: &[Word<'_>], at: usize, phrases: &[&[&str]]) -> Option<usize> {
    let found = phrases.iter().filter(|phrase| follows(words, at, phrase));
    found.map(|phrase| phrase.len()).max()
}

/// The places of a line that say that lanes are closed, and which.
fn closures(line: &str) -> Vec<(Range<usize>, Vec<LaneNumber>)> {
    let words = words(line);
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        match closure(&words, at) {
            Some((end, lanes)) => {
                found.push((around(line, &words, at, end), lanes));
                at = end;
            }
            None => at += 1,
        }
    }
    found
}

/// Lanes that are closed from a word on: where what is said of them ends, and which they are.
fn closure(words: &[Word<'_>], at: usize) -> Option<(usize, Vec<LaneNumber>)> {
    let keep_out = longest(words, at, &KEEP_OUT);
    let mut place = at + keep_out.unwrap_or(0);
    place += usize::from(follows(words, place, &[":"]));
    place += usize::from(follows(words, place, &["the"]));
    let (mut place, lanes) = lanes(words, place)?;
    let said = {
        let mut behind = place;
        while words.get(behind).is_some_and(|word| IS.iter().any(|is| word.is(is))) {
            behind += 1;
        }
        longest(words, behind, &CLOSED).map(|length| behind + length)
    };
    match said {
        Some(behind) => place = behind,
        None if keep_out.is_some() => {}
        None => return None,
    }
    if words.get(place).is_some_and(|word| REASON.iter().any(|reason| word.is(reason))) {
        let ends = |word: &Word<'_>| [",", ";", ".", "(", ")", "|", ":"].contains(&word.text);
        let is_number = |word: &Word<'_>| word.text.starts_with(|letter: char| letter.is_ascii_digit());
        let end = words[place..].iter().position(|word| ends(word) || is_number(word));
        let end = end.map_or(words.len(), |length| place + length);
        // A number of the reason would be lost.
        if words.get(end).is_none_or(|word| !is_number(word)) {
            place = end;
        }
    }
    Some((place, lanes))
}

/// Lanes that are named at a place: `lane 1`, `lanes 1-3`, `lanes 1, 2 and 5`, `the inside lane`.
fn lanes(words: &[Word<'_>], at: usize) -> Option<(usize, Vec<LaneNumber>)> {
    let is =
        |at: usize, names: &[&str]| words.get(at).is_some_and(|word| names.iter().any(|name| word.is(name)));
    if is(at, &["inside", "inner", "innermost"]) && is(at + 1, &["lane"]) {
        return Some((at + 2, vec![LaneNumber::FIRST]));
    }
    let number = |at: usize| words.get(at)?.text.parse().ok().and_then(LaneNumber::new);
    if !is(at, &["lane", "lanes", "l"]) {
        return None;
    }
    let mut lanes = vec![number(at + 1)?];
    let mut place = at + 2;
    loop {
        let signs = usize::from(is(place, &[",", "and", "&", "+", "-", "–", "to"]))
            + usize::from(is(place, &[","]) && is(place + 1, &["and", "&"]));
        let Some(next) = (if signs > 0 { number(place + signs) } else { None }) else { break };
        // `no lane 1, 6 x 200`: the second number counts runs; `no lane 1, 3k tempo` has a length.
        let behind = words.get(place + signs + 1);
        let is_run = behind.is_some_and(|word| {
            word.is("×")
                || word.is("*")
                || word.text.starts_with(char::is_alphabetic) && {
                    let is_said = IS.iter().chain(&REASON).any(|is| word.is(is));
                    let is_closed = CLOSED.iter().any(|closed| word.is(closed[0]));
                    !(is_said || is_closed || word.is("and") || word.is("to"))
                }
        });
        if is_run {
            break;
        }
        let last = lanes.last().copied().unwrap_or(next);
        if is(place, &["-", "–", "to"]) {
            lanes.extend(LaneNumber::ALL.into_iter().filter(|lane| (last..=next).contains(lane)));
        }
        lanes.push(next);
        place += signs + 1;
    }
    Some((place, lanes))
}

/// The bytes of some words with the sign that parts them from the rest of the line.
fn around(line: &str, words: &[Word<'_>], from: usize, to: usize) -> Range<usize> {
    let is_sign = |word: &Word<'_>, signs: &[&str]| signs.contains(&word.text);
    let (mut start, mut end) = (words[from].range.start, words[to - 1].range.end);
    let before = from.checked_sub(1).map(|place| &words[place]);
    let behind = words.get(to);
    if let (Some(before), Some(behind)) = (before, behind)
        && is_sign(before, &["("])
        && is_sign(behind, &[")"])
    {
        return before.range.start..behind.range.end;
    }
    match (before, behind) {
        (Some(sign), _) if is_sign(sign, &[",", ";", "-", "–", "—"]) => start = sign.range.start,
        (None, Some(sign)) if is_sign(sign, &[",", ";", ".", "-", "–", "—", ":"]) => end = sign.range.end,
        _ => {}
    }
    debug_assert!(line.is_char_boundary(start) && line.is_char_boundary(end));
    start..end
}

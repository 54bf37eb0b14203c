//! Lines that say who is not there, or comes late: `Max missing tonight`, `no Ada or Ben`, `Cyd late 7pm`.

use std::ops::Range;

use crate::lateness::Lateness;
use crate::line_words::{Word, words};

/// Words for somebody who does not train.
const ABSENT: [&str; 14] = [
    "out",
    "missing",
    "absent",
    "injured",
    "inj",
    "away",
    "ill",
    "sick",
    "off",
    "unavailable",
    "resting",
    "excused",
    "ruled",
    "skipping",
];

/// Words that deny, and what they deny.
const DENIES: [&str; 6] = ["not", "isn", "can", "cannot", "won", "no"];
const DENIED: [&str; 11] =
    ["here", "coming", "in", "there", "available", "training", "show", "running", "make", "come", "tonight"];

/// Words in front of those.
const IS: [&str; 6] = ["is", "are", "s", "will", "be", "both"];

/// Words for somebody who comes later.
const LATE: [&str; 13] = [
    "late", "later", "from", "arrives", "arriving", "arrive", "joins", "joining", "join", "after", "coming",
    "comes", "here",
];

/// Those of them that may stand behind how much later: `20 mins late`.
const LATER: [&str; 3] = ["late", "later", "behind"];

/// Words for somebody who trains with others, and those in front of them.
const WITH: [&str; 4] = ["with", "joins", "joining", "w"];
const TRAINS: [&str; 5] = ["trains", "training", "goes", "runs", "running"];

/// Words for somebody who goes earlier.
#[rustfmt::skip]
const EARLY: [&str; 17] = [
    "until", "till", "til", "leaves", "leave", "leaving", "early", "only", "maybe", "if", "has", "must", "needs", "gone", "goes",
    "can", "wants",
];

/// Words in front of names of who does not train.
const WITHOUT: [&str; 6] = ["no", "without", "missing", "absent", "apologies", "sorry"];

/// Words between names.
const BETWEEN: [&str; 6] = [",", "&", "/", "and", "or", "nor"];

/// The most words behind those for an absence.
const MOST_BEHIND: usize = 6;

/// What a line says of who is there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Attendance {
    /// Of whom, as they are named elsewhere in the text, and where they stand in the line.
    pub(crate) names: Vec<(String, Range<usize>)>,
    /// What is said of them.
    pub(crate) said: Said,
}

/// What a line says of somebody.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Said {
    /// That they do not train.
    Absent,
    /// That they train with others, by the words for those.
    With(String),
    /// That somebody is away or late whom the text names nowhere else.
    OfNobody,
    /// That they come later, in front of their names: `Late: Ada (6.45)`.
    Late,
    /// Anything else: that they come later, or go earlier.
    Else,
}

/// Whether words say that somebody does not train.
pub(crate) fn is_absence(said: &str) -> bool {
    absent_words(&words(said)).is_some()
}

/// Whether words say that somebody comes later.
pub(crate) fn is_lateness(said: &str) -> bool {
    begins_with(&words(said), &LATE)
}

/// Whether words say that somebody goes earlier, or perhaps does not come.
pub(crate) fn is_left_early(said: &str) -> bool {
    begins_with(&words(said), &EARLY)
}

fn is_one(word: Option<&Word<'_>>, list: &[&str]) -> bool {
    word.is_some_and(|word| word.is_one(list))
}

fn begins_with(words: &[Word<'_>], list: &[&str]) -> bool {
    let free = words.iter().take_while(|word| word.is_one(&IS) || word.text == "'").count();
    is_one(words.get(free), list)
}

/// How many words say that somebody does not train, where nothing with a number stands behind them.
fn absent_words(words: &[Word<'_>]) -> Option<usize> {
    let mut at =
        words.iter().take_while(|word| word.is_one(&IS) || ["'", "’", "-", ":"].contains(&word.text)).count();
    if is_one(words.get(at), &ABSENT) {
        at += 1;
    } else if is_one(words.get(at), &DENIES) {
        at += 1;
        // `can't make it`
        let more = words[at..].iter().take_while(|word| ["'", "’", "t"].contains(&word.text)).count();
        at += more;
        if !is_one(words.get(at), &DENIED) {
            return None;
        }
        at += 1;
    } else {
        return None;
    }
    let behind = &words[at..];
    let has_number = behind.iter().any(|word| word.is_number());
    (!has_number && behind.len() <= MOST_BEHIND).then_some(at)
}

/// How many repetitions somebody does, where words say that and no time of day: `does 4`, `only 2`, `first 2 reps only`.
pub(crate) fn fewer_reps(said: &str) -> Option<u32> {
    const OF_REPS: [&str; 8] = ["does", "doing", "do", "only", "just", "max", "reps", "rep"];
    const BESIDE: [&str; 12] =
        ["is", "s", "will", "so", "injured", "tonight", "today", "of", "each", "runs", "the", "first"];
    let mut words = said.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    let is_one = |word: &str, of: &[&str]| of.iter().any(|known| word.eq_ignore_ascii_case(known));
    let (mut count, mut is_of_reps) = (None, false);
    // `only here until 7` is a time.
    let is_said = words.all(|word| {
        is_of_reps |= is_one(word, &OF_REPS);
        let number = word.parse().ok();
        let is_first = number.is_some() && count.is_none();
        count = count.or(number);
        is_first || is_one(word, &OF_REPS) || is_one(word, &BESIDE)
    });
    count.filter(|_| is_said && is_of_reps)
}

/// What a line says of who is there, where it says nothing else; given the names of the text.
pub(crate) fn attendance(line: &str, known: &[String]) -> Option<Attendance> {
    let words = words(line);
    // `Not here: Ada`
    let colon = words.iter().position(|word| word.text == ":");
    let label = colon.filter(|&colon| colon > 0 && absent_words(&words[..colon]).is_some());
    let is_without = label.is_some() || is_one(words.first(), &WITHOUT);
    let is_late = colon == Some(1) && is_one(words.first(), &LATER[..2]);
    let mut at = label.unwrap_or(usize::from(is_without || is_late));
    at += usize::from((is_without || is_late) && words.get(at).is_some_and(|word| word.text == ":"));
    let mut names = Vec::new();
    while let Some((name, range)) = name_at(line, &words, at, known) {
        at += words[at..].iter().take_while(|word| word.range.start < range.end).count();
        if names.iter().all(|(known, _)| *known != name) {
            names.push((name, range));
        } else if let Some(last) = names.last_mut() {
            // Twice the same: what is said stands behind it all the same.
            last.1.end = range.end;
        }
        while is_one(words.get(at), &BETWEEN) {
            at += 1;
        }
    }
    if names.is_empty() {
        return None;
    }
    let behind = &words[at..];
    if is_late {
        return Some(Attendance { names, said: Said::Late });
    }
    let is_idle = behind.len() <= MOST_BEHIND && !behind.iter().any(|word| word.is_number());
    if is_without && is_idle || absent_words(behind).is_some() {
        return Some(Attendance { names, said: Said::Absent });
    }
    // `Ben with distance tonight`
    let free = behind.iter().take_while(|word| word.is_one(&IS) || word.is_one(&TRAINS)).count();
    if is_one(behind.get(free), &WITH)
        && let Some(first) = behind.get(free + 1)
        // `joins at 6.30`
        && !first.is_one(&["at", "from", "by", "@", "us"])
        && !first.is_number()
        && behind.len() <= MOST_BEHIND
        && !is_without
    {
        return Some(Attendance { names, said: Said::With(line[first.range.start..].to_owned()) });
    }
    // `Max 20 mins late`
    let is_late = behind.len() <= MOST_BEHIND && behind.iter().any(|word| word.is_one(&LATER));
    // `Alan is injured so does 3 only`
    let is_fewer = names.len() == 1
        && behind.len() <= MOST_BEHIND
        && line.get(behind.first()?.range.start..).and_then(fewer_reps).is_some();
    (!is_without && (is_late || is_fewer || begins_with(behind, &LATE) || begins_with(behind, &EARLY)))
        .then_some(Attendance { names, said: Said::Else })
}

/// Whether a line says who is there, and nothing else; given the names of the text.
pub(crate) fn is_attendance(line: &str, known: &[String]) -> bool {
    attendances(line, known).is_some() || attendance(line, known).is_some()
}

/// The most bytes of a sentence with commas in it.
const LONGEST_SENTENCE: usize = 120;

/// What each sentence of a line says of who is there, given the names of the text: the byte at which it begins, its words,
/// and what it says. Nothing where one of them says something else.
pub(crate) fn attendances<'a>(line: &'a str, known: &[String]) -> Option<Vec<(usize, &'a str, Attendance)>> {
    let mut found: Vec<(usize, &str, Attendance)> = Vec::new();
    // Where a sentence begins that says nothing yet.
    let mut open: Option<usize> = None;
    for (at, part) in sentences(line) {
        let said_from = |from: usize| {
            let said = line.get(from..at + part.len()).filter(|said| said.len() <= LONGEST_SENTENCE)?;
            let unknown = || {
                let name = unknown_absence(said).or_else(|| unknown_away(said))?;
                Some(Attendance { names: vec![(name.to_owned(), 0..name.len())], said: Said::OfNobody })
            };
            Some((from, said, attendance(said, known).or_else(unknown)?))
        };
        if let Some(said) = said_from(open.unwrap_or(at)) {
            found.push(said);
            open = None;
            continue;
        }
        let before = found.last().filter(|_| open.is_none());
        // `no Ada, Ben`, `Ada away. Ben late, from 6.45`; but `Ada away, Ben and Cyd late`
        let goes_on = |(_, said, Attendance { names, .. }): &&(usize, &str, Attendance)| {
            names.last().is_some_and(|(_, range)| range.end == said.len())
                || name_at(part, &words(part), 0, known).is_none()
        };
        if let Some(said) = before.filter(goes_on).and_then(|(from, ..)| said_from(*from)) {
            found.pop();
            found.push(said);
        } else {
            let from = *open.get_or_insert(at);
            if at + part.len() - from > LONGEST_SENTENCE {
                return None;
            }
        }
    }
    let is_of_somebody = found.iter().any(|(.., said)| said.said != Said::OfNobody);
    (open.is_none() && is_of_somebody).then_some(found)
}

/// The parts of a text between commas and full stops, and where each begins.
fn sentences(text: &str) -> Vec<(usize, &str)> {
    let is_end = |(at, letter): &(usize, char)| match letter {
        ',' | ';' | '!' => true,
        // `6.30`
        '.' => !text[at + 1..].starts_with(|next: char| next.is_ascii_digit()),
        _ => false,
    };
    let (mut parts, mut start) = (Vec::new(), 0);
    for (end, _) in text.char_indices().filter(is_end).chain([(text.len(), '.')]) {
        let part = &text[start..end];
        if !part.trim().is_empty() {
            parts.push((start + part.len() - part.trim_start().len(), part.trim()));
        }
        start = (end + 1).min(text.len());
    }
    parts
}

/// Words that say of a name nobody knows that somebody does not train.
const SURELY_ABSENT: [&str; 7] = ["missing", "absent", "injured", "inj", "ill", "sick", "unavailable"];

/// The name that a line says is not there, or comes later, where the text names nobody so.
pub(crate) fn unknown_absence(line: &str) -> Option<&str> {
    let words = words(line);
    let name = words.first().filter(|word| word.text.starts_with(char::is_uppercase))?;
    let free = 1 + words[1..].iter().take_while(|word| word.is_one(&IS)).count();
    let is_sure = is_one(words.get(free), &SURELY_ABSENT) || is_one(words.get(free), &DENIES[..5]);
    let is_late = is_one(words.get(free), &LATER) && words.len() <= free + 2;
    // `Zoe 15 min late`
    let has_late = words.iter().any(|word| word.is_one(&LATER[..1])) || is_one(words.get(free), &["from"]);
    let is_told = has_late && line.get(name.range.end..).and_then(Lateness::read).is_some();
    let is_absence = is_late || is_told || is_sure && absent_words(&words[1..]).is_some();
    (is_absence && !name.is_one(&WITHOUT)).then_some(name.text)
}

/// The same with words that may mean something else, beside a sentence about somebody known: `Gil is out`.
fn unknown_away(sentence: &str) -> Option<&str> {
    let words = words(sentence);
    let name =
        words.first().filter(|word| word.text.starts_with(char::is_uppercase) && !word.is_one(&WITHOUT))?;
    absent_words(&words[1..]).map(|_| name.text)
}

/// The name that stands at a word of a line, and where.
fn name_at(line: &str, words: &[Word<'_>], at: usize, known: &[String]) -> Option<(String, Range<usize>)> {
    let start = words.get(at)?.range.start;
    let fits = |name: &&String| {
        let end = start + name.len();
        line.get(start..end).is_some_and(|written| written.eq_ignore_ascii_case(name))
            && !line[end..].starts_with(char::is_alphanumeric)
    };
    let name = known.iter().filter(fits).max_by_key(|name| name.len())?;
    Some((name.clone(), start..start + name.len()))
}

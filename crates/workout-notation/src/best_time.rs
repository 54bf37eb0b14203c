//! Best times that a text gives: `Ada (400 56)`, `Ben 1500: 4:12`, `PBs: 800 2:10`.

use std::ops::RangeInclusive;

use crate::cursor::Cursor;
use crate::forms::FORMS;
use crate::line_words::{Word, words};
use crate::people;
use crate::quantity::minutes_and_seconds;
use crate::token::Lexed;

/// A best time.
#[derive(Clone, Debug, PartialEq)]
pub struct BestTime {
    /// Whose it is; of all who have none of their own where nobody is named.
    pub name: Option<String>,
    /// The distance of the race, in metres.
    pub metres: f64,
    /// The time, in seconds.
    pub seconds: f64,
}

impl BestTime {
    /// Best times of somebody, by their metres and seconds.
    pub(crate) fn all_of(name: &str, times: Vec<(f64, f64)>) -> impl Iterator<Item = Self> {
        times.into_iter().map(|(metres, seconds)| Self { name: Some(name.to_owned()), metres, seconds })
    }
}

/// Words for a best time, and those in front of them.
const BEST: [&str; 8] = ["pb", "pbs", "sb", "sbs", "pr", "prs", "best", "bests"];
const WHOSE: [&str; 10] =
    ["my", "our", "their", "season", "season's", "personal", "current", "times", "time", "are"];

/// Words and signs beside a distance and its time.
const BESIDE: [&str; 10] = ["in", "is", "for", "over", "of", "at", "=", "-", "–", "runs"];

/// The most words of a distance and its time: `1 mile 4:40.2 s`.
const MOST_WORDS: usize = 4;

/// How fast somebody races, in metres per second: what is slower or faster is no distance and its time.
const SPEEDS_M_S: RangeInclusive<f64> = 1.5..=12.5;

/// Distances that most races have, in metres.
const RACES_M: [f64; 8] = [100.0, 200.0, 400.0, 800.0, 1500.0, 3000.0, 5000.0, 10_000.0];

/// The speed that few of a club race at over any distance, in metres per second.
const LIKELY_M_S: f64 = 8.6;

/// What a line says of best times.
pub(crate) enum BestLine {
    /// Best times, and whose they are.
    Read(Vec<BestTime>),
    /// Something that is not understood, from this byte on.
    Unclear(usize),
}

impl BestLine {
    /// The names in it.
    pub(crate) fn names(&self) -> impl Iterator<Item = &String> {
        let times = match self {
            Self::Read(times) => times.as_slice(),
            Self::Unclear(_) => &[],
        };
        times.iter().filter_map(|best| best.name.as_ref())
    }
}

/// The distances in metres and times in seconds in words that say nothing else: `400 56`, `PB 11.9 for 100, 200 in 24.1`.
pub(crate) fn best_times(said: &str) -> Option<Vec<(f64, f64)>> {
    if !said.contains(|letter: char| letter.is_ascii_digit()) {
        return None;
    }
    let times: Option<Vec<_>> = parts(said).map(best_time).collect();
    times.filter(|times| !times.is_empty())
}

/// What stands between the signs of a list.
fn parts(said: &str) -> impl Iterator<Item = &str> {
    let parts = said.split([';', '&']).flat_map(|part| part.split(", "));
    parts.map(str::trim).filter(|part| !part.is_empty())
}

/// One of them.
fn best_time(said: &str) -> Option<(f64, f64)> {
    let is_beside = |word: &str| BESIDE.iter().chain(&BEST).any(|known| word.eq_ignore_ascii_case(known));
    let fields = said.split_whitespace().map(|word| word.trim_matches([':', ',', '(', ')', '.']));
    let fields: Vec<&str> = fields.filter(|word| !word.is_empty() && !is_beside(word)).collect();
    if fields.len() > MOST_WORDS {
        return None;
    }
    (1..fields.len()).find_map(|place| {
        let (first, second) = fields.split_at(place);
        let (first, second) = (first.join(" "), second.join(" "));
        distance_and_time(&first, &second).or_else(|| distance_and_time(&second, &first))
    })
}

/// The metres and seconds of a distance and a time, where somebody could race so.
fn distance_and_time(distance: &str, time: &str) -> Option<(f64, f64)> {
    let metres = metres(distance)?;
    let times = [seconds(time), minutes_and_seconds(time)];
    let is_race = |time_s: &f64| SPEEDS_M_S.contains(&(metres / time_s));
    times.into_iter().flatten().find(is_race).map(|time_s| (metres, time_s))
}

/// A distance that is all of some words, in metres.
fn metres(words: &str) -> Option<f64> {
    whole(words, |cursor| cursor.metres().map(|(metres, _)| metres))
}

/// A time that is all of some words, in seconds.
fn seconds(words: &str) -> Option<f64> {
    whole(words, |cursor| cursor.seconds("a time", "").ok().map(|seconds| seconds.value))
}

/// What is read of all of some words.
fn whole(words: &str, read: impl FnOnce(&mut Cursor<'_>) -> Option<f64>) -> Option<f64> {
    let lexed = Lexed::new(words, &FORMS);
    let mut cursor = Cursor::new(&lexed);
    read(&mut cursor).filter(|_| cursor.is_at_end() && cursor.problems.is_empty())
}

/// The longest race that somebody may run in a time, where words are one and nothing else: `11.9` over 100 m, `4:40` over
/// 1500 m.
pub(crate) fn likely_race(said: &str) -> Option<f64> {
    let time_s = seconds(said)?;
    RACES_M.into_iter().rev().find(|metres| metres / time_s <= LIKELY_M_S)
}

/// Reads a line that gives best times: `PBs: 400 56, 800 2:10`, `Bests: Ada 400 56, Ben 1500 4:12`; given the names of the
/// text.
pub(crate) fn best_line(line: &str, names: &[String]) -> Option<BestLine> {
    let words = words(line);
    let is_label =
        |word: &&Word<'_>| word.is_one(&BEST) || word.is_one(&WHOSE) || ["'", "’", "s"].contains(&word.text);
    let count = words.iter().take_while(is_label).count();
    let label = &words[..count];
    if !label.iter().any(|word| word.is_one(&BEST)) {
        return None;
    }
    let has_colon = words.get(count).is_some_and(|word| word.text == ":");
    let behind = words.get(count + usize::from(has_colon))?.range.start;
    let has_number = line[behind..].contains(|letter: char| letter.is_ascii_digit());
    match named_times(&line[behind..], names) {
        Some(times) => Some(BestLine::Read(times)),
        None => (has_colon && has_number).then_some(BestLine::Unclear(behind)),
    }
}

/// How many bytes a name has in front of a best time: words with capitals that are no distance.
fn name_in_front(part: &str) -> usize {
    let is_name = |word: &&Word<'_>| {
        word.text.starts_with(char::is_uppercase) && !word.is_one(&BEST) && metres(word.text).is_none()
    };
    let words = words(part);
    words.iter().take_while(is_name).take(people::MOST_WORDS).last().map_or(0, |word| word.range.end)
}

/// Best times, each behind the name of whose it is: those behind none are of the one named before.
fn named_times(said: &str, names: &[String]) -> Option<Vec<BestTime>> {
    let mut found = Vec::new();
    let mut whose: Option<String> = None;
    for part in parts(said) {
        let begins = |name: &&String| {
            let behind = part.strip_prefix(name.as_str());
            behind.is_some_and(|behind| !behind.starts_with(char::is_alphanumeric))
        };
        let known = names.iter().filter(begins).max_by_key(|name| name.len());
        let name = known.map_or_else(|| &part[..name_in_front(part)], String::as_str);
        let times = &part[name.len()..];
        whose = Some(name.trim().to_owned()).filter(|name| !name.is_empty()).or(whose);
        let times = best_times(times)?;
        found.extend(times.into_iter().map(|(metres, seconds)| BestTime {
            name: whose.clone(),
            metres,
            seconds,
        }));
    }
    (!found.is_empty()).then_some(found)
}

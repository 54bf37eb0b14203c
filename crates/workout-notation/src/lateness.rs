//! How much later than the others an athlete comes: `15 min late`, `from 6.45`, `joins at 7pm`.

use std::ops::Range;

use chrono::{NaiveTime, TimeDelta};

use crate::clock_time::{Phrase, Stands, phrase};
use crate::line_words::{self, Word};

/// How much later somebody comes, by the words behind the name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lateness {
    /// So many minutes behind the others.
    By(i64),
    /// At this time of day, and whether it is taken for the evening, which is not said.
    At(NaiveTime, bool),
}

/// An athlete who comes later, and where the text says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Late {
    pub(crate) name: String,
    pub(crate) lateness: Lateness,
    pub(crate) span: Range<usize>,
}

/// Words that say of somebody who comes nothing of when.
const IDLE: [&str; 28] = [
    "gets", "get", "turns", "up", "is", "will", "be", "s", "'", "’", "ll", "only", "here", "there", "about",
    "around", "tonight", "running", "join", "joins", "joining", "arrive", "arrives", "arriving", "us",
    "coming", "comes", "probably",
];

/// Words for one who comes later.
const LATE: [&str; 3] = ["late", "later", "behind"];

/// Words in front of a time of day.
const BEFORE: [&str; 4] = ["from", "at", "after", "by"];

/// Words for minutes.
const MINUTES: [&str; 5] = ["min", "mins", "minute", "minutes", "m"];

/// Nobody is later than this, in minutes.
const MOST_MINUTES: i64 = 180;

impl Lateness {
    /// Reads words that say when somebody comes, and nothing else.
    pub(crate) fn read(said: &str) -> Option<Self> {
        let said = said.trim_end_matches(['.', '!', ' ']);
        let all = line_words::words(said);
        let words: Vec<Word<'_>> = all.iter().filter(|word| !word.is_one(&IDLE)).cloned().collect();
        let is = |at: usize, asked: &[&str]| words.get(at).is_some_and(|word| word.is_one(asked));
        // `15 min late`, `late by 15 mins`
        let number = words.iter().position(Word::is_number)?;
        let has_late = words.iter().any(|word| word.is_one(&LATE));
        let is_idle = |word: &Word<'_>| word.is_one(&LATE) || word.is_one(&MINUTES) || word.is("by");
        if has_late
            && is(number + 1, &MINUTES)
            && words.iter().enumerate().all(|(at, word)| at == number || is_idle(word))
        {
            let minutes: i64 = words[number].text.parse().ok()?;
            return (1..=MOST_MINUTES).contains(&minutes).then_some(Self::By(minutes));
        }
        // `only 3` are runs, and no time of day.
        if words.len() == 1 && all.iter().any(|word| word.is_one(&["only", "just"])) {
            return None;
        }
        // `late, from 6.45`, `late 7pm`
        let before = words[..number].iter().all(|word| {
            word.is_one(&LATE) || word.is_one(&BEFORE) || [",", "-", "–", "@", "("].contains(&word.text)
        });
        // Behind `at` a time is no date.
        let at = format!("at {}", &said[words[number].range.start..]);
        let at = line_words::words(&at);
        let Phrase { begins, ends, is_unsure, words: count } = phrase(&at, Stands::BehindDay)?;
        let is_whole = at[count..].iter().all(|word| word.is_one(&LATE) || word.text == ")");
        let is_said = number > 0 || all.len() > words.len();
        (before && is_said && ends.is_none() && is_whole).then_some(Self::At(begins, is_unsure))
    }

    /// When somebody comes, given when the others begin; nothing where that is no later.
    pub(crate) fn of(self, begins: NaiveTime) -> Option<NaiveTime> {
        const HALF_A_DAY: TimeDelta = TimeDelta::hours(12);
        match self {
            Self::By(minutes) => {
                let (at, days) = begins.overflowing_add_signed(TimeDelta::minutes(minutes));
                (days == 0).then_some(at)
            }
            Self::At(at, is_unsure) => {
                // `Sat 9am`, `late 9.20`
                let in_the_morning = at.overflowing_sub_signed(HALF_A_DAY);
                match in_the_morning {
                    (earlier, 0) if is_unsure && earlier > begins => Some(earlier),
                    _ => Some(at).filter(|at| *at > begins),
                }
            }
        }
    }
}

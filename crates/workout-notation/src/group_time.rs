//! When a group begins, behind its name: `U11s at 6pm: 4 x 40`, `Seniors 19:00`, `Sprinters (Ada, Ben) from 6.30`.

use std::ops::Range;

use chrono::NaiveTime;

use crate::clock_time::{Phrase, Stands, is_end, phrase, time};
use crate::day::has_run;
use crate::line_words::{Word, words};
use crate::people::is_group_name;
use crate::roster::{has_count, named_group};

/// The most words and signs in front of a time.
const MOST_IN_FRONT: usize = 60;

/// When a group begins, and ends, by the line that names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct GroupTime {
    pub(crate) begins: NaiveTime,
    pub(crate) ends: Option<NaiveTime>,
    /// Whether a group is named, and not only what is done then.
    pub(crate) is_of_group: bool,
    /// Whether both are taken for the evening, which is not said.
    pub(crate) is_unsure: bool,
    /// Where that stands in the line, in bytes.
    pub(crate) range: Range<usize>,
}

impl GroupTime {
    /// When the group begins that a line names, where that stands right behind its name.
    pub(crate) fn of(line: &str) -> Option<Self> {
        let words = words(line);
        if let Some(found) = Self::in_front(line, &words) {
            return Some(found);
        }
        let in_front = 1..words.len().min(MOST_IN_FRONT);
        let begins_time = |at: &usize| words[*at].is_number() || words[*at].is_one(&BEFORE);
        for from in in_front.filter(begins_time) {
            let opens = ["(", "-", "–", "@", ","].contains(&words[from - 1].text);
            let is_in_brackets = words[from - 1].text == "(";
            let start = from - usize::from(opens);
            let name = line[..words[start].range.start].trim().trim_start_matches(['-', '*', '•', ' ']);
            // `Mids - Ada, Ben (leaves at 7.30)`
            if name.matches('(').count() != name.matches(')').count() {
                continue;
            }
            let is_plain = !name.contains(['(', ',', ';', ':']) && !has_count(name) && is_group_name(name);
            let is_of_group = is_plain || named_group(name, true).is_some();
            // `Time trial 7.30pm: 3000`
            let is_label = || {
                let words = name.split_whitespace().count();
                (1..=MOST_OF_LABEL).contains(&words) && !name.contains([',', ';', ':']) && !has_count(name)
            };
            if !is_of_group && !is_label() {
                continue;
            }
            let is_colon = |at: usize| {
                words[at].text == ":"
                    && words.get(at + 1).is_none_or(|next| next.range.start > words[at].range.end)
            };
            let ends_time = |at: &usize| is_end(&words, *at) || is_colon(*at);
            let to = (from..words.len()).find(ends_time).unwrap_or(words.len());
            let Some(said) = phrase(&words[from..to], Stands::BehindDay) else { continue };
            let Phrase { begins, ends, is_unsure, words: count } = said;
            if from + count != to || is_in_brackets && words.get(to).is_none_or(|end| end.text != ")") {
                continue;
            }
            // Alone in its line it is when the session begins.
            let goes_on = || {
                let sign = words.get(to).filter(|sign| [":", "-", "–", "—"].contains(&sign.text));
                sign.is_some_and(|sign| has_run(&line[sign.range.end..]))
            };
            if !is_of_group && !goes_on() {
                continue;
            }
            let last = if is_in_brackets { to } else { to - 1 };
            let range = words[start].range.start..words[last].range.end;
            return Some(Self { begins, ends, is_of_group, is_unsure, range });
        }
        None
    }
}

impl GroupTime {
    /// `18h20 sprinters: 6 x 50m`, `6.45 Seniors (Ada, Ben)`: a time in front of a group.
    fn in_front(line: &str, words: &[Word<'_>]) -> Option<Self> {
        let (written, next) = time(words, 0).filter(|(written, _)| written.is_sure())?;
        let name = line.get(words.get(next)?.range.start..)?;
        // `6.45 Seniors` alone in its line.
        let end = name.find([':', '(']).unwrap_or(name.len());
        if !is_group_name(name[..end].trim()) {
            return None;
        }
        if name[..end].contains([';', ',', '-']) || words.get(next)?.is_one(&BEFORE) {
            return None;
        }
        let is_group = !has_count(&name[..end]);
        let phrase = phrase(&words[..next], Stands::BehindDay)
            .filter(|_| is_group && (written.half.is_some() || written.is_no_date()))?;
        let Phrase { begins, ends, is_unsure, .. } = phrase;
        let range = words[0].range.start..words[next].range.start;
        Some(Self { begins, ends, is_of_group: true, is_unsure, range })
    }
}

/// The most words of what is done at a time.
const MOST_OF_LABEL: usize = 4;

/// Words in front of a time.
const BEFORE: [&str; 7] = ["at", "from", "start", "starts", "starting", "half", "quarter"];

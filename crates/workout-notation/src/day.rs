//! What a text says of the day and not of the runs: lanes that are closed, and when it begins.

use std::borrow::Cow;
use std::ops::Range;

use chrono::NaiveTime;
use lane_distance::LaneNumber;

use crate::attendance::is_attendance;
use crate::best_time::best_line;
use crate::block_break::block_break;
use crate::bold::Bold;
use crate::clock_time::{Said, clock_times, start_line, time_in_front};
use crate::closing_time::closing_time;
use crate::closure::{Closure, closures};
use crate::forms::FORMS;
use crate::group_time::GroupTime;
use crate::lanes_of_day::{lanes_of_all, lanes_of_groups};
use crate::line_words::{Word, words};
use crate::people::is_group_name;
use crate::problem::Problem;
use crate::roster::named_group;
use crate::token::Lexed;
use crate::vocabulary::Role;
use crate::watches::{Watches, watches};
use crate::workout::LaneClosure;

/// What a text says of the day.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Day {
    /// Lanes that nobody can run in, from the inside.
    pub(crate) closed_lanes: Vec<LaneNumber>,
    /// The lanes that everybody has, where it gives them some.
    pub(crate) lanes: Vec<LaneNumber>,
    /// The lanes of groups, by names that need not be written as those are.
    pub(crate) group_lanes: Vec<(String, Vec<LaneNumber>)>,
    /// Lanes in which nobody can run for a part of it.
    pub(crate) closures: Vec<LaneClosure>,
    /// When it begins.
    pub(crate) begins: Option<NaiveTime>,
    /// When it ends.
    pub(crate) ends: Option<NaiveTime>,
    /// The break between two blocks, in seconds.
    pub(crate) between_blocks_s: Option<f64>,
    /// How many people time.
    pub(crate) watches: Option<Watches>,
    /// When blocks are to begin, each with the byte of the text behind that.
    pub(crate) blocks: Vec<(usize, NaiveTime)>,
    /// When groups begin, and end where that is said, each with the byte of the text at which it stands.
    pub(crate) groups: Vec<(usize, NaiveTime, Option<NaiveTime>)>,
    /// Whether they are taken for the evening, which is not said.
    pub(crate) is_unsure: bool,
    /// What it says and cannot be planned.
    pub(crate) problems: Vec<Problem>,
}

impl Day {
    /// Begins with the first of its groups.
    fn begin_with_groups(&mut self) {
        let first = self.groups.iter().map(|(_, begins, _)| *begins).min();
        self.begins = self.begins.into_iter().chain(first).min();
    }
}

/// Whether a line begins with the name of a group.
fn names_group(line: &str) -> bool {
    is_group_name(line.split([':', '(']).next().unwrap_or(line).trim())
}

/// Words in front of what is said of the day alone in a line.
const REMINDERS: [&str; 7] = ["note", "nb", "reminder", "remember", "please", "and", "but"];

/// Takes what a text says of the day out of it: spaces stand in its place, so that every other word stays where it was.
/// Given whether any of its words may say that lanes are closed, and the names of athletes.
pub(crate) fn take<'a>(text: &'a str, may_close: bool, names: &[String]) -> (Cow<'a, str>, Day) {
    let mut day = Day::default();
    let mut said = Vec::new();
    let (mut start, mut head) = (0, 0);
    let mut colons = Vec::new();
    let mut is_head = true;
    let mut for_a_part = Vec::new();
    for line in text.split_inclusive('\n') {
        is_head = is_head && !has_run(line);
        let closures = if may_close { closures(&Lexed::new(line, &FORMS)) } else { Vec::new() };
        let ranges: Vec<Range<usize>> = closures.iter().map(|closure| closure.range.clone()).collect();
        for Closure { lanes, range, hours } in closures {
            let span = start + range.start..start + range.end;
            said.push(span.clone());
            match hours {
                Some(hours) => for_a_part.push((lanes, hours, span)),
                None => day.closed_lanes.extend(lanes),
            }
        }
        if let Some(seconds) = block_break(line) {
            day.between_blocks_s = Some(seconds);
            said.push(start..start + line.trim_end().len());
            start += line.len();
            continue;
        }
        // Their times begin no session.
        let line = if ranges.is_empty() { Cow::Borrowed(line) } else { blanked(line, &ranges).into() };
        let line = line.as_ref();
        // `Sprints (Ada, Ben from 7pm)`, `Ben late 7pm`
        let is_of_somebody =
            best_line(line.trim(), names).is_some() || !names.is_empty() && is_attendance(line.trim(), names);
        let is_of_one = is_of_somebody || !names.is_empty() && named_group(line.trim(), true).is_some();
        if let Some(Bold { signs, colon }) = Bold::of(line) {
            said.extend(signs.into_iter().map(|at| start + at..start + at + 1));
            colons.extend(colon.map(|at| start + at));
        }
        if is_head && let Some(groups) = lanes_of_groups(line) {
            day.group_lanes.extend(groups);
            said.push(start..start + line.trim_end().len());
        } else if is_head
            && !is_of_one
            && let Some((lanes, range)) = lanes_of_all(line).filter(|_| day.lanes.is_empty())
        {
            day.lanes = lanes;
            said.push(start + range.start..start + range.end);
        }
        if let Some((begins, is_unsure, range)) =
            time_in_front(line).filter(|(.., range)| has_more(&line[range.end..]))
        {
            said.push(start + range.start..start + range.end);
            if day.begins.is_none() && day.groups.is_empty() {
                (day.begins, day.is_unsure) = (Some(begins), is_unsure);
            } else if names_group(&line[range.end..]) {
                // `6.45 - Seniors`
                day.groups.push((start + range.start, begins, None));
            } else {
                day.blocks.push((start + range.end, begins));
            }
        }
        let of_group = GroupTime::of(line.trim_end()).filter(|_| !is_of_somebody);
        let alone = if day.begins.is_none() && day.groups.is_empty() && line.trim() != text.trim() {
            start_line(line)
        } else {
            None
        };
        if let Some(Said { begins, ends, range: Some(range), is_unsure }) = alone {
            (day.begins, day.ends, day.is_unsure) = (Some(begins), ends, is_unsure);
            said.push(start + range.start..start + range.end);
            start += line.len();
            continue;
        }
        if let Some(GroupTime { begins, is_of_group: false, is_unsure, range, .. }) = of_group {
            if day.begins.is_none() && day.groups.is_empty() {
                (day.begins, day.is_unsure) = (Some(begins), is_unsure);
            } else {
                day.blocks.push((start, begins));
            }
            said.push(start + range.start..start + range.end);
        } else if let Some(GroupTime { begins, ends, is_unsure, range, .. }) = of_group {
            day.groups.push((start + range.start, begins, ends));
            // Behind a time that is sure, another of the same evening is.
            day.is_unsure |= is_unsure && day.begins.is_none();
            said.push(start + range.start..start + range.end);
        } else if is_head && !is_of_one {
            // A number in the only line is what is run.
            let is_only = |range: &Range<usize>| line[range.clone()].trim() == text.trim();
            let time = clock_times(line).filter(|time| !time.range.as_ref().is_some_and(is_only));
            if let Some(time) = time.filter(|_| day.begins.is_none()) {
                (day.begins, day.ends) = (Some(time.begins), time.ends);
                day.is_unsure = time.is_unsure;
                said.extend(time.range.map(|range| start + range.start..start + range.end));
            }
            head = start + line.len();
            if let Some((watches, range)) = watches(line).filter(|_| day.watches.is_none()) {
                day.watches = Some(watches);
                said.push(start + range.start..start + range.end);
            }
        }
        start += line.len();
    }
    day.begin_with_groups();
    for (lanes, hours, span) in for_a_part {
        match hours.of_day(day.begins) {
            Ok((from, until)) => day.closures.push(LaneClosure { lanes, from, until }),
            Err((message, help)) => day.problems.push(Problem::new(span, message).with_help(help)),
        }
    }
    if let Some(begins) = day.begins {
        let mut start = 0;
        for line in text.split_inclusive('\n') {
            // Below the runs it stands in a line of its own.
            let is_alone =
                |range: &Range<usize>| line[range.clone()].trim() == line.trim().trim_end_matches('.');
            let closes = closing_time(line, begins).filter(|(_, range)| start < head || is_alone(range));
            if let Some((ends, range)) = closes {
                day.ends = Some(day.ends.map_or(ends, |known| known.min(ends)));
                said.push(start + range.start..start + range.end);
            }
            start += line.len();
        }
    }
    // It ends with the last of its groups, unless it says otherwise.
    day.ends = day.ends.or(day.groups.iter().filter_map(|(.., ends)| *ends).max());
    day.closed_lanes.sort_unstable();
    day.closed_lanes.dedup();
    if said.is_empty() {
        return (Cow::Borrowed(text), day);
    }
    let mut blank = blanked(text, &said);
    for at in colons {
        blank.replace_range(at..=at, ":");
    }
    (Cow::Owned(blank), day)
}

/// What is wrong with a block that says that lanes are closed: it would be run in those lanes.
pub(crate) fn closure_in_block(lexed: &Lexed<'_>) -> Option<Problem> {
    if !lexed.roles.has(Role::CLOSES) {
        return None;
    }
    let Closure { range, lanes, .. } = closures(lexed).into_iter().next()?;
    let text = lexed.text;
    let lanes: Vec<String> = lanes.iter().map(ToString::to_string).collect();
    let lanes = lanes.join(",");
    let said = text[range.clone()].trim_matches(|letter: char| !letter.is_alphanumeric());
    let message = format!("`{said}` is about the whole session, and this is one block of it");
    let help = format!("use `--closed {lanes}`, or write `closed_lanes: [{lanes}]` in the session file");
    Some(Problem::new(range, message).with_help(help))
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

/// Whether something is said behind a time.
fn has_more(behind: &str) -> bool {
    behind.contains(char::is_alphanumeric)
}

/// Whether a line has a run: a number with a cross or a unit of length.
pub(crate) fn has_run(line: &str) -> bool {
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

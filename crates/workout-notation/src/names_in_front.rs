//! Who runs, in front of what they do and without brackets.

use std::ops::Range;

use crate::cursor::Cursor;
use crate::forms::FORMS;
use crate::heading_words::names_day;
use crate::hurdles_race::hurdles_race_m;
use crate::people::{is_event, is_group_name};
use crate::roster::{FEWEST, Roster, has_count, is_known, is_sign, may_be_group};
use crate::token::Lexed;

/// Signs that part a group from its athletes, and those from what they do.
const SIGNS: [&str; 5] = [": ", " - ", " – ", " — ", ":"];

/// The most bytes within which names stand, and begin what they do.
const LONGEST: usize = 2000;

/// A group, or athletes alone, in front of what they do, without brackets.
pub(crate) struct NamesInFront<'a> {
    /// What the group is called; athletes alone are called by their names.
    pub(crate) group: &'a str,
    pub(crate) roster: Roster,
    /// How many bytes the names end behind, and what they do begins at.
    pub(crate) ends: usize,
    pub(crate) next: usize,
}

/// `Sprints - Ada, Ben: 4 x 60`, `Sprints: Ada, Ben - 4 x 60`, `Ada, Ben: 4 x 60`.
pub(crate) fn names_in_front(text: &str) -> Option<NamesInFront<'_>> {
    // A line is looked at from each of its words on.
    let text = &text[..text.floor_char_boundary(LONGEST)];
    let sign_from = |from: usize| {
        let found = SIGNS.iter().filter_map(|sign| Some((from + text[from..].find(sign)?, sign.len())));
        found.min_by_key(|(at, length)| (*at, usize::MAX - length))
    };
    let (first, length) = sign_from(0)?;
    let behind = first + length;
    let names_at = |range: Range<usize>| names_alone(text.get(range)?, FEWEST);
    let does = |from: usize| does_runs(text.get(from..).unwrap_or_default());
    let group = text[..first].trim();
    if let Some(roster) = names_at(0..first).filter(|_| does(behind)) {
        return Some(NamesInFront { group, roster, ends: first, next: behind });
    }
    let is_called = is_group_name(group) && !has_count(group) || is_sign(group) || is_event(group);
    if !is_called && !may_be_group(group) {
        return None;
    }
    let (second, length) = sign_from(behind)?;
    // `400H: Yara - 3 x 200 over 5 hurdles`
    let fewest = if hurdles_race_m(group).is_some() { 1 } else { FEWEST };
    let roster = names_alone(text.get(behind..second)?, fewest).filter(|_| does(second + length))?;
    Some(NamesInFront { group, roster, ends: second, next: second + length })
}

impl NamesInFront<'_> {
    /// Whether they are athletes of no group.
    pub(crate) fn are_alone(&self) -> bool {
        self.roster.names().next().is_some_and(|first| self.group.starts_with(first.as_str()))
    }
}

/// `Ada: 4 x 60`: one athlete, where others are named in front of what they do.
pub(crate) fn one_in_front(text: &str) -> Option<NamesInFront<'_>> {
    let text = &text[..text.floor_char_boundary(LONGEST)];
    let ends = text.find(':')?;
    let group = text[..ends].trim();
    let roster = names_alone(group, 1).filter(|_| does_runs(&text[ends + 1..]))?;
    Some(NamesInFront { group, roster, ends, next: ends + 1 })
}

/// Names of athletes and nothing else.
pub(crate) fn names_alone(names: &str, fewest: usize) -> Option<Roster> {
    let names = names.trim();
    let roster = Roster::read(names, fewest).filter(|roster| roster.remarks.is_empty())?;
    let are_names = !roster.names().any(|name| is_known(name)) && !names_day(names);
    (are_names && !has_digit_outside_brackets(names)).then_some(roster)
}

/// `Niamh (T11, runs with guide Rob)` has none.
fn has_digit_outside_brackets(text: &str) -> bool {
    let mut depth = 0_u32;
    text.chars().any(|letter| {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        depth == 0 && letter.is_ascii_digit()
    })
}

/// Whether a text begins with what is run.
fn does_runs(text: &str) -> bool {
    let lexed = Lexed::new(text, &FORMS);
    let cursor = Cursor::new(&lexed);
    (0..MOST_IN_FRONT).any(|ahead| cursor.is_counted_item(ahead)) || cursor.metres_tokens(0).is_some()
}

/// How far ahead what athletes do is looked for, in tokens.
const MOST_IN_FRONT: usize = 6;

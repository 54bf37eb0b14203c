//! Who runs, in front of what they do and without brackets.

use std::ops::Range;

use crate::cursor::Cursor;
use crate::forms::FORMS;
use crate::heading_words::names_day;
use crate::people::{is_event, is_group_name};
use crate::roster::{FEWEST, Roster, has_count, is_known, is_sign};
use crate::token::Lexed;

/// Signs that part a group from its athletes, and those from what they do.
const SIGNS: [&str; 5] = [": ", " - ", " – ", " — ", ":"];

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
    let sign_from = |from: usize| {
        let found = SIGNS.iter().filter_map(|sign| Some((from + text[from..].find(sign)?, sign.len())));
        found.min_by_key(|(at, length)| (*at, usize::MAX - length))
    };
    let (first, length) = sign_from(0)?;
    let behind = first + length;
    let names_at = |range: Range<usize>| {
        let names = text.get(range)?.trim();
        let roster = Roster::read(names, FEWEST).filter(|roster| roster.remarks.is_empty())?;
        let are_names = !roster.names().any(|name| is_known(name)) && !names_day(names);
        (are_names && !names.contains(|letter: char| letter.is_ascii_digit())).then_some(roster)
    };
    let does = |from: usize| {
        let lexed = Lexed::new(text.get(from..).unwrap_or_default(), &FORMS);
        let cursor = Cursor::new(&lexed);
        (0..MOST_IN_FRONT).any(|ahead| cursor.is_counted_item(ahead)) || cursor.metres_tokens(0).is_some()
    };
    let group = text[..first].trim();
    if let Some(roster) = names_at(0..first).filter(|_| does(behind)) {
        return Some(NamesInFront { group, roster, ends: first, next: behind });
    }
    if !(is_group_name(group) && !has_count(group) || is_sign(group) || is_event(group)) {
        return None;
    }
    let (second, length) = sign_from(behind)?;
    let roster = names_at(behind..second).filter(|_| does(second + length))?;
    Some(NamesInFront { group, roster, ends: second, next: second + length })
}

/// How far ahead what athletes do is looked for, in tokens.
const MOST_IN_FRONT: usize = 6;

//! The lanes that a text gives everybody, or several groups in one line: `we have lanes 5 to 8`, `sprints in 5-8, distance in 1-2`.

use std::ops::Range;

use lane_distance::LaneNumber;

use crate::forms::lanes::LANE_NAMES;
use crate::line_words::{Word, words};
use crate::people::is_group_name;

/// Words in front of lanes that give them to everybody.
const VERBS: [&str; 9] = ["have", "ve", "got", "use", "using", "only", "just", "book", "booked"];

/// Words in front of lanes that change nothing.
const IN_FRONT: [&str; 12] = ["we", "'", "’", "are", "please", "you", "can", "will", "be", "the", "in", "on"];

/// Words behind lanes that change nothing.
const BEHIND: [&str; 17] = [
    "only",
    "ours",
    "tonight",
    "today",
    "to",
    "us",
    "for",
    "ourselves",
    "everyone",
    "everybody",
    "all",
    "please",
    "this",
    "week",
    "are",
    "is",
    "here",
];

/// Words that say of lanes that they can be run in.
const OPEN: [&str; 4] = ["open", "free", "available", "usable"];

/// Signs that part what is said of lanes from the rest of a line.
const PARTS: [&str; 11] = [",", ";", ".", "!", "-", "–", "—", "(", ")", "|", ":"];

/// The lanes that a part of a line gives everybody, and where that stands, with the sign in front of it.
pub(crate) fn lanes_of_all(line: &str) -> Option<(Vec<LaneNumber>, Range<usize>)> {
    let words = words(line);
    let is_part = |at: usize| words.get(at).is_none_or(|word| PARTS.contains(&word.text));
    let starts = (0..words.len()).filter(|&at| at == 0 || is_part(at - 1));
    for first in starts {
        let Some((lanes, end)) = given(&words, first).filter(|(_, end)| is_part(*end)) else { continue };
        let in_front = words.get(..first).and_then(|words| words.last());
        // `Sprints - lanes 5-8`
        if in_front.is_some_and(|sign| is_group_name(line[..sign.range.start].trim())) {
            return None;
        }
        let is_closed = in_front.is_some_and(|sign| sign.text == "(") && end < words.len();
        let start = in_front.map_or(words[first].range.start, |sign| sign.range.start);
        let end = if is_closed || first == 0 && end < words.len() { end } else { end - 1 };
        return Some((lanes, start..words[end].range.end));
    }
    None
}

/// The lanes that words from a place on give everybody, and the place behind them.
fn given(words: &[Word<'_>], first: usize) -> Option<(Vec<LaneNumber>, usize)> {
    let in_front =
        words[first..].iter().take_while(|word| word.is_one(&VERBS) || word.is_one(&IN_FRONT)).count();
    let gives = words[first..first + in_front].iter().any(|word| word.is_one(&VERBS));
    let at = first + in_front;
    let is_called = words.get(at).is_some_and(|word| word.is_one(&LANE_NAMES));
    let (lanes, at) = list(words, at + usize::from(is_called))?;
    let is_one = lanes.len() == 1;
    let behind =
        words[at..].iter().take_while(|word| word.is_one(&BEHIND) || !is_one && word.is_one(&OPEN)).count();
    (is_called || gives && !is_one).then_some((lanes, at + behind))
}

/// Lanes in words from a place on, and the place behind them.
fn list(words: &[Word<'_>], first: usize) -> Option<(Vec<LaneNumber>, usize)> {
    let lane = |at: usize| words.get(at)?.text.parse().ok().and_then(LaneNumber::new);
    let is = |at: usize, some: &[&str]| words.get(at).is_some_and(|word| word.is_one(some));
    let mut lanes = Vec::new();
    let mut at = first;
    loop {
        let from = lane(at)?;
        let to = if is(at + 1, &["-", "–", "to"]) { lane(at + 2) } else { None };
        at += if to.is_some() { 3 } else { 1 };
        let range = from..=to.unwrap_or(from);
        lanes.extend(LaneNumber::ALL.into_iter().filter(|lane| range.contains(lane)));
        let joint = usize::from(is(at, &[",", "&", "+", "and", "or"]));
        let next = at + joint + usize::from(joint > 0 && is(at + joint, &LANE_NAMES));
        if joint == 0 || lane(next).is_none() {
            break;
        }
        at = next;
    }
    lanes.sort_unstable();
    lanes.dedup();
    (!lanes.is_empty()).then_some((lanes, at))
}

/// The lanes of each of several groups, where a line says them and nothing else.
pub(crate) fn lanes_of_groups(line: &str) -> Option<Vec<(String, Vec<LaneNumber>)>> {
    let words = words(line.trim_end().trim_end_matches('.'));
    let mut groups = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let is_lanes = |word: &Word<'_>| word.is("in") || word.is_one(&LANE_NAMES) || word.is_number();
        let end = at + words[at..].iter().position(is_lanes)?;
        let name = words.get(end.checked_sub(1)?).filter(|_| end > at)?;
        let name = line[words[at].range.start..name.range.end].trim();
        let in_front =
            words[end..].iter().take_while(|word| word.is("in") || word.is_one(&LANE_NAMES)).count();
        let (lanes, behind) = list(&words, end + in_front).filter(|_| in_front > 0 && is_group_name(name))?;
        groups.push((name.to_owned(), lanes));
        let joints = words[behind..].iter().take_while(|word| word.is_one(&[",", ";", "and", "."])).count();
        at = behind + joints;
        if joints == 0 && at < words.len() {
            return None;
        }
    }
    (groups.len() > 1).then_some(groups)
}

#[cfg(test)]
mod tests {
    use super::{lanes_of_all, lanes_of_groups};

    fn numbers(lanes: &[lane_distance::LaneNumber]) -> Vec<u8> {
        lanes.iter().map(|lane| lane.get()).collect()
    }

    #[test]
    fn a_line_says_which_lanes_everybody_has() {
        for (line, lanes, left) in [
            ("we have lanes 5 to 8", vec![5, 6, 7, 8], ""),
            ("use 3 and 4", vec![3, 4], ""),
            ("Tuesday, lanes 5-8", vec![5, 6, 7, 8], "Tuesday"),
            ("Tuesday (only lanes 3, 4 and lane 6 tonight) Wrenbeck", vec![3, 4, 6], "Tuesday  Wrenbeck"),
            ("Lanes 3-5 are free, Wrenbeck", vec![3, 4, 5], " Wrenbeck"),
            ("We've got lanes 2+3 for us.", vec![2, 3], ""),
            ("Only lane 3 and 4 tonight!", vec![3, 4], ""),
        ] {
            let (found, range) = lanes_of_all(line).expect(line);
            assert_eq!(numbers(&found), lanes, "{line}");
            let rest = format!("{}{}", &line[..range.start], &line[range.end..]);
            assert_eq!(rest, left, "{line}");
        }
        for line in [
            "Lane 1 is open",
            "use 3",
            "Sprints - lanes 5-8",
            "4 x 200 in lane 3",
            "Tuesday lanes",
            "we have 3 coaches",
            "lane 3 from 7",
        ] {
            assert_eq!(lanes_of_all(line), None, "{line}");
        }
    }

    #[test]
    fn a_line_says_which_lanes_groups_have() {
        let found = lanes_of_groups("sprints in lanes 5-8, distance in 1-2").expect("they are groups");
        let found: Vec<(String, Vec<u8>)> =
            found.into_iter().map(|(name, lanes)| (name, numbers(&lanes))).collect();
        assert_eq!(found, [("sprints".to_owned(), vec![5, 6, 7, 8]), ("distance".to_owned(), vec![1, 2])]);
        for line in ["Sprints in lanes 5-8", "sprints 4 x 60, distance in 1-2", "Tuesday in 5, Sprints in 4"]
        {
            assert_eq!(lanes_of_groups(line), None, "{line}");
        }
    }
}

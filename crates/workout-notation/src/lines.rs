//! The lines of a text.

use crate::cursor::Cursor;
use crate::forms::FORMS;
use crate::group_label::{GroupLabel, group_label};
use crate::group_lanes::without_lanes;
use crate::heading::Above;
use crate::heading_words::is_title;
use crate::names_in_front::{NamesInFront, names_alone, names_in_front, one_in_front};
use crate::people::is_group_name;
use crate::piece::trimmed;
use crate::roster::{FEWEST, Roster, has_rosters, is_sign, may_be_group, named_group};
use crate::token::{Lexed, Token};

/// How many tokens of a line are looked at for its runs.
const MOST_LOOKED_AT: usize = 40;

/// A line of a text without its bullet.
pub(crate) struct Line<'a> {
    pub(crate) lexed: Lexed<'a>,
    /// Where it begins in the whole text, in bytes.
    pub(crate) start: usize,
    pub(crate) is_bullet: bool,
    /// Whether an empty line stands above it.
    pub(crate) is_behind_blank: bool,
    /// The athletes of a group that the line names, where they stand in the line below it.
    below: Option<Roster>,
    /// Whether the text has groups whose athletes are named.
    has_rosters: bool,
    /// Whether athletes of no group are named in front of what they do.
    has_names_in_front: bool,
    /// Whether a group whose athletes are named has a letter for its name.
    has_letter_group: bool,
}

impl Line<'_> {
    /// What stands in front of the first sign that ends a label or a part of a line.
    pub(crate) fn first_words(&self) -> &str {
        self.lexed.text.split([':', ';', ',', '.', '-', '(']).next().unwrap_or_default()
    }

    /// The name of a group in front of what it does. In front of everything a line with words of a title is one, unless it
    /// has runs.
    pub(crate) fn group_label(&self, is_first: bool) -> Option<GroupLabel> {
        let is_label = |label: &GroupLabel| self.behind(label.end).has_runs() || !is_title(self.lexed.text);
        let label = group_label(&self.lexed, 0).or_else(|| self.label_of_one()).or_else(|| self.letter());
        label.filter(|label| !is_first || is_label(label))
    }

    /// One athlete in front of what that one does, in a text in which others are named so.
    fn label_of_one(&self) -> Option<GroupLabel> {
        let found = self.has_names_in_front.then(|| one_in_front(self.lexed.text)).flatten()?;
        let NamesInFront { group, roster, ends, next } = found;
        Some(GroupLabel { group: Some(group.to_owned()), roster, span: 0..ends, end: next })
    }

    /// `B: 4 x 200`, in a text in which another group is called so.
    fn letter(&self) -> Option<GroupLabel> {
        let name = self.lexed.text.split(':').next().filter(|name| self.has_letter_group && is_sign(name))?;
        let end = self.lexed.tokens.get(2).filter(|_| self.has_runs())?.span.start;
        Some(GroupLabel { group: Some(name.to_owned()), roster: Roster::default(), span: 0..name.len(), end })
    }

    /// The name of a group and who is in it, where the line is that and nothing else.
    pub(crate) fn named_group(&self) -> Option<(&str, Roster)> {
        match &self.below {
            Some(roster) => Some((self.lexed.text.trim_end_matches(':').trim(), roster.clone())),
            None => named_group(self.lexed.text, self.has_rosters),
        }
    }

    /// `Sprints in lanes 5-8`: a group with its lanes and nothing else.
    pub(crate) fn group_with_lanes(&self) -> Option<(String, Roster)> {
        let (group, lanes) = without_lanes(self.lexed.text.trim_end_matches(':').trim());
        let is_group = !lanes.is_empty() && is_group_name(group);
        is_group.then(|| (group.to_owned(), Roster { lanes, ..Roster::default() }))
    }

    /// The line from one of its bytes on.
    pub(crate) fn behind(&self, start: usize) -> Line<'_> {
        let range = trimmed(self.lexed.text, start..self.lexed.text.len());
        Line {
            start: self.start + range.start,
            lexed: self.lexed.part(range),
            is_bullet: self.is_bullet,
            is_behind_blank: self.is_behind_blank,
            below: None,
            has_rosters: self.has_rosters,
            has_names_in_front: self.has_names_in_front,
            has_letter_group: self.has_letter_group,
        }
    }

    /// `then 2 x 300`, below what a group does: it is the same group's.
    pub(crate) fn begins_with_then(&self) -> bool {
        Cursor::new(&self.lexed).is_word(0, &["then", "followed", "plus"])
    }

    fn begins_with_word(&self) -> bool {
        self.lexed.tokens.first().is_some_and(Token::is_word)
    }

    /// Whether runs stand in it: something that is counted, or a distance that stands first.
    pub(crate) fn has_runs(&self) -> bool {
        let cursor = Cursor::new(&self.lexed);
        cursor.metres_tokens(0).is_some()
            || (0..self.lexed.tokens.len().min(MOST_LOOKED_AT)).any(|ahead| cursor.is_counted_item(ahead))
    }
}

/// The lines of a text that are not empty, without their bullets.
pub(crate) fn lines(text: &str) -> Vec<Line<'_>> {
    let mut lines = Vec::with_capacity(text.split('\n').count());
    let (mut start, mut is_behind_blank) = (0, false);
    for line in text.split_inclusive('\n') {
        let range = trimmed(text, start..start + line.len());
        start += line.len();
        if range.is_empty() {
            is_behind_blank = true;
            continue;
        }
        let bullet = bullet(&text[range.clone()]);
        let inner = trimmed(text, range.start + bullet..range.end);
        if !inner.is_empty() {
            let lexed = Lexed::new(&text[inner.clone()], &FORMS);
            let is_bullet = bullet > 0;
            lines.push(Line {
                lexed,
                start: inner.start,
                is_bullet,
                is_behind_blank,
                below: None,
                has_rosters: false,
                has_names_in_front: false,
                has_letter_group: false,
            });
            is_behind_blank = false;
        }
    }
    take_names_below(&mut lines);
    let names_in_brackets = |line: &Line<'_>| {
        let label = line.lexed.text.contains('(').then(|| group_label(&line.lexed, 0));
        label.flatten().is_some_and(|label| !label.roster.is_empty())
    };
    if has_rosters(lines.iter().map(|line| line.lexed.text))
        || lines.iter().any(|line| line.below.is_some())
        || lines.iter().any(names_in_brackets)
    {
        lines.iter_mut().for_each(|line| line.has_rosters = true);
    }
    let has_names_in_front =
        |line: &Line<'_>| names_in_front(line.lexed.text).is_some_and(|found| found.are_alone());
    if lines.iter().any(has_names_in_front) {
        lines.iter_mut().for_each(|line| line.has_names_in_front = true);
    }
    let has_letter = |line: &Line<'_>| {
        let is_letter = |group: &str, roster: &Roster| is_sign(group) && !roster.is_empty();
        line.named_group().is_some_and(|(group, roster)| is_letter(group, &roster))
            || group_label(&line.lexed, 0)
                .is_some_and(|label| label.group.is_some_and(|group| is_letter(&group, &label.roster)))
    };
    if lines.iter().any(has_letter) {
        lines.iter_mut().for_each(|line| line.has_letter_group = true);
    }
    lines
}

/// The most names one a line below a group.
const MOST_BELOW: usize = 500;

/// Takes lines of nothing but names into the line above them where that names a group: `SPRINTERS` above `Ada, Ben, Cy`.
fn take_names_below(lines: &mut Vec<Line<'_>>) {
    // What each line names alone, so that none is read again for each line above it.
    let mut alone: Vec<Option<Roster>> = lines.iter().map(name_alone).collect();
    let mut at = 0;
    while at + 2 < lines.len() {
        let (above, names) = (&lines[at], &lines[at + 1]);
        let group = above.lexed.text.trim_end_matches(':').trim();
        let is_group = is_group_name(group)
            || may_be_group(group)
                && names_alone(group, 1).is_some()
                && group.split_whitespace().count() == 1;
        let is_above = is_group
            && !above.is_bullet
            && !names.is_bullet
            && !names.is_behind_blank
            && !above.has_runs()
            && lines[at + 2].has_runs();
        let roster = is_above.then(|| names_alone(names.lexed.text, FEWEST)).flatten();
        if roster.is_some() {
            lines[at].below = roster;
            lines.remove(at + 1);
            alone.remove(at + 1);
        } else if is_group && !above.is_bullet && !above.has_runs() {
            let count = alone[at + 1..].iter().take(MOST_BELOW).take_while(|one| one.is_some()).count();
            if count >= FEWEST && lines.get(at + 1 + count).is_some_and(Line::has_runs) {
                lines.drain(at + 1..=at + count);
                lines[at].below = Some(together(alone.drain(at + 1..=at + count).flatten()));
            }
        }
        at += 1;
    }
}

/// The one name of a line that has nothing else.
fn name_alone(line: &Line<'_>) -> Option<Roster> {
    let one = names_alone(line.lexed.text, 1).filter(|one| !line.has_runs() && one.names().count() == 1)?;
    Some(one).filter(|_| !line.lexed.text.ends_with(':'))
}

/// Those of several rosters in one.
fn together(rosters: impl Iterator<Item = Roster>) -> Roster {
    let mut all = Roster::default();
    for one in rosters {
        all.athletes.extend(one.athletes);
        all.absent.extend(one.absent);
        all.guides.extend(one.guides);
        all.bests.extend(one.bests);
    }
    all
}

/// What a line stands above that makes it a heading, without a colon too: lines with bullets, or runs where it begins a
/// paragraph or names a group. Whatever stands in front of all blocks begins one.
pub(crate) fn above(lines: &[Line<'_>], index: usize, is_in_front: bool) -> Above {
    let (Some(line), Some(next)) = (lines.get(index), lines.get(index + 1)) else { return Above::Nothing };
    if line.is_bullet {
        Above::Nothing
    } else if next.is_bullet {
        Above::Bullets
    } else if line.begins_with_word()
        && next.has_runs()
        && (is_in_front || line.is_behind_blank || is_group_name(line.lexed.text))
    {
        Above::Runs
    } else {
        Above::Nothing
    }
}

/// How many bytes the bullet of a line has: `- `, `• `, `2. `, `a) `.
fn bullet(line: &str) -> usize {
    let mut chars = line.chars();
    let Some(first) = chars.next() else { return 0 };
    let behind = chars.as_str();
    if ['-', '*', '•', '·', '–', '—', '▪', '◦', '>', '#', '+'].contains(&first)
        && (behind.starts_with(' ') || behind.starts_with('\t'))
    {
        return first.len_utf8();
    }
    // A picture, such as a runner or a tick.
    let is_picture =
        |letter: char| !letter.is_ascii() && !letter.is_alphanumeric() && !letter.is_whitespace();
    let pictures = line.find(|letter| !is_picture(letter)).unwrap_or(0);
    if first > '\u{2100}' && line[pictures..].starts_with(' ') {
        return pictures;
    }
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    let mark = if digits > 0 && digits < 3 { digits } else { usize::from(first.is_ascii_lowercase()) };
    let is_numbered = mark > 0 && line[mark..].starts_with([')', '.']) && line[mark + 1..].starts_with(' ');
    if is_numbered { mark + 1 } else { 0 }
}

//! Reading the lines of a session one after the other.

use std::ops::Range;

use chrono::NaiveTime;

use crate::attendance::is_attendance;
use crate::block::{Block, Body, RestAfter};
use crate::doubt::Doubt;
use crate::group_label::GroupLabel;
use crate::group_labels::GroupLabels;
use crate::heading::{Above, Heading, heading};
use crate::heading_words::{is_cool_down, is_day, is_short_name, is_title};
use crate::lateness::Late;
use crate::lines::{Line, above};
use crate::piece::{Piece, pieces, rest_alone};
use crate::problem::Problem;
use crate::roster::Roster;
use crate::session_athletes::names;
use crate::targets_behind::{self, with_targets};
use crate::told::{begins_unread, is_prose, is_told};
use crate::workout::{Part, Workout};

/// The most blocks of one text.
pub const MOST_BLOCKS: usize = 500;

/// Reads the lines of a text one after the other.
pub(crate) struct SessionReader<'a> {
    pub(crate) text: &'a str,
    pub(crate) workout: Workout,
    pub(crate) problems: Vec<Problem>,
    /// A rest that stood in front of the next block.
    pub(crate) rest: Option<RestAfter>,
    /// Whether it stands alone in its line, and says nothing of all groups.
    is_rest_of_line: bool,
    /// When the group begins of the last heading that is no item of a list.
    above_begins: Option<NaiveTime>,
    /// Whether only blocks may stand in it.
    is_blocks: bool,
    /// The groups that are named in front of what they do.
    pub(crate) labels: GroupLabels,
    /// Whether the blocks are those of such a group; and whether its line has a bullet.
    pub(crate) label: Option<LabelLine>,
    /// Whether the next block is no longer one of that group.
    is_behind_groups: bool,
    /// Groups whose athletes are named before anything is said of what they do.
    pub(crate) declared: Vec<Declared>,
    /// Whether the heading right above names the athletes of a group.
    pub(crate) is_below_roster: bool,
    /// All names of the text.
    pub(crate) names: Vec<String>,
    /// Athletes in a line of their own, of no group.
    pub(crate) athletes: Vec<String>,
    /// What their group is called, where it is.
    pub(crate) athletes_called: Option<String>,
    /// How many are in groups, by names that need not be written as those are.
    pub(crate) group_counts: Vec<(String, usize)>,
    /// Who guides one of them: the athlete, and the guide.
    pub(crate) guides: Vec<(String, String)>,
    /// Whom somebody guides, by a line that says so.
    pub(crate) guided: Vec<(String, String)>,
    /// Who trains with another group, by the words for it.
    pub(crate) moves: Vec<(String, String)>,
    /// Who comes later, by lines that say when.
    pub(crate) late: Vec<Late>,
    /// Whether the line that begins at a byte is prose, where that is known.
    prose: Option<(usize, bool)>,
    /// Who is not there, by lines that say so.
    pub(crate) absent: Vec<String>,
    /// What is said of athletes, for the first block of their group.
    pub(crate) doubts: Vec<(String, Doubt)>,
    /// When groups begin and end, each with the byte at which that stood.
    group_times: &'a [(usize, NaiveTime, Option<NaiveTime>)],
}

/// A group whose athletes are named before anything is said of what they do.
#[derive(Clone, Debug)]
pub(crate) struct Declared {
    pub(crate) group: String,
    pub(crate) athletes: Vec<String>,
    /// The group whose heading stands right below.
    pub(crate) above: Option<String>,
}

/// A line that names the group of its blocks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LabelLine {
    pub(crate) is_bullet: bool,
}

impl<'a> SessionReader<'a> {
    /// Reads a text that is cut into lines; given whether only blocks may stand in it, and when groups begin and end by the
    /// byte at which that stands.
    pub(crate) fn read(
        text: &'a str,
        lines: &[Line<'_>],
        is_blocks: bool,
        group_times: &'a [(usize, NaiveTime, Option<NaiveTime>)],
    ) -> Self {
        let mut reader = Self {
            text,
            workout: Workout::default(),
            problems: Vec::new(),
            rest: None,
            is_rest_of_line: false,
            above_begins: None,
            is_blocks,
            labels: GroupLabels::of(lines),
            label: None,
            is_behind_groups: false,
            declared: Vec::new(),
            is_below_roster: false,
            names: names(lines),
            athletes: Vec::new(),
            athletes_called: None,
            group_counts: Vec::new(),
            guides: Vec::new(),
            guided: Vec::new(),
            moves: Vec::new(),
            late: Vec::new(),
            absent: Vec::new(),
            prose: None,
            doubts: Vec::new(),
            group_times,
        };
        reader.lines(lines);
        reader.settle_athletes();
        reader
    }

    fn lines(&mut self, lines: &[Line<'_>]) {
        // What the next block is called.
        let mut label: Option<String> = None;
        let mut has_bullets = false;
        for (index, line) in lines.iter().enumerate() {
            if self.begin_known_group(line) {
                continue;
            }
            let is_first = self.workout.blocks().next().is_none() && self.workout.parts.is_empty();
            let has_more = index + 1 < lines.len();
            if self.attendance(line) {
                continue;
            }
            if !self.is_blocks && (self.counts(line) || self.bests(line)) {
                continue;
            }
            // Who is missing may stand below those who train.
            let is_last = lines[index + 1..].iter().all(|line| is_attendance(line.lexed.text, &self.names));
            if !self.is_blocks && self.athletes_alone(line, index, is_last) {
                continue;
            }
            let named = line.named_group().filter(|_| has_more);
            let group = match self.labels.is_empty() || named.is_some() {
                true => None,
                false => line.group_label(index == 0),
            };
            let above = above(lines, index, is_first);
            let mut heading = heading(&line.lexed, is_first && !line.is_bullet, has_more, above);
            if let Some((group, roster)) = named {
                heading = Some(Heading::Group(group.to_owned(), roster));
            } else if group.is_some() {
                heading = None;
            } else if has_more && self.names_known_group(line) {
                let name = line.lexed.text.trim_end_matches(':').trim().to_owned();
                heading = Some(Heading::Group(name, Roster::default()));
            } else if let Some((group, roster)) = line.group_with_lanes().filter(|_| has_more) {
                heading = Some(Heading::Group(group, roster));
            } else if let Some(Heading::Title(words)) = &heading
                && above == Above::Runs
                && !is_title(words)
                && !words.contains(':')
                && is_short_name(words)
                && (self.labels.is_empty() || lines[index + 1].group_label(false).is_none())
                && has_group_above_runs(lines, index + 1)
            {
                heading = Some(Heading::Group(words.clone(), Roster::default()));
            }
            if self.is_blocks && self.refuses(line, heading.as_ref(), group.as_ref()) {
                continue;
            }
            has_bullets |= line.is_bullet;
            // The last line of all is everybody's cool-down.
            let is_apart = line.is_behind_blank
                || is_last && !line.is_bullet
                || self.label.is_some()
                || has_bullets && !line.is_bullet;
            let is_in_group = self.workout.parts.last().is_some_and(|part| part.group.is_some());
            if is_in_group && is_apart && is_cool_down(line.first_words()) {
                self.begin_part(None);
            }
            let goes_on = |label: LabelLine| {
                self.labels.go_on || line.is_bullet && !label.is_bullet || line.begins_with_then()
            };
            self.is_behind_groups = group.is_none() && self.label.is_some_and(|label| !goes_on(label));
            match heading {
                // A second date is a part of the title.
                Some(Heading::Date { .. }) if self.workout.date.is_some() => {
                    self.title(line, line.lexed.text)
                }
                Some(Heading::Date { date, words }) => {
                    self.workout.date = Some(date);
                    self.title(line, &words);
                }
                Some(Heading::Title(words)) => self.title(line, &words),
                Some(Heading::Group(name, roster)) => {
                    has_bullets = false;
                    self.keep_heading(label.take());
                    self.begin_part(Some(self.labels.name(name)));
                    self.begin_at(line);
                    self.is_below_roster = !roster.is_empty();
                    self.name_athletes(line, roster);
                }
                Some(Heading::Everybody) => {
                    has_bullets = false;
                    self.keep_heading(label.take());
                    self.begin_part(None);
                }
                Some(Heading::Label(words)) => {
                    if self.is_behind_groups {
                        self.begin_part(None);
                    }
                    label = Some(under_label(label.take(), words));
                }
                None => {
                    if group.is_none() && self.is_behind_rosters(&lines[index + 1..]) {
                        self.begin_part(None);
                    }
                    let before = self.workout.blocks().count();
                    match group {
                        Some(group) => self.line_of_group(line, group),
                        None if is_told(&line.lexed) => self.push_note(line),
                        None if self.refuses_runs_of_one(line) => {}
                        None => self.line(line),
                    }
                    if self.workout.blocks().count() > before
                        && let Some(words) = label.take()
                        && let Some(block) = part_block(&mut self.workout, before)
                    {
                        block.label = Some(under(words, block.label.take()));
                    }
                }
            }
        }
        self.keep_heading(label);
        self.refuse_second_day();
        self.keep_empty_group();
        self.settle_declared();
        if self.is_rest_of_line {
            self.settle_rest_between_runs();
        } else if self.is_behind_groups {
            self.settle_rest_of_groups();
        }
        self.settle_rest();
    }

    /// `Mon: 6 x 200` above `Wed: 4 x 400`: a text is one evening.
    fn refuse_second_day(&mut self) {
        let days = self.workout.blocks().filter_map(|block| {
            let label = block.label.as_deref().filter(|label| block.count() > 0 && is_day(label))?;
            Some((block.start, label.to_owned()))
        });
        let days: Vec<(usize, String)> = days.collect();
        let Some((_, first)) = days.first() else { return };
        if let Some((start, other)) = days.iter().find(|(_, day)| day[..3] != first[..3]) {
            let problem =
                Problem::new(*start..start + other.len(), format!("`{other}` is another day than `{first}`"));
            self.problems.push(problem.with_help("write a text for each day: one is one evening"));
        }
    }

    /// A heading of a block that never came is kept as a note.
    pub(crate) fn keep_heading(&mut self, words: Option<String>) {
        if let Some(words) = words {
            let body = Body::words(&words);
            self.push(Block::new(words, body));
        }
    }

    /// A group of which nothing is said is no group: its heading is kept as a note. Where it names athletes, they are
    /// those of a group of that name below.
    fn keep_empty_group(&mut self) {
        let Some(part) = self.workout.parts.last_mut().filter(|part| part.blocks.is_empty()) else { return };
        let athletes = std::mem::take(&mut part.athletes);
        let Some(name) = part.group.take() else { return };
        if athletes.is_empty() {
            self.keep_heading(Some(name));
        } else {
            self.declared.push(Declared { group: name, athletes, above: None });
        }
    }

    /// Begins the blocks of a group, or of everybody.
    pub(crate) fn begin_part(&mut self, group: Option<String>) {
        (self.label, self.is_behind_groups) = (None, false);
        let before = self.declared.len();
        self.keep_empty_group();
        if let Some(last) = self.declared.get_mut(before) {
            last.above.clone_from(&group);
        }
        if self.is_rest_of_line && self.workout.parts.last().is_some_and(|part| part.group.is_some()) {
            self.settle_rest_between_runs();
        }
        self.settle_rest();
        let declared = self.declared.iter().position(|declared| Some(&declared.group) == group.as_ref());
        let athletes = declared.map(|at| self.declared.remove(at).athletes).unwrap_or_default();
        self.workout.parts.push(Part { group, athletes, ..Part::default() });
    }

    /// When a group begins, and ends, by what its line says of that.
    fn time_of(&self, line: &Line<'_>) -> Option<(NaiveTime, Option<NaiveTime>)> {
        // `6.45 Seniors`: it may stand in front.
        let from = self.text[..line.start].rfind('\n').map_or(0, |end| end + 1);
        let (at, begins, ends) = self.group_times.iter().find(|(at, ..)| *at >= from)?;
        let is_here = *at < line.start || !self.text[line.start..*at].contains('\n');
        is_here.then_some((*begins, *ends))
    }

    /// Begins the group that a line names when its line says so, or the heading above it where it is an item of a list.
    pub(crate) fn begin_at(&mut self, line: &Line<'_>) {
        let time = self.time_of(line);
        if !line.is_bullet {
            self.above_begins = time.map(|(begins, _)| begins);
        }
        let Some(part) = self.workout.parts.last_mut() else { return };
        part.begins = time.map(|(begins, _)| begins).or(self.above_begins.filter(|_| line.is_bullet));
        part.ends = time.and_then(|(_, ends)| ends);
    }

    /// Whether a line is the name of a group whose athletes are named above.
    fn names_known_group(&self, line: &Line<'_>) -> bool {
        let words = line.lexed.text.trim_end_matches(':').trim();
        let has_athletes = |part: &Part| !part.athletes.is_empty() && part.group.as_deref() == Some(words);
        self.declared.iter().any(|declared| declared.group == words)
            || self.workout.parts.iter().any(has_athletes)
    }

    /// `Distance start 6.15`, below what the group does.
    fn begin_known_group(&mut self, line: &Line<'_>) -> bool {
        let Some((begins, ends)) = self.time_of(line) else { return false };
        let name = self.labels.name(line.lexed.text.trim_end_matches(':').trim().to_owned());
        let is_known = |part: &&mut Part| part.group.as_ref() == Some(&name) && !part.blocks.is_empty();
        let Some(part) = self.workout.parts.iter_mut().find(is_known) else { return false };
        (part.begins, part.ends) = (Some(begins), ends);
        true
    }

    /// Gives a rest to the block in front of it.
    fn settle_rest(&mut self) {
        if let (Some(rest), Some(last)) = (self.rest.take(), self.last()) {
            last.rest_after = Some(rest);
        }
    }

    /// Whether a line says something that blocks alone do not have, which is reported.
    fn refuses(&mut self, line: &Line<'_>, heading: Option<&Heading>, group: Option<&GroupLabel>) -> bool {
        let what = match heading {
            Some(Heading::Title(_)) => "a title, and blocks have none",
            Some(Heading::Date { .. }) => "a date, and blocks have none",
            Some(Heading::Group(..) | Heading::Everybody) => {
                "the heading of a group, and these are the blocks of one"
            }
            None if group.is_some() => "a group, and these are the blocks of one",
            Some(Heading::Label(_)) | None => return false,
        };
        let span = group.map_or(0..line.lexed.text.len(), |group| group.span.clone());
        let words = line.lexed.text[span.clone()].trim_end_matches(':');
        let span = line.start + span.start..line.start + span.end;
        let problem = Problem::new(span, format!("`{words}` is {what}"));
        self.problems.push(problem.with_help("leave the line out, or read the whole text as a session"));
        true
    }

    pub(crate) fn last(&mut self) -> Option<&mut Block> {
        self.workout.parts.last_mut()?.blocks.last_mut()
    }

    pub(crate) fn push(&mut self, block: Block) {
        if self.workout.parts.is_empty() {
            self.workout.parts.push(Part::default());
        }
        if self.is_behind_groups {
            self.begin_part(None);
        }
        self.settle_rest();
        if let Some(part) = self.workout.parts.last_mut() {
            part.blocks.push(block);
        }
    }

    /// Reads one line: its pieces, each of which is a block, or says something of the one before.
    pub(crate) fn line(&mut self, line: &Line<'_>) {
        if self.same_as(line) {
            return;
        }
        let mut first = self.workout.parts.last().map_or(0, |part| part.blocks.len());
        let mut groups = u32::from(self.label.is_some() && !self.is_behind_groups);
        let before = self.workout.blocks().count();
        // Where the last block of runs begins: what says something of it is read together with it.
        let mut open: Option<Range<usize>> = None;
        for piece in pieces(&line.lexed, !self.labels.is_empty()) {
            let piece = match self.group_of(line, &piece) {
                Some((label, range)) => {
                    self.close(line, &mut open);
                    let has_runs = self.workout.blocks().skip(before).any(|block| block.count() > 0);
                    if groups == 0 && has_runs {
                        self.refuse_group(line, &label);
                        return;
                    }
                    if !self.labels.is_empty() {
                        self.begin_group(line, label, line.is_bullet);
                        (groups, first) = (groups + 1, 0);
                        Piece::Runs(range)
                    } else {
                        piece
                    }
                }
                None => piece,
            };
            match piece {
                Piece::Note(range) => {
                    self.close(line, &mut open);
                    self.runs(line, range);
                }
                Piece::Runs(range) => {
                    self.close(line, &mut open);
                    open = Some(range);
                }
                Piece::More(range) => match &mut open {
                    Some(open) => open.end = range.end,
                    None => self.more(line, range),
                },
                Piece::Rest(range) => {
                    self.close(line, &mut open);
                    self.rest_between(line, range);
                }
                Piece::Repeat(count, range) => {
                    self.close(line, &mut open);
                    self.repeat(first, count, line.start + range.start..line.start + range.end);
                }
            }
        }
        self.close(line, &mut open);
        if groups > 1 {
            if self.workout.parts.last().is_some_and(|part| part.blocks.len() == 1) {
                self.settle_rest_between_runs();
            }
            self.share_recovery();
        }
    }

    /// A line that is only told, whatever stands in it.
    fn push_note(&mut self, line: &Line<'_>) {
        let text = line.lexed.text;
        self.push(Block { start: line.start, ..Block::new(text.to_owned(), Body::words(text)) });
    }

    fn close(&mut self, line: &Line<'_>, open: &mut Option<Range<usize>>) {
        if let Some(range) = open.take() {
            self.runs(line, range);
        }
    }

    /// Reads a part of a line as a block of its own.
    fn runs(&mut self, line: &Line<'_>, range: Range<usize>) {
        // A line that is refused as a whole is not looked at again for each of its parts.
        let whole = line.start..line.start + line.lexed.text.len();
        if self.problems.last().is_some_and(|problem| problem.span == whole) {
            return;
        }
        let start = line.start + range.start;
        match Block::read(&line.lexed.part(range.clone())) {
            Ok(block) => {
                let is_apart = self.is_behind_groups;
                // `6 x 300, 3 min. 300 in 48`
                let is_sentence = line.lexed.text[..range.start].trim_end().ends_with('.');
                let fewest = if is_sentence { 1 } else { targets_behind::FEWEST };
                let last = self.last().filter(|_| !is_apart);
                match last.and_then(|last| Some((with_targets(last, &block, fewest)?, last))) {
                    Some((again, last)) => *last = again,
                    None => self.push(Block { start, ..block }),
                }
            }
            Err(_) if self.is_prose(line) => {
                let problem = Problem::new(whole, "this line is no run, and has a number");
                let help = "write `Note:` in front of what is only told, or leave it out";
                self.problems.push(problem.with_help(help));
            }
            Err(problems) => {
                self.problems.extend(problems.into_iter().map(|problem| problem.shifted(start)));
            }
        }
    }

    /// Whether a line is prose, which is looked at once for all its parts.
    fn is_prose(&mut self, line: &Line<'_>) -> bool {
        let known = self.prose.filter(|(start, _)| *start == line.start);
        let (_, is_prose) = *self.prose.insert(known.unwrap_or_else(|| (line.start, is_prose(&line.lexed))));
        is_prose
    }

    /// A line that says something of the block before it: both are read again as one. A line that can only be read alone
    /// is a block of its own.
    fn more(&mut self, line: &Line<'_>, range: Range<usize>) {
        let written = &line.lexed.text[range.clone()];
        let again = self.last().filter(|last| last.count() > 0 && last.text.len() <= LONGEST_BEFORE);
        let again = again.map(|last| format!("{}, {written}", last.text));
        if let Some(again) = again
            && let Ok(block) = Block::parse(&again)
            && !begins_unread(&block, written)
        {
            if let Some(last) = self.last() {
                let label = block.label.clone().or(last.label.take());
                *last = Block { label, start: last.start, ..block };
            }
            if self.is_behind_groups {
                self.share_recovery();
            }
            return;
        }
        self.runs(line, range);
    }

    /// A time alone between two blocks.
    fn rest_between(&mut self, line: &Line<'_>, range: Range<usize>) {
        let part = line.lexed.part(range.clone());
        match rest_alone(&part) {
            Some(seconds) if self.rest.is_none() && self.last().is_some() => {
                let rest = RestAfter { seconds, text: part.text.to_owned() };
                if self.is_behind_groups {
                    self.blocks_of_groups().for_each(|block| block.rest_after = Some(rest.clone()));
                }
                self.is_rest_of_line = !self.is_behind_groups && range == (0..line.lexed.text.len());
                self.rest = Some(rest);
            }
            _ => self.runs(line, range),
        }
    }

    /// `repeat`: what stands before it in its line, once more or so many times in all.
    fn repeat(&mut self, first: usize, count: u32, span: Range<usize>) {
        let part = self.workout.parts.last_mut().filter(|part| part.blocks.len() > first);
        let Some(part) = part else {
            // What is wrong in front of it is told already.
            if self.problems.is_empty() {
                let problem = Problem::new(span, "nothing stands in front of this in its line");
                let help = "write it behind what is repeated, for example `4 x 60; 3 x 150; repeat`";
                self.problems.push(problem.with_help(help));
            }
            return;
        };
        // A text of too many blocks is refused whole: each repeat would double them.
        if part.blocks.len() > MOST_BLOCKS {
            return;
        }
        let rest = self.rest.take();
        let once: Vec<Block> = part.blocks.get(first..).unwrap_or_default().to_vec();
        for _ in 1..count.min(MOST_BLOCKS as u32) {
            if let (Some(rest), Some(last)) = (&rest, part.blocks.last_mut()) {
                last.rest_after = Some(rest.clone());
            }
            part.blocks.extend(once.iter().cloned());
            if part.blocks.len() > MOST_BLOCKS {
                break;
            }
        }
        if let Some(block) = part.blocks.get_mut(first) {
            block.doubts.push(Doubt::LineRepeated { count });
        }
    }
}

/// The most bytes of a block that is read again with what a further line says of it.
const LONGEST_BEFORE: usize = 1000;

/// A label that stands above a block, with the block's own behind it.
pub(crate) fn under(above: String, own: Option<String>) -> String {
    own.map_or_else(|| above.clone(), |own| format!("{above}, {own}"))
}

/// A label below another one that has no block yet.
fn under_label(above: Option<String>, own: String) -> String {
    above.map_or_else(|| own.clone(), |above| format!("{above}, {own}"))
}

/// Whether a group has a heading without a colon above its runs, in this line or below.
fn has_group_above_runs(lines: &[Line<'_>], from: usize) -> bool {
    (from..lines.len()).any(|index| {
        above(lines, index, false) == Above::Runs
            && matches!(heading(&lines[index].lexed, false, true, Above::Runs), Some(Heading::Group(..)))
    })
}

/// The block of a workout by its number.
fn part_block(workout: &mut Workout, number: usize) -> Option<&mut Block> {
    workout.parts.iter_mut().flat_map(|part| &mut part.blocks).nth(number)
}

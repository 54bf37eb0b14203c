//! Cutting the text of a whole session into its blocks.

use std::borrow::Cow;
use std::ops::Range;

use crate::block::{Block, Body, RestAfter};
use crate::day::{self, Day};
use crate::doubt::Doubt;
use crate::heading::{Above, Heading, heading, is_cool_down, is_title};
use crate::lines::{Line, above, lines};
use crate::piece::{Piece, pieces, rest_alone};
use crate::problem::Problem;
use crate::workout::{Part, Workout};

/// The longest text of a session that is read, in bytes.
const LONGEST_TEXT: usize = 100_000;

/// The most blocks of one text.
const MOST_BLOCKS: usize = 500;

impl Workout {
    /// Reads the text of a whole session: a line, or many.
    ///
    /// Lines, `;`, `//` and full stops stand between blocks, and bullets in front of them; a warm-up or a cool-down is a
    /// block of its own. A line that only says something of the runs before it belongs to them; a time alone between two
    /// blocks is the rest between them. Wherever it says that lanes are closed, and above all blocks when it begins, that
    /// is of the whole session.
    ///
    /// ```
    /// use workout_notation::Workout;
    ///
    /// let workout = Workout::parse("Warm up; 4 x 60; 3 x 150 rest 8'; cool down").expect("it is well formed");
    /// let texts: Vec<_> = workout.blocks().map(ToString::to_string).collect();
    /// assert_eq!(texts, ["Warm up", "4 x 60", "3 x 150 rest 8:00", "cool down"]);
    /// ```
    ///
    /// # Errors
    ///
    /// Every [`Problem`] of the text, in its order.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        Self::read(text, false)
    }

    /// Reads a text that is only blocks, one or several.
    ///
    /// ```
    /// use workout_notation::Workout;
    ///
    /// let blocks = Workout::parse_blocks("warm-up; 6 x 200, 90s rest").expect("it is well formed");
    /// assert_eq!(blocks.len(), 2);
    /// let problems = Workout::parse_blocks("Tuesday track\n6 x 200").expect_err("it has a title");
    /// assert_eq!(problems[0].message, "`Tuesday track` is a title, and blocks have none");
    /// ```
    ///
    /// # Errors
    ///
    /// As for [`Self::parse`], and where it has a title, a date, or the heading of a group.
    pub fn parse_blocks(text: &str) -> Result<Vec<Block>, Vec<Problem>> {
        Self::read(text, true).map(Self::into_blocks)
    }

    fn read(text: &str, is_blocks: bool) -> Result<Self, Vec<Problem>> {
        if text.len() > LONGEST_TEXT {
            let message =
                format!("a session of {} characters is too long: at most {LONGEST_TEXT}", text.len());
            return Err(vec![Problem::new(0..0, message).with_help("split it into several sessions")]);
        }
        let (text, mut day) = if is_blocks {
            let problems = day::closure_in_block(text).into_iter().collect();
            (Cow::Borrowed(text), Day { problems, ..Day::default() })
        } else {
            day::take(text)
        };
        let mut reader = SessionReader {
            text: &text,
            workout: Self::default(),
            problems: Vec::new(),
            rest: None,
            is_blocks,
        };
        reader.read();
        let SessionReader { mut workout, mut problems, .. } = reader;
        problems.append(&mut day.problems);
        if problems.is_empty() && workout.blocks().next().is_none() {
            return Err(Block::parse("").err().unwrap_or_default());
        }
        if workout.blocks().count() > MOST_BLOCKS {
            let message = format!("a session of more than {MOST_BLOCKS} blocks is too long");
            problems.push(Problem::new(0..0, message).with_help("split it into several sessions"));
        }
        if !problems.is_empty() {
            problems.sort_by_key(|problem| problem.span.start);
            return Err(problems);
        }
        workout.parts.retain(|part| !part.blocks.is_empty());
        workout.take_in_cool_down();
        workout.name_groups();
        let Day { closed_lanes, begins, ends, .. } = day;
        Ok(Self { closed_lanes, begins, ends, ..workout })
    }

    /// A cool-down that stands apart behind the last group is everybody's, unless another group has one of its own.
    fn take_in_cool_down(&mut self) {
        let is_cool_down = |block: &Block| block.count() == 0 && is_cool_down(&block.text);
        let (mut parts, mut has_own) = (Vec::<Part>::new(), false);
        let last = self.parts.len().saturating_sub(1);
        for (place, part) in std::mem::take(&mut self.parts).into_iter().enumerate() {
            let is_apart = part.group.is_none() && part.blocks.first().is_some_and(is_cool_down);
            match parts.last_mut() {
                Some(before) if is_apart && before.group.is_some() && (has_own || place < last) => {
                    has_own = true;
                    before.blocks.extend(part.blocks);
                }
                _ => {
                    has_own |= part.group.is_some() && part.blocks.iter().any(is_cool_down);
                    parts.push(part);
                }
            }
        }
        self.parts = parts;
    }

    /// A single heading names what follows it, not a group of the squad.
    fn name_groups(&mut self) {
        if self.parts.iter().filter(|part| part.group.is_some()).count() != 1 {
            return;
        }
        let mut blocks = Vec::new();
        for mut part in std::mem::take(&mut self.parts) {
            if let (Some(name), Some(first)) = (part.group.take(), part.blocks.first_mut()) {
                first.label = Some(under(name, first.label.take()));
            }
            blocks.append(&mut part.blocks);
        }
        self.parts = vec![Part { group: None, blocks }];
    }
}

/// Reads the lines of a text one after the other.
struct SessionReader<'a> {
    text: &'a str,
    workout: Workout,
    problems: Vec<Problem>,
    /// A rest that stood in front of the next block.
    rest: Option<RestAfter>,
    /// Whether only blocks may stand in it.
    is_blocks: bool,
}

impl SessionReader<'_> {
    fn read(&mut self) {
        let lines = lines(self.text);
        let mut label: Option<String> = None;
        let mut has_bullets = false;
        for (index, line) in lines.iter().enumerate() {
            let is_first = self.workout.blocks().next().is_none() && self.workout.parts.is_empty();
            let has_more = index + 1 < lines.len();
            let above = above(&lines, index, is_first);
            let mut heading = heading(&line.lexed, is_first && !line.is_bullet, has_more, above);
            if let Some(Heading::Title(words)) = &heading
                && above == Above::Runs
                && !is_title(words)
                && has_group_above_runs(&lines, index + 1)
            {
                heading = Some(Heading::Group(words.clone()));
            }
            if self.is_blocks && self.refuses(line, heading.as_ref()) {
                continue;
            }
            has_bullets |= line.is_bullet;
            let is_apart = line.is_behind_blank || has_bullets && !line.is_bullet;
            let is_in_group = self.workout.parts.last().is_some_and(|part| part.group.is_some());
            if is_in_group && is_apart && is_cool_down(line.first_words()) {
                self.begin_part(None);
            }
            match heading {
                Some(Heading::Date { date, words }) => {
                    self.workout.date = Some(date);
                    self.title(&words);
                }
                Some(Heading::Title(words)) => self.title(&words),
                Some(Heading::Group(name)) => {
                    has_bullets = false;
                    self.keep_heading(label.take());
                    self.begin_part(Some(name));
                }
                Some(Heading::Everybody) => {
                    has_bullets = false;
                    self.keep_heading(label.take());
                    self.begin_part(None);
                }
                Some(Heading::Label(words)) => label = Some(under_label(label.take(), words)),
                None => {
                    let before = self.workout.blocks().count();
                    self.line(line);
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
        self.keep_empty_group();
        self.settle_rest();
    }

    /// A heading of a block that never came is kept as a note.
    fn keep_heading(&mut self, words: Option<String>) {
        if let Some(words) = words {
            self.push(Block::new(words.clone(), Body::Note { words, lasts_s: None }));
        }
    }

    /// A group of which nothing is said is no group: its heading is kept as a note.
    fn keep_empty_group(&mut self) {
        let empty = self.workout.parts.last_mut().filter(|part| part.blocks.is_empty());
        let name = empty.and_then(|part| part.group.take());
        self.keep_heading(name);
    }

    /// Begins the blocks of a group, or of everybody.
    fn begin_part(&mut self, group: Option<String>) {
        self.keep_empty_group();
        self.settle_rest();
        self.workout.parts.push(Part { group, blocks: Vec::new() });
    }

    /// Gives a rest to the block in front of it.
    fn settle_rest(&mut self) {
        if let (Some(rest), Some(last)) = (self.rest.take(), self.last()) {
            last.rest_after = Some(rest);
        }
    }

    /// Whether a line says something that blocks alone do not have, which is reported.
    fn refuses(&mut self, line: &Line<'_>, heading: Option<&Heading>) -> bool {
        let what = match heading {
            Some(Heading::Title(_)) => "a title, and blocks have none",
            Some(Heading::Date { .. }) => "a date, and blocks have none",
            Some(Heading::Group(_) | Heading::Everybody) => {
                "the heading of a group, and these are the blocks of one"
            }
            Some(Heading::Label(_)) | None => return false,
        };
        let span = line.start..line.start + line.lexed.text.len();
        let problem = Problem::new(span, format!("`{}` is {what}", line.lexed.text.trim_end_matches(':')));
        self.problems.push(problem.with_help("leave the line out, or read the whole text as a session"));
        true
    }

    fn title(&mut self, words: &str) {
        if words.is_empty() {
            return;
        }
        // What was said of the day within it has left spaces.
        let words = words.split_whitespace().collect::<Vec<_>>().join(" ").replace(" ,", ",");
        let title = self.workout.title.take();
        self.workout.title = Some(title.map_or_else(|| words.clone(), |title| format!("{title}, {words}")));
    }

    fn last(&mut self) -> Option<&mut Block> {
        self.workout.parts.last_mut()?.blocks.last_mut()
    }

    fn push(&mut self, block: Block) {
        if self.workout.parts.is_empty() {
            self.workout.parts.push(Part::default());
        }
        self.settle_rest();
        if let Some(part) = self.workout.parts.last_mut() {
            part.blocks.push(block);
        }
    }

    /// Reads one line: its pieces, each of which is a block, or says something of the one before.
    fn line(&mut self, line: &Line<'_>) {
        let first = self.workout.parts.last().map_or(0, |part| part.blocks.len());
        // Where the last block of runs begins: what says something of it is read together with it.
        let mut open: Option<Range<usize>> = None;
        for piece in pieces(&line.lexed) {
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
    }

    fn close(&mut self, line: &Line<'_>, open: &mut Option<Range<usize>>) {
        if let Some(range) = open.take() {
            self.runs(line, range);
        }
    }

    /// Reads a part of a line as a block of its own.
    fn runs(&mut self, line: &Line<'_>, range: Range<usize>) {
        let start = line.start + range.start;
        match Block::read(&line.lexed.part(range)) {
            Ok(block) => self.push(Block { start, ..block }),
            Err(problems) => {
                self.problems.extend(problems.into_iter().map(|problem| problem.shifted(start)));
            }
        }
    }

    /// A line that says something of the block before it: both are read again as one. A line that can only be read alone
    /// is a block of its own.
    fn more(&mut self, line: &Line<'_>, range: Range<usize>) {
        let written = &line.lexed.text[range.clone()];
        let again =
            self.last().filter(|last| last.count() > 0).map(|last| format!("{}, {written}", last.text));
        if let Some(again) = again
            && let Ok(block) = Block::parse(&again)
        {
            if let Some(last) = self.last() {
                let label = block.label.clone().or(last.label.take());
                *last = Block { label, start: last.start, ..block };
            }
            return;
        }
        self.runs(line, range);
    }

    /// A time alone between two blocks.
    fn rest_between(&mut self, line: &Line<'_>, range: Range<usize>) {
        let part = line.lexed.part(range.clone());
        match rest_alone(&part) {
            Some(rest) if self.rest.is_none() && self.last().is_some() => {
                self.rest = Some(RestAfter { seconds: rest.value, text: part.text.to_owned() });
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

/// A label that stands above a block, with the block's own behind it.
fn under(above: String, own: Option<String>) -> String {
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
            && matches!(heading(&lines[index].lexed, false, true, Above::Runs), Some(Heading::Group(_)))
    })
}

/// The block of a workout by its number.
fn part_block(workout: &mut Workout, number: usize) -> Option<&mut Block> {
    workout.parts.iter_mut().flat_map(|part| &mut part.blocks).nth(number)
}

//! Cutting the text of a whole session into its blocks.

use std::borrow::Cow;

use chrono::NaiveTime;

use crate::attendance::attendances;
use crate::block::Block;
use crate::day::{self, Day};
use crate::doubt::Doubt;
use crate::forms::FORMS;
use crate::group_labels::is_same;
use crate::group_lanes::without_lanes;
use crate::heading_words::is_cool_down;
use crate::lines::lines;
use crate::problem::Problem;
use crate::session_athletes::names;
use crate::session_reader::{MOST_BLOCKS, SessionReader, under};
use crate::table::without_bars;
use crate::token::Lexed;
use crate::vocabulary::Role;
use crate::workout::{LateAthlete, Part, Workout};

/// The longest text of a session that is read, in bytes.
const LONGEST_TEXT: usize = 100_000;

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
        let text = without_bars(text);
        let text = &*if is_blocks { text } else { attendance_apart(text) };
        let as_written = lines(text);
        let (blanked, mut day) = if is_blocks {
            let problems = day::closure_in_block(&Lexed::new(text, &FORMS)).into_iter().collect();
            (Cow::Borrowed(text), Day { problems, ..Day::default() })
        } else {
            day::take(
                text,
                as_written.iter().any(|line| line.lexed.roles.has(Role::CLOSES)),
                &names(&as_written),
            )
        };
        let lines = match &blanked {
            Cow::Borrowed(_) => as_written,
            Cow::Owned(blanked) => lines(blanked),
        };
        let SessionReader { mut workout, mut problems, late, .. } =
            SessionReader::read(&blanked, &lines, is_blocks, &day.groups);
        for late in late {
            match day.begins.map(|begins| late.lateness.of(begins)) {
                Some(Some(begins)) => workout.late.push(LateAthlete { name: late.name, begins }),
                Some(None) => {
                    let problem =
                        Problem::new(late.span, format!("{} would be there before the others", late.name));
                    problems.push(problem.with_help("write a time behind the start, for example `7.15pm`"));
                }
                None => {
                    let problem = Problem::new(late.span, "nothing says when the session begins");
                    problems.push(
                        problem.with_help("write when in the first line, for example `Tuesday 6.30pm`"),
                    );
                }
            }
        }
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
        if !is_blocks {
            workout.take_out_remarks();
        }
        workout.take_lanes_of_labels();
        workout.take_in_cool_down();
        workout.name_groups();
        // `Seniors 7pm: 4 x 200`: who is alone is no group.
        if workout.parts.iter().all(|part| part.group.is_none()) {
            let later = |begins: &NaiveTime| day.begins.is_some_and(|first| *begins > first);
            let own = std::mem::take(&mut day.groups)
                .into_iter()
                .map(|(at, begins, _)| (text[..at].rfind('\n').unwrap_or(0), begins));
            day.blocks.extend(own.filter(|(_, begins)| later(begins)));
        }
        let Day {
            closed_lanes,
            lanes,
            group_lanes,
            closures,
            between_blocks_s,
            begins,
            ends,
            is_unsure,
            watches,
            blocks: times,
            ..
        } = day;
        for (name, lanes) in group_lanes {
            let is_named = |part: &&mut Part| part.group.as_ref().is_some_and(|group| is_same(group, &name));
            workout.parts.iter_mut().filter(is_named).for_each(|part| part.lanes.clone_from(&lanes));
        }
        for (at, begins) in times {
            let blocks = workout.parts.iter_mut().flat_map(|part| &mut part.blocks);
            let block = blocks.filter(|block| block.start >= at).min_by_key(|block| block.start);
            if let Some(block) = block {
                block.doubts.push(Doubt::BeginsWithoutWaiting { begins });
            }
        }
        for part in &mut workout.parts {
            if let (Some(own), Some(block)) =
                (part.ends.filter(|own| Some(*own) != ends), part.blocks.first_mut())
            {
                block.doubts.push(Doubt::EndOfGroup { ends: own });
            }
        }
        workout.doubt_labels();
        workout.doubt_title();
        workout.doubt_relays();
        if begins.is_some() {
            workout.doubt_drills();
        }
        let first = workout.parts.iter_mut().flat_map(|part| &mut part.blocks).next();
        if let (Some(begins), Some(block), true) = (begins, first, is_unsure) {
            block.doubts.push(Doubt::InTheEvening { begins });
        }
        Ok(Self { closed_lanes, lanes, closures, between_blocks_s, begins, ends, watches, ..workout })
    }

    /// `Middle lane 4: 6 x 800`: lanes behind what runs are called are theirs, where they name none.
    fn take_lanes_of_labels(&mut self) {
        for block in self.parts.iter_mut().flat_map(|part| &mut part.blocks) {
            let Some(label) = block.label.clone().filter(|_| block.count() > 0) else { continue };
            let (name, lanes) = without_lanes(&label);
            if lanes.is_empty() || block.steps().iter().any(|step| step.lanes.is_some()) {
                continue;
            }
            let lanes: Vec<String> = lanes.iter().map(ToString::to_string).collect();
            if let Ok(again) = Block::parse(&format!("{} in lanes {}", block.text, lanes.join(","))) {
                let (start, rest_after) = (block.start, block.rest_after.take());
                *block = Block { label: Some(name.to_owned()), start, rest_after, ..again };
            }
        }
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

    /// A single heading names what follows it, not a group of the squad, unless it names athletes.
    fn name_groups(&mut self) {
        let mut groups = self.parts.iter().filter(|part| part.group.is_some());
        if !matches!((groups.next(), groups.next()), (Some(group), None) if group.athletes.is_empty()) {
            return;
        }
        let mut blocks = Vec::new();
        for mut part in std::mem::take(&mut self.parts) {
            if let (Some(name), Some(first)) = (part.group.take(), part.blocks.first_mut()) {
                first.label = Some(under(name, first.label.take()));
            }
            blocks.append(&mut part.blocks);
        }
        self.parts = vec![Part { blocks, ..Part::default() }];
    }
}

/// A text in which a sentence that says who is missing or late stands in its own line: `Cool down. Mo can't make it`. Every
/// word stays where it was.
fn attendance_apart(text: Cow<'_, str>) -> Cow<'_, str> {
    const ENDS: [&str; 3] = [". ", "! ", "; "];
    // More bytes say nothing that is worth the time.
    const LONGEST: usize = 1000;
    if !ENDS.iter().any(|end| text.contains(end)) {
        return text;
    }
    let names = names(&lines(&text));
    if names.is_empty() {
        return text;
    }
    let is_said = |&space: &usize| {
        let behind = text[space..].lines().next().unwrap_or_default();
        behind.len() <= LONGEST && attendances(behind.trim(), &names).is_some()
    };
    let ends = ENDS.iter().flat_map(|end| text.match_indices(end)).map(|(at, _)| at + 1);
    let spaces: Vec<usize> = ends.filter(is_said).collect();
    let mut text = text.into_owned();
    for space in spaces {
        text.replace_range(space..=space, "\n");
    }
    text.into()
}

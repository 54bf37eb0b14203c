//! Groups that are named in the lines of a session, and what they share.

use std::ops::Range;

use crate::block::{Block, Body};
use crate::forms::Recovery;
use crate::group_label::{GroupLabel, group_label};
use crate::lines::Line;
use crate::piece::Piece;
use crate::problem::Problem;
use crate::session_reader::{Declared, LabelLine, SessionReader};
use crate::workout::Part;

impl SessionReader<'_> {
    /// Begins the blocks of a group that is named in front of them.
    pub(crate) fn begin_group(&mut self, line: &Line<'_>, label: GroupLabel, is_bullet: bool) {
        self.begin_part(label.group.map(|name| self.labels.name(name)));
        self.begin_at(line);
        self.name_athletes(line, label.roster);
        self.label = Some(LabelLine { is_bullet });
    }

    /// Reads a line with the name of a group in front.
    pub(crate) fn line_of_group(&mut self, line: &Line<'_>, label: GroupLabel) {
        let behind = line.behind(label.end);
        self.begin_group(line, label, line.is_bullet);
        self.line(&behind);
    }

    /// A rest with nothing behind it is the one between the last runs, where they have none.
    pub(crate) fn settle_rest_between_runs(&mut self) {
        let Some(rest) = self.rest.take() else { return };
        let again = self
            .last()
            .filter(|block| block.count() > 1 && !has_recovery(block))
            .and_then(|block| Block::parse(&format!("{}, {}", block.text, rest.text)).ok());
        match (again, self.last()) {
            (Some(again), Some(last)) => {
                *last = Block { label: last.label.take(), start: last.start, ..again };
            }
            _ => self.rest = Some(rest),
        }
    }

    /// The same behind several groups that stand together: a rest with nothing behind it lies between the runs of each.
    pub(crate) fn settle_rest_of_groups(&mut self) {
        let Some(rest) = self.rest.clone() else { return };
        let with_rest = |block: &Block| {
            let is_free = block.count() > 1 && !has_recovery(block);
            is_free.then(|| Block::parse(&format!("{}, {}", block.text, rest.text)).ok()).flatten()
        };
        let Some(last) = self.last().and_then(|block| with_rest(block)) else { return };
        let Some(others) = self.blocks_of_groups().map(|block| with_rest(block)).collect::<Option<Vec<_>>>()
        else {
            return;
        };
        let put = |block: &mut Block, again: Block| {
            *block = Block { label: block.label.take(), start: block.start, ..again };
        };
        self.blocks_of_groups().zip(others).for_each(|(block, again)| put(block, again));
        self.last().into_iter().for_each(|block| put(block, last.clone()));
        self.rest = None;
    }

    /// The last block of each group in front of the last one, as far as none is named again.
    pub(crate) fn blocks_of_groups(&mut self) -> impl Iterator<Item = &mut Block> {
        let mut names: Vec<String> = Vec::new();
        let mut parts = self.workout.parts.iter_mut().rev();
        names.extend(parts.next().and_then(|part| part.group.clone()));
        parts
            .map_while(move |part| {
                let name = part.group.clone().filter(|name| !names.contains(name))?;
                names.push(name);
                Some(part)
            })
            .filter_map(|part| part.blocks.last_mut())
    }

    /// The recovery behind the last of several groups that stand together is all groups', unless another has one.
    pub(crate) fn share_recovery(&mut self) {
        let last = self.workout.parts.last().filter(|part| part.group.is_some());
        let Some(Body::Runs(series)) = last.and_then(|part| part.blocks.last()).map(|block| &block.body)
        else {
            return;
        };
        let recovery = series.details.recovery.clone();
        if recovery == Recovery::default() {
            return;
        }
        for block in self.blocks_of_groups() {
            if block.count() < 2 || has_recovery(block) {
                continue;
            }
            if let Ok(again) = Block::parse(&format!("{}{recovery}", block.text)) {
                *block = Block { label: block.label.take(), start: block.start, ..again };
            }
        }
    }

    /// Whether the headings of several groups with their athletes stand right above, of which one is named again in front of
    /// what it does: what stands between is everybody's.
    pub(crate) fn is_behind_rosters(&self, below: &[Line<'_>]) -> bool {
        let Some(part) = self.workout.parts.last().filter(|part| part.blocks.is_empty()) else {
            return false;
        };
        let Some(last) = part.group.as_ref().filter(|_| !part.athletes.is_empty()) else { return false };
        let is_stacked = self.declared.iter().any(|declared| declared.above.as_ref() == Some(last));
        let is_one = |name: String| {
            let name = self.labels.name(name);
            name == *last || self.declared.iter().any(|declared| declared.group == name)
        };
        let names_one = |line: &Line<'_>| {
            let named = line.named_group().map(|(group, _)| group.to_owned());
            let heading = || Some(line.lexed.text.trim_end_matches(':').trim().to_owned());
            let label = || line.group_label(false).and_then(|label| label.group);
            named.or_else(label).or_else(heading).is_some_and(is_one)
        };
        self.is_below_roster && is_stacked && below.iter().any(names_one)
    }

    /// Groups of which nothing is said below do what the group does whose heading stands right below theirs; else their
    /// headings are kept as notes.
    pub(crate) fn settle_declared(&mut self) {
        for Declared { group, athletes, above } in std::mem::take(&mut self.declared).into_iter().rev() {
            let same = self.workout.parts.iter().position(|part| part.group.is_some() && part.group == above);
            match same.filter(|&at| !self.workout.parts[at].blocks.is_empty()) {
                Some(at) => {
                    let own = Part { group: Some(group), athletes, ..self.workout.parts[at].clone() };
                    self.workout.parts.insert(at, own);
                }
                None => self.keep_heading(Some(format!("{group} ({})", athletes.join(", ")))),
            }
        }
    }

    /// The group that a piece of a line names, and what it does.
    pub(crate) fn group_of(&self, line: &Line<'_>, piece: &Piece) -> Option<(GroupLabel, Range<usize>)> {
        let (Piece::Note(range) | Piece::Runs(range) | Piece::More(range)) = piece else { return None };
        if range.start == 0 {
            return None;
        }
        let mut label = group_label(&line.lexed.part(range.clone()), 0)?;
        label.span = range.start + label.span.start..range.start + label.span.end;
        let behind = range.start + label.end..range.end;
        Some((label, behind))
    }

    /// Refuses a group behind runs of the same line that are nobody's.
    pub(crate) fn refuse_group(&mut self, line: &Line<'_>, label: &GroupLabel) {
        let span = line.start + label.span.start..line.start + label.span.end;
        let problem = Problem::new(span.clone(), format!("`{}` are another group", &self.text[span]));
        self.problems.push(problem.with_help("write each group on its own line, with its name in front"));
    }
}

/// Whether a recovery is given for any run of a block.
fn has_recovery(block: &Block) -> bool {
    block.steps().iter().any(|step| step.gap.is_some() || step.recovery.is_some())
}

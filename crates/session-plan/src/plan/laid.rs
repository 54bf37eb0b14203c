//! The blocks of a crew laid out, before they have times.

use std::sync::Arc;

use lane_distance::{LaneNumber, Track};
use wave_plan::ItineraryPlan;
use workout_notation::{Block, Body, RunLength};

use crate::files::limit::Limit;
use crate::people::session::{BETWEEN_BLOCKS_S, Group, Session};
use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::block_part::parts;
use crate::plan::crew::Crew;
use crate::plan::draft::Draft;
use crate::plan::fault::{PlanError, PlanFault, Planned};
use crate::plan::on_foot::JOG_M_PER_S;
use crate::plan::plan_block::PlanBlock;
use crate::plan::trial::TrialChange;
use crate::plan::warning::Warning;

/// What the blocks that have been laid out come to.
#[derive(Default)]
pub(crate) struct Counted {
    reps: u32,
    /// The repetitions of each athlete.
    runs: usize,
}

/// A crew with its blocks laid out.
pub(crate) struct Laid<'a> {
    pub(crate) crew: Crew<'a>,
    /// What it does in order.
    pub(crate) entries: Vec<Entry>,
    pub(crate) drafts: Vec<Draft<'a>>,
    /// How long each draft begins after the end of the one before.
    pub(crate) after_s: Vec<f64>,
    /// Whether a break was assumed between two of its blocks.
    pub(crate) has_break: bool,
    /// What lies behind its last block, where something follows.
    last_break: Break,
}

impl Laid<'_> {
    /// When it is done with all its blocks, in seconds from the start of the session.
    fn end_s(&self, planned: &[ItineraryPlan]) -> f64 {
        let mut ends = planned.iter().map(|planned| planned.end_s);
        self.entries.iter().fold(self.crew.begins_s, |now_s, entry| match entry {
            Entry::Note(rest_s, note) => now_s + rest_s + note.lasts_s.unwrap_or(0.0),
            Entry::Runs(parts) => ends.by_ref().take(*parts).last().unwrap_or(now_s),
        })
    }

    /// The lanes of those whom nobody names, who run in one lane.
    pub(crate) fn single_lanes(&self) -> impl Iterator<Item = u8> {
        let drafts = self.drafts.iter().filter(|draft| draft.is_nameless());
        drafts.flat_map(|draft| &draft.lanes).map(|lane| lane.lane.get())
    }

    /// Whether some time of it was estimated.
    pub(crate) fn is_about(&self) -> bool {
        self.crew.begins_about || self.drafts.iter().any(|draft| !draft.is_timed())
    }

    /// How long it begins after another whom it goes on from, in seconds.
    fn break_s(&self, before: &Self) -> f64 {
        match before.last_break {
            Break::Usual if self.drafts.is_empty() => 0.0,
            Break::Usual => self.crew.session.between_blocks_s.unwrap_or(BETWEEN_BLOCKS_S),
            _ => before.last_break.given_s(),
        }
    }

    /// Begins it when those who do it are done with what they did before.
    pub(crate) fn begin_after(&mut self, before: &[Self], planned: &[Vec<ItineraryPlan>]) {
        let does = |crew: &Crew<'_>, group: &Group| crew.groups.iter().any(|own| std::ptr::eq(*own, group));
        for (other, planned) in before.iter().zip(planned) {
            if !other.crew.groups.iter().any(|group| does(&self.crew, group)) {
                continue;
            }
            let break_s = self.break_s(other);
            self.has_break |= matches!(other.last_break, Break::Usual) && !self.drafts.is_empty();
            self.crew.begins_s = self.crew.begins_s.max(other.end_s(planned) + break_s);
            self.crew.begins_about |= other.is_about();
        }
    }
}

/// Something that a crew does.
pub(crate) enum Entry {
    /// What is not a run, and how long after the one before it begins, in seconds.
    Note(f64, Box<PlanBlock>),
    /// The runs of the next drafts, so many: the parts of a block.
    Runs(usize),
}

/// What lies between a block and the next.
enum Break {
    Nothing,
    /// As between all blocks.
    Usual,
    /// So many seconds, as the block says.
    Given(f64),
}

impl Break {
    /// What a block says of it. The rest behind one run alone lies behind the block, and is no shorter than the break that
    /// the session gives.
    fn after(block: &Block, session: &Session, otherwise: Self) -> Self {
        let of_one = || Some(block.rest_behind_one()?.max(session.between_blocks_s.unwrap_or(0.0)));
        let rest_s = block.rest_after.as_ref().map(|rest| rest.seconds);
        rest_s.or_else(of_one).map_or(otherwise, Self::Given)
    }

    /// What a block says of it, in seconds.
    fn given_s(&self) -> f64 {
        if let Self::Given(rest_s) = self { *rest_s } else { 0.0 }
    }
}

/// Lays out the blocks of a crew that are not left out; `counted` is what the evening comes to so far, and what cannot
/// be laid out is added to `errors`.
pub(crate) fn lay_out<'a>(
    venue: &Venue,
    track: &impl Fn(usize) -> Arc<Track>,
    crew: Crew<'a>,
    counted: &mut Counted,
    warnings: &mut Vec<Warning>,
    errors: &mut Vec<PlanError>,
) -> Laid<'a> {
    let between_s = crew.session.between_blocks_s.unwrap_or(BETWEEN_BLOCKS_S);
    let blocks = crew.blocks;
    let mut laid = Laid {
        entries: Vec::new(),
        drafts: Vec::new(),
        after_s: Vec::new(),
        has_break: false,
        last_break: Break::Nothing,
        crew,
    };
    let mut pending_s = 0.0;
    // The first block needs no break before it, and one after a note none either.
    let mut before = Break::Nothing;
    for (index, block) in blocks.iter().enumerate() {
        let at = BlockAt { group: laid.crew.own, block: laid.crew.first_block + index };
        let is_skipped = laid.crew.session.late.skips(at, laid.crew.name().as_deref());
        if is_skipped || laid.crew.tried(at) == Some(&TrialChange::Drop) {
            continue;
        }
        counted.reps = counted.reps.saturating_add(block.count());
        if counted.reps as usize > Limit::Reps.most() {
            errors.push(PlanError { at, fault: PlanFault::TooManyReps.at(0..block.text.len()) });
            break;
        }
        let athletes: usize = laid.crew.groups.iter().map(|group| group.athletes.len()).sum();
        counted.runs += athletes * block.count() as usize;
        if counted.runs > Limit::Runs.most() {
            errors.push(PlanError { at, fault: PlanFault::TooManyRuns.at(0..block.text.len()) });
            break;
        }
        if block.count() == 0 {
            let note = note(&track(laid.drafts.len()), &laid.crew, at, block);
            let rest_s = before.given_s();
            // A note without a duration takes no time of its own.
            pending_s += rest_s + note.lasts_s.unwrap_or(0.0);
            laid.entries.push(Entry::Note(rest_s, Box::new(note)));
            before = Break::after(block, laid.crew.session, Break::Nothing);
            continue;
        }
        let rest_s = if matches!(before, Break::Usual) { between_s } else { before.given_s() };
        laid.has_break |= matches!(before, Break::Usual);
        if let Err(fault) = laid.add(venue, track, (at, block), pending_s + rest_s, warnings) {
            errors.push(PlanError { at, fault });
        }
        (pending_s, before) = (0.0, Break::after(block, laid.crew.session, Break::Usual));
    }
    laid.last_break = before;
    laid
}

impl<'a> Laid<'a> {
    /// Goes on to the blocks of another crew of the same people.
    pub(crate) fn go_on(&mut self, mut next: Self) {
        let break_s = next.break_s(self);
        let notes = self.entries.iter().rev().map_while(|entry| match entry {
            Entry::Note(rest_s, note) => Some(rest_s + note.lasts_s.unwrap_or(0.0)),
            Entry::Runs(_) => None,
        });
        if let Some(after_s) = next.after_s.first_mut() {
            *after_s += notes.sum::<f64>() + break_s;
        }
        if let Some(Entry::Note(rest_s, _)) = next.entries.first_mut() {
            *rest_s += break_s;
        }
        self.has_break |=
            next.has_break || !next.drafts.is_empty() && matches!(self.last_break, Break::Usual);
        self.entries.append(&mut next.entries);
        self.drafts.append(&mut next.drafts);
        self.after_s.append(&mut next.after_s);
        self.last_break = next.last_break;
    }

    /// Lays out a block that has runs, part by part; the first begins so long after what is before it, in seconds.
    fn add(
        &mut self,
        venue: &Venue,
        track: &impl Fn(usize) -> Arc<Track>,
        (at, block): (BlockAt, &'a Block),
        mut after_s: f64,
        warnings: &mut Vec<Warning>,
    ) -> Planned<()> {
        let first = self.drafts.len();
        for part in parts(&self.crew, &block.steps()) {
            let ground = track(self.drafts.len());
            let draft = Draft::new(venue, ground, &self.crew, (at, block, &part), warnings)?;
            if draft.entrants.is_empty() {
                continue;
            }
            let rest_s = draft.rest_after_s();
            self.drafts.push(draft);
            self.after_s.push(std::mem::replace(&mut after_s, rest_s));
        }
        self.entries.push(Entry::Runs(self.drafts.len() - first));
        Ok(())
    }
}

/// How far a length is on the inside, in metres.
fn metres(track: &Track, length: RunLength) -> f64 {
    match length {
        RunLength::Metres(metres) => metres,
        RunLength::Laps(laps) => laps * track.lap_m(LaneNumber::FIRST).unwrap_or_default(),
    }
}

/// A block that is not a run; what a whole squad does is nobody's in particular.
fn note(track: &Track, crew: &Crew<'_>, at: BlockAt, block: &Block) -> PlanBlock {
    let is_everybodys = crew.has_names() && crew.own.is_none();
    let mut planned = PlanBlock::empty(at, block, crew.name().filter(|_| !is_everybodys), crew.group_names());
    if let Body::Note { words, lasts_s, length } = &block.body {
        planned.note = Some(words.clone());
        planned.lasts_s = lasts_s.or(length.map(|length| (metres(track, length) / JOG_M_PER_S).round()));
        planned.lasts_about = lasts_s.is_none() && length.is_some();
    }
    planned
}

//! A block as the sheets print it.

use crate::words::numbers::clock;
use chrono::NaiveTime;
use serde::Serialize;
use session_plan::{Plan, PlanBlock};
use workout_notation::{Block, Gap, Pace, Spanned, Step};

use crate::sheet::place_row::{Alike, PlaceRow, has_one_target, place_rows};
use crate::sheet::sheet_row::SheetRow;
use crate::sheet::wave::{Wave, waves};
use crate::words::{caution, coach, day, groups, handover, pace_changes, reading, remark, total};

/// A block of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct SheetBlock {
    /// Its place in the session, from 1.
    pub(crate) number: usize,
    /// The block as it was written.
    pub(crate) text: String,
    /// The block as it was read.
    pub(crate) reading: String,
    /// What could be read in another way, and what was not read.
    pub(crate) unsure: Vec<String>,
    /// The group that does it, or the groups.
    pub(crate) group: Option<String>,
    /// How long it lasts, where it has no runs.
    pub(crate) lasts: Option<String>,
    /// When its first run goes and its last one is done, where that is known.
    pub(crate) when: Option<String>,
    /// How far each of its runners runs in all.
    pub(crate) total: Option<String>,
    /// Its runs.
    pub(crate) rows: Vec<SheetRow>,
    /// Where they start and finish, each place said once.
    pub(crate) places: Vec<PlaceRow>,
    /// Its waves, with who runs in them.
    pub(crate) waves: Vec<Wave>,
    /// Whether some who run side by side have other targets than the rest.
    pub(crate) has_own_targets: bool,
    /// Whether the block itself says the time of each run.
    #[serde(skip)]
    pub(crate) writes_targets: bool,
    /// Whether any run has a number of its set.
    pub(crate) has_sets: bool,
    /// Whether runs go in waves.
    pub(crate) has_waves: bool,
    /// How many repetitions it has.
    #[serde(skip)]
    pub(crate) count: u32,
    /// The repetitions after which the next go counts from the last one, not from the finish.
    #[serde(skip)]
    pub(crate) cycle_reps: Vec<u32>,
    /// Whether batons are handed on in it.
    #[serde(skip)]
    pub(crate) has_handovers: bool,
    /// Where the coach stands.
    pub(crate) coach: Option<String>,
    /// What its runs come by, to be read before it is run.
    pub(crate) cautions: Vec<String>,
    /// What cannot be done as it is written, to be read first.
    pub(crate) impossible: Vec<String>,
    /// Where its runs change from fast to easy or back, and where its batons are handed on.
    pub(crate) on_the_way: Vec<String>,
    /// What else there is to say of it.
    pub(crate) remarks: Vec<String>,
    /// Those of them that change how it is run.
    #[serde(skip)]
    pub(crate) changes: Vec<String>,
    /// The others of them.
    #[serde(skip)]
    pub(crate) other_remarks: Vec<String>,
}

impl SheetBlock {
    pub(crate) fn of(plan: &Plan, number: usize, block: &PlanBlock) -> Self {
        let mut rows: Vec<SheetRow> = block.reps.iter().map(|rep| SheetRow::of(plan, rep)).collect();
        rows.sort_by_key(|row| (row.rep, row.wave, row.lane));
        let has_own_targets = !has_one_target(&rows) || rows.iter().any(|row| !row.own_times.is_empty());
        let mut waves = waves(&rows);
        waves.iter_mut().for_each(|wave| wave.names_targets = has_own_targets);
        let (impossible, remarks): (Vec<_>, Vec<_>) =
            block.remarks.iter().partition(|remark| remark.is_impossible());
        let (changes, others): (Vec<_>, Vec<_>) =
            remarks.iter().copied().partition(|of| remark::changes_runs(of));
        let has_handovers = block.reps.iter().any(|rep| rep.handover.is_some());
        let is_time = |step: &Step<'_>| matches!(step.pace, Some(Spanned { value: Pace::Time { .. }, .. }));
        Self {
            number,
            writes_targets: block.read.steps().iter().all(is_time),
            text: block.text().to_owned(),
            reading: reading::said(&block.read),
            unsure: reading::unsure(&block.read),
            group: groups::groups(plan, block),
            lasts: block
                .lasts_s
                .filter(|_| block.reps.is_empty())
                .map(|lasts_s| lasts(lasts_s, block.lasts_about)),
            has_sets: block.reps.iter().any(|rep| rep.set > 1),
            has_waves: block.reps.iter().any(|rep| rep.wave > 1),
            has_handovers,
            count: block.reps.iter().map(|rep| rep.rep).max().unwrap_or_default(),
            cycle_reps: cycle_reps(&block.read),
            when: when(plan, block),
            has_own_targets,
            places: place_rows(&rows, if has_own_targets { Alike::Places } else { Alike::Aims }),
            // The two of an exchange run another part of the way each.
            total: total::total(&waves).filter(|_| !has_handovers),
            waves,
            rows,
            coach: block.coach.as_ref().map(coach::coach),
            cautions: caution::of_block(block),
            impossible: impossible.iter().copied().map(remark::remark).collect(),
            on_the_way: [pace_changes::pace_changes(plan, block), handover::handovers(plan, block)].concat(),
            changes: changes.into_iter().map(remark::remark).collect(),
            other_remarks: others.into_iter().map(remark::remark).collect(),
            remarks: remarks.iter().copied().map(remark::remark).collect(),
        }
    }
}

impl SheetBlock {
    /// Its runs, each the rows that go together, in the order of their starts.
    pub(crate) fn runs(&self) -> impl Iterator<Item = &[SheetRow]> {
        self.rows.chunk_by(|a, b| (a.rep, a.wave) == (b.rep, b.wave))
    }

    /// Whether anybody who runs it is named.
    pub(crate) fn has_names(&self) -> bool {
        self.rows.iter().any(|row| !row.athletes.is_empty())
    }

    /// Its places where people are named, who each have their times; else its places and times.
    pub(crate) fn places_and_times(&self) -> Vec<PlaceRow> {
        place_rows(&self.rows, if self.has_names() { Alike::Places } else { Alike::Times })
    }
}

/// The repetitions of a block that are followed by a cycle, not by a rest.
fn cycle_reps(block: &Block) -> Vec<u32> {
    let steps = (1..).zip(block.steps());
    steps.filter(|(_, step)| matches!(step.gap, Some(Gap::Cycle(_)))).map(|(rep, _)| rep).collect()
}

/// How long a block without places lasts.
fn lasts(lasts_s: f64, is_about: bool) -> String {
    let about = if is_about { "about " } else { "" };
    format!("{about}{}", clock(lasts_s))
}

/// When the first run of a block goes and the last one is done, where that is known.
fn when(plan: &Plan, block: &PlanBlock) -> Option<String> {
    if let (Some(begins), Some(begins_s)) = (plan.begins, block.begins_s) {
        let about = if block.begins_about { "about " } else { "" };
        // What has no length is followed in the same minute.
        let is_open = block.begins_about || block.lasts_s.is_none();
        let begins_s = if is_open { begins_s } else { (begins_s / 60.0).ceil() * 60.0 };
        return Some(format!("from {about}{}", day::minute(day::later(begins, begins_s))));
    }
    let go_s = block.reps.iter().filter_map(|rep| rep.go_s).reduce(f64::min)?;
    let done_s = block.reps.iter().filter_map(|rep| rep.done_s).reduce(f64::max);
    let minute = |begins: NaiveTime, seconds: f64| day::minute(day::later(begins, seconds));
    let about = if block.reps.iter().any(|rep| rep.is_about) { "about " } else { "" };
    match (plan.begins, done_s) {
        // A run that is done within a minute takes that minute.
        (Some(begins), Some(done_s)) => {
            let full_s = (done_s / 60.0).ceil() * 60.0;
            Some(format!("{} to {about}{}", minute(begins, go_s), minute(begins, full_s)))
        }
        (Some(begins), None) => Some(format!("from {}", minute(begins, go_s))),
        (None, Some(done_s)) => Some(format!("{} to {about}{}", clock(go_s), clock(done_s))),
        // That the first run goes at 0 s says nothing.
        (None, None) => None,
    }
}

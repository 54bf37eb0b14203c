//! What would bring a session in that ends after its booking: it is planned anew with a change.

use chrono::TimeDelta;
use lane_distance::{LaneNumber, Track};
use workout_notation::{Block, Gap};

use crate::people::hours::Hours;
use crate::people::session::Session;
use crate::people::venue::Venue;
use crate::plan::day_track::DayTrack;
use crate::plan::evening::{Evening, evening};
use crate::plan::kept::Kept;
use crate::plan::overrun::{Overrun, Remedy, RemedyKind};
use crate::plan::plan_block::PlanBlock;
use crate::plan::trial::{BlockOf, Trial, TrialChange};

/// An evening with more runs than this is not planned anew to see what would bring it in: it would take too long.
const MOST_RUNS: usize = 4_000;

/// The most plans that are tried for each kind of remedy.
const MOST_TRIED: usize = 2;

/// A rest is not cut below this share of itself, nor to less than [`LEAST_REST_S`].
const LEAST_SHARE: f64 = 0.5;

/// The least rest that is proposed, in seconds.
const LEAST_REST_S: f64 = 30.0;

/// Rests are proposed in steps of this, in seconds.
const REST_STEP_S: f64 = 5.0;

/// How a session with its track is planned anew.
pub(crate) struct Retrial<'a> {
    pub(crate) venue: &'a Venue,
    pub(crate) track: &'a Track,
    /// When the track is the squad's.
    pub(crate) hours: Option<Hours>,
    pub(crate) session: &'a Session,
    pub(crate) kept: &'a Kept,
    pub(crate) blocks: &'a [PlanBlock],
}

impl Retrial<'_> {
    /// That the session ends after its booking, if it does, and what would bring it in.
    pub(crate) fn overrun(&self, ends_s: f64) -> Option<Overrun> {
        let (hours, begins) = (self.session.hours?, self.session.begins()?);
        let spare_s = |ends_s: f64| (hours.to - begins).num_milliseconds() as f64 / 1000.0 - ends_s;
        let over_s = -spare_s(ends_s);
        if over_s <= 0.0 {
            return None;
        }
        let at = |ends_s: f64| begins + TimeDelta::milliseconds((ends_s * 1000.0).round() as i64);
        let mut remedies = Vec::new();
        for tried in [self.drops(over_s), self.rests(over_s), self.more_lanes()] {
            let mut best: Option<Remedy> = None;
            for (number, kind, change) in tried.into_iter().take(MOST_TRIED) {
                let block = &self.blocks[number - 1];
                let trial = Trial { block: key(block), change };
                let Some(ends_s) = self.ends_s(&trial, &kind).filter(|new_s| *new_s < ends_s) else {
                    continue;
                };
                let remedy = Remedy {
                    kind,
                    number,
                    block: block.text().to_owned(),
                    ends: at(ends_s),
                    spare_s: spare_s(ends_s),
                };
                let is_enough = remedy.spare_s >= 0.0;
                if best.as_ref().is_none_or(|best| remedy.spare_s > best.spare_s) {
                    best = Some(remedy);
                }
                if is_enough {
                    break;
                }
            }
            remedies.extend(best);
        }
        // What does not help enough is worth a word only where nothing does.
        let most_s = remedies.iter().map(|remedy| remedy.spare_s).fold(f64::NEG_INFINITY, f64::max);
        remedies.retain(|remedy| remedy.spare_s >= most_s.min(0.0));
        Some(Overrun { ends: at(ends_s), over_s, booked_until: hours.to, remedies })
    }

    /// When the session ends with a change, in seconds from its start.
    fn ends_s(&self, trial: &Trial, kind: &RemedyKind) -> Option<f64> {
        let plan = |venue: &Venue| {
            evening(venue, &DayTrack::new(venue, self.hours), self.session, self.kept, Some(trial))
                .ok()
                .and_then(|found: Evening| found.ends_s)
        };
        match kind {
            RemedyKind::Lanes { opened, .. } if !opened.is_empty() => {
                plan(&self.venue.clone().with_all_open())
            }
            _ => plan(self.venue),
        }
    }

    /// The blocks of those who are done last that have runs, with their numbers.
    fn last_blocks(&self) -> Vec<(usize, &PlanBlock)> {
        let done_s = |block: &PlanBlock| block.reps.iter().filter_map(|rep| rep.done_s).fold(0.0, f64::max);
        let runs: usize = self.blocks.iter().map(|block| block.reps.len()).sum();
        let last = self.blocks.iter().max_by(|a, b| done_s(a).total_cmp(&done_s(b)));
        let Some(last) = last.filter(|_| runs <= MOST_RUNS) else { return Vec::new() };
        let is_theirs = |block: &PlanBlock| (block.at.group, &block.group) == (last.at.group, &last.group);
        (1..).zip(self.blocks).filter(|(_, block)| !block.reps.is_empty() && is_theirs(block)).collect()
    }

    /// The blocks to leave out: the shortest that is long enough, then the longest.
    fn drops(&self, over_s: f64) -> Vec<(usize, RemedyKind, TrialChange)> {
        let mut blocks = self.last_blocks();
        let is_short = |block: &PlanBlock| lasts_s(block) < over_s;
        blocks.sort_by(|(_, a), (_, b)| {
            is_short(a).cmp(&is_short(b)).then_with(|| match is_short(a) {
                true => lasts_s(b).total_cmp(&lasts_s(a)),
                false => lasts_s(a).total_cmp(&lasts_s(b)),
            })
        });
        blocks.into_iter().map(|(number, _)| (number, RemedyKind::Drop, TrialChange::Drop)).collect()
    }

    /// The rests to shorten: those of the block that rests longest.
    fn rests(&self, over_s: f64) -> Vec<(usize, RemedyKind, TrialChange)> {
        let mut found: Vec<(f64, usize, f64)> = Vec::new();
        for (number, planned) in self.last_blocks() {
            let Some((rest_s, count)) = self.block(planned).and_then(one_rest) else { continue };
            found.push((rest_s * count as f64, number, rest_s));
        }
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut tried = Vec::new();
        for (total_s, number, rest_s) in found {
            let step = |rest_s: f64| (rest_s / REST_STEP_S).floor() * REST_STEP_S;
            let least_s = (step(rest_s * LEAST_SHARE)).max(LEAST_REST_S);
            let enough_s = step(rest_s - over_s / (total_s / rest_s));
            let to_s = enough_s.max(least_s);
            if to_s < rest_s {
                tried.push((number, RemedyKind::Rest { from_s: rest_s, to_s }, TrialChange::Rest(to_s)));
            }
        }
        tried
    }

    /// The lanes to open: for the block with most waves, all that are open, then all.
    fn more_lanes(&self) -> Vec<(usize, RemedyKind, TrialChange)> {
        let waves = |block: &PlanBlock| block.reps.iter().map(|rep| rep.wave).max().unwrap_or(1);
        let blocks = self.last_blocks();
        let most = blocks.into_iter().rev().max_by_key(|(_, block)| waves(block));
        let Some((number, block)) = most.filter(|(_, block)| waves(block) > 1) else { return Vec::new() };
        let mut used: Vec<LaneNumber> = block.reps.iter().map(|rep| rep.lane).collect();
        used.sort_unstable();
        used.dedup();
        let course = block.reps[0].course;
        let open = self.track.open_lanes(course);
        let all: Vec<LaneNumber> = self.track.layout().lane_numbers(course).collect();
        let mut tried = Vec::new();
        for lanes in [open.clone(), all] {
            let is_known = |(_, _, known): &(usize, RemedyKind, TrialChange)| {
                *known == TrialChange::Lanes(lanes.clone())
            };
            if lanes.len() > used.len() && !tried.iter().any(is_known) {
                let opened = lanes.iter().copied().filter(|lane| !open.contains(lane)).collect();
                let kind = RemedyKind::Lanes { lanes: lanes.clone(), opened };
                tried.push((number, kind, TrialChange::Lanes(lanes)));
            }
        }
        tried
    }

    /// A block as it was read.
    fn block(&self, planned: &PlanBlock) -> Option<&Block> {
        let own = planned.at.group.and_then(|group| self.session.groups.get(group));
        let blocks = own.map_or(Some(&self.session.blocks), |group| group.blocks.as_ref());
        blocks.and_then(|blocks| blocks.get(planned.at.block))
    }
}

fn key(block: &PlanBlock) -> BlockOf {
    (block.at, block.group.clone())
}

fn lasts_s(block: &PlanBlock) -> f64 {
    let go_s = block.reps.iter().filter_map(|rep| rep.go_s).fold(f64::INFINITY, f64::min);
    block.reps.iter().filter_map(|rep| rep.done_s).fold(0.0, f64::max) - go_s.min(f64::MAX)
}

/// The rest between the runs of a block, and how many there are, where all are the same.
fn one_rest(block: &Block) -> Option<(f64, usize)> {
    let steps = block.steps();
    let (_, before) = steps.split_last()?;
    let Gap::Rest(rest_s) = before.first()?.gap? else { return None };
    before.iter().all(|step| step.gap == Some(Gap::Rest(rest_s))).then_some((rest_s, before.len()))
}

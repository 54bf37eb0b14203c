//! Where the first run of a block can start and finish.

use std::collections::BTreeSet;

use lane_distance::{LaneNumber, Pair, Place, Track};
use workout_notation::{Block, RunKind, Spanned, Step};

use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::fault::{PlanFault, Planned};
use crate::plan::location::{Share, location};
use crate::plan::pairing::{self, Prefer};

/// The pairs of start and finish worth having for the first run of a block, best first: in the lane
/// that it names, else in the one that the house rules or the track give.
///
/// # Errors
///
/// A [`PlanFault`] with its place in the block's text, where the distance does not fit, the lane is
/// missing or closed, the block names several lanes, or it is not a run.
pub fn pairs(venue: &Venue, block: &Block) -> Result<Vec<Pair>, Spanned<PlanFault>> {
    let track = venue.track();
    let steps = block.steps();
    let Some(first) = steps.first() else { return Err(PlanFault::NotARun.at(0..block.text.len())) };
    let at = BlockAt { group: None, block: 0 };
    let found = location(
        track,
        &venue.rules,
        None,
        at,
        first,
        None,
        Share::OneLane { of_all: None, taken: &BTreeSet::new() },
    )?;
    let [lane] = found.lanes.as_slice() else { return Err(PlanFault::SeveralLanes.at_lanes(first)) };
    let pairs = pairs_at(track, first, found.place, *lane)?;
    if let Some(pair) = pairs.first() {
        pairing::check_lane(track, first, pair.start.course, *lane)?;
    }
    Ok(pairs)
}

/// The same in a lane, whatever lanes the block names.
///
/// # Errors
///
/// A [`PlanFault`] with its place in the block's text, where the distance does not fit, or it is not a run.
pub fn pairs_in_lane(
    venue: &Venue,
    block: &Block,
    lane: LaneNumber,
) -> Result<Vec<Pair>, Spanned<PlanFault>> {
    let track = venue.track();
    let steps = block.steps();
    let Some(first) = steps.first() else { return Err(PlanFault::NotARun.at(0..block.text.len())) };
    let at = BlockAt { group: None, block: 0 };
    let found = location(track, &venue.rules, None, at, first, Some(vec![lane.get()]), Share::AllLanes)?;
    pairs_at(track, first, found.place, lane)
}

fn pairs_at(track: &Track, first: &Step<'_>, place: Place, lane: LaneNumber) -> Planned<Vec<Pair>> {
    let pairs = pairing::pairs(track, first, place, lane, Prefer::default())?;
    if pairs.is_empty() && matches!(first.run.kind.value, RunKind::Timed { .. }) {
        return Err(PlanFault::NoFinish.at_run(first));
    }
    Ok(pairs)
}

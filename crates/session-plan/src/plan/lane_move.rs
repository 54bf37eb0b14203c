//! Lanes that have been closed, and the open ones that take their place.

use std::collections::BTreeSet;

use lane_distance::{Course, LaneNumber, Place, Track};
use serde::Serialize;
use workout_notation::{Block, RunPlace, Step};

use crate::people::house_rules::LaneRule;
use crate::people::session::Session;
use crate::plan::block_at::BlockAt;

/// A lane that a block of the session can no longer use.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LaneMove {
    /// The block.
    #[serde(skip)]
    pub at: BlockAt,
    /// The block as it was written.
    pub block: String,
    /// The lane that has been closed.
    pub from: LaneNumber,
    /// The lane that takes its place; nothing where no other is open, and the block has a lane less.
    pub to: Option<LaneNumber>,
}

/// The lanes of a block after some have been closed late: each that is closed gives its place to an open one, or to
/// none where all are taken. Where not even one is left, they stay as they are, for the closed lane to be refused.
///
/// Of the open lanes on the same ground, the first is one that no other group names, that the house rule allows, that
/// is nearest, and that lies further out.
pub(crate) fn move_lanes(
    track: &Track,
    session: &Session,
    (at, block): (BlockAt, &Block),
    step: &Step<'_>,
    rule: Option<&LaneRule>,
    named: &[u8],
) -> (Vec<u8>, Vec<LaneMove>) {
    let is_closed = |lane: u8| session.late.closed.iter().any(|closed| closed.get() == lane);
    if !named.iter().any(|&lane| is_closed(lane)) {
        return (named.to_vec(), Vec::new());
    }
    let open: Vec<u8> =
        track.open_lanes(course(track, step, named)).into_iter().map(LaneNumber::get).collect();
    let others = named_by_others(session, at);
    let (mut lanes, mut moves) = (Vec::with_capacity(named.len()), Vec::new());
    for &lane in named {
        if !is_closed(lane) {
            lanes.push(lane);
            continue;
        }
        let free = open.iter().copied().filter(|open| !named.contains(open) && !lanes.contains(open));
        let to = free.min_by_key(|&free| {
            let is_ruled_out = rule.is_some_and(|rule| !rule.lanes.contains(&free));
            (others.contains(&free), is_ruled_out, free.abs_diff(lane), free < lane)
        });
        lanes.extend(to);
        let (from, to) = (LaneNumber::new(lane), to.and_then(LaneNumber::new));
        let block = block.text.trim().to_owned();
        moves.extend(from.map(|from| LaneMove { at, block, from, to }));
    }
    if lanes.is_empty() { (named.to_vec(), Vec::new()) } else { (lanes, moves) }
}

/// The ground whose lanes a block can move to: that of its place; else the oval where its lanes all are there.
fn course(track: &Track, step: &Step<'_>, named: &[u8]) -> Course {
    match step.place.map(|place| place.value) {
        Some(RunPlace::At(Place::On(course) | Place::Against(course))) => course,
        Some(RunPlace::Wind { on, .. }) => on.unwrap_or(Course::HomeStraight),
        Some(RunPlace::At(Place::Bend)) => Course::Oval,
        Some(RunPlace::At(Place::Anywhere)) | None => {
            let is_on_oval =
                |lane: &u8| track.layout().lane_numbers(Course::Oval).any(|oval| oval.get() == *lane);
            if named.iter().all(is_on_oval) { Course::Oval } else { Course::HomeStraight }
        }
    }
}

/// The lanes that the groups name which do not do a block.
fn named_by_others(session: &Session, at: BlockAt) -> BTreeSet<u8> {
    let others = session.groups.iter().enumerate().filter(|(index, group)| match at.group {
        Some(own) => *index != own,
        None => group.blocks.is_some(),
    });
    let mut lanes = BTreeSet::new();
    for (_, group) in others {
        lanes.extend(group.lanes.iter().flatten());
        for step in group.blocks.iter().flatten().flat_map(Block::steps) {
            lanes.extend(step.lanes.into_iter().flat_map(|lanes| lanes.iter().map(|lane| lane.get())));
        }
    }
    lanes
}

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

/// Finds open lanes for those of a block that have been closed late.
pub(crate) struct LaneMover<'a> {
    pub(crate) track: &'a Track,
    pub(crate) session: &'a Session,
    pub(crate) at: BlockAt,
    pub(crate) block: &'a Block,
    pub(crate) step: &'a Step<'a>,
    pub(crate) rule: Option<&'a LaneRule>,
    /// Whether somebody needs two lanes side by side.
    pub(crate) needs_two: bool,
    /// Whether the lanes are those that the session gives everybody.
    pub(crate) are_of_all: bool,
    /// Whether the runs of the block can be laid out in a lane.
    pub(crate) fits: &'a dyn Fn(u8) -> bool,
}

impl LaneMover<'_> {
    /// The lanes of the block after the closing: each that is closed gives its place to an open one, or to none where
    /// all are taken. Where not even one is left, they stay as they are, for the closed lane to be refused. Of lanes that
    /// the session gives everybody those stay that are open, and others are taken where none is.
    ///
    /// Of the open lanes on the same ground where the runs fit, the first is one that lies beside another where
    /// somebody needs two, that the session gives everybody, that no other group names, that the house rule allows, that
    /// is nearest, and that lies further out.
    pub(crate) fn lanes(&self, named: &[u8]) -> (Vec<u8>, Vec<LaneMove>) {
        let is_closed = |lane: u8| self.session.late.closes(self.track, lane);
        if !named.iter().any(|&lane| is_closed(lane)) {
            return (named.to_vec(), Vec::new());
        }
        let still_open = || named.iter().copied().filter(|&lane| !is_closed(lane));
        if self.are_of_all && still_open().next().is_some() {
            return (still_open().collect(), Vec::new());
        }
        let given = self.session.squad.lanes.as_deref();
        let course = course(self.track, self.step, named);
        let open: Vec<u8> = self.track.open_lanes(course).into_iter().map(LaneNumber::get).collect();
        let others = named_by_others(self.session, self.at);
        let (mut lanes, mut moves) = (Vec::with_capacity(named.len()), Vec::new());
        for &lane in named {
            if !is_closed(lane) {
                lanes.push(lane);
                continue;
            }
            let stays = |lane: &u8| lanes.contains(lane) || named.contains(lane) && !is_closed(*lane);
            let free = open.iter().copied().filter(|open| !stays(open) && (self.fits)(*open));
            let has_beside = |lane: u8| open.iter().any(|open| open.abs_diff(lane) == 1 && stays(open));
            let has_two = open.iter().any(|open| stays(open) && has_beside(*open));
            let to = free.min_by_key(|&free| {
                // Where both of two have been closed, the first needs an open lane beside it for the second.
                let alone = match self.needs_two && !has_two && !has_beside(free) {
                    true if open.iter().any(|open| open.abs_diff(free) == 1) => 1,
                    true => 2,
                    false => 0,
                };
                let is_elsewhere = given.is_some_and(|given| !given.contains(&free));
                let is_ruled_out = self.rule.is_some_and(|rule| !rule.lanes.contains(&free));
                (alone, is_elsewhere, others.contains(&free), is_ruled_out, free.abs_diff(lane), free < lane)
            });
            lanes.extend(to);
            let (from, to) = (LaneNumber::new(lane), to.and_then(LaneNumber::new));
            let (at, block) = (self.at, self.block.text.trim().to_owned());
            moves.extend(from.map(|from| LaneMove { at, block, from, to }));
        }
        if lanes.is_empty() { (named.to_vec(), Vec::new()) } else { (lanes, moves) }
    }
}

/// The moves of lanes that athletes have of their own where their block names none: to the nearest that it runs in.
pub(crate) fn move_own_lanes(
    session: &Session,
    (at, block): (BlockAt, &Block),
    own: impl Iterator<Item = u8>,
    (track, open): (&Track, &[LaneNumber]),
    moves: &mut Vec<LaneMove>,
) {
    for lane in own {
        let late = LaneNumber::new(lane).filter(|_| session.late.closes(track, lane));
        let Some(from) = late.filter(|late| moves.iter().all(|known| known.from != *late)) else {
            continue;
        };
        let to = open.iter().copied().min_by_key(|open| (open.get().abs_diff(lane), *open));
        moves.push(LaneMove { at, block: block.text.trim().to_owned(), from, to });
    }
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

//! What has changed since a session was written.

use chrono::NaiveTime;
use lane_distance::{HazardKind, LaneNumber, Track};
use serde::Serialize;

use crate::people::lane_closure::LaneClosure;
use crate::people::wind::Wind;
use crate::plan::block_at::BlockAt;

/// What has changed since a session was written, beside what stands with its groups and athletes.
///
/// The setters of [`Session`](crate::Session) fill it in and check each change.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LateChanges {
    /// When it starts, where that is not the beginning of the booking.
    pub start: Option<NaiveTime>,
    /// The names of the athletes and guides who are absent.
    pub without: Vec<String>,
    /// Lanes that have been closed. What is to be run in them moves to open ones.
    pub closed: Vec<LaneNumber>,
    /// Lanes that are closed for a part of the evening.
    pub closures: Vec<LaneClosure>,
    /// Hazards that have come into use.
    pub hazards: Vec<HazardBegun>,
    /// The wind, where it has turned.
    pub wind: Option<Wind>,
    /// Athletes who come late, and have a group of their own for it behind all others: the group from which each came, and
    /// the place among its athletes, both counted from 0.
    pub apart: Vec<(usize, usize)>,
    /// Blocks that are left out.
    pub skipped: Vec<SkippedBlock>,
}

/// Hazards of a kind that have come into use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct HazardBegun {
    /// What they are.
    pub hazard: HazardKind,
    /// From when on; from the start of the session unless given.
    pub from: Option<NaiveTime>,
}

/// A block that is left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SkippedBlock {
    /// Its number in the plan that has it, from 1.
    pub number: usize,
    /// Its place in the session.
    pub at: BlockAt,
    /// The group that would have done it, as the plan names it.
    pub group: Option<String>,
    /// The block as it was written.
    pub text: String,
}

impl LateChanges {
    /// Whether nothing has changed.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Whether they close a lane, where it is closed on the track at the time.
    pub(crate) fn closes(&self, track: &Track, lane: u8) -> bool {
        let is_for_a_part = self.closures.iter().any(|closure| closure.lanes.contains(&lane));
        self.closed.iter().any(|closed| closed.get() == lane)
            || is_for_a_part && track.closed_lanes().iter().any(|closed| closed.get() == lane)
    }

    /// Whether a block is left out, by its place and its group.
    pub(crate) fn skips(&self, at: BlockAt, group: Option<&str>) -> bool {
        let is_same = |skipped: &SkippedBlock| {
            skipped.at == at && skipped.group.as_deref().is_none_or(|skipped| Some(skipped) == group)
        };
        self.skipped.iter().any(is_same)
    }
}

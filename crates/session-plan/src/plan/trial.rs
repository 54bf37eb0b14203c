//! A change that is tried, to see what it would bring.

use lane_distance::LaneNumber;

use crate::plan::block_at::BlockAt;

/// A block of a crew: its place, and the name of the crew where that is one group.
pub(crate) type BlockOf = (BlockAt, Option<String>);

/// A change to one block of a session that is tried, to see what it would bring.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Trial {
    pub(crate) block: BlockOf,
    pub(crate) change: TrialChange,
}

/// What is tried.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum TrialChange {
    /// Without the block.
    Drop,
    /// With another rest between its runs, in seconds.
    Rest(f64),
    /// In these lanes.
    Lanes(Vec<LaneNumber>),
}

impl Trial {
    /// What is tried with a block.
    pub(crate) fn of(&self, at: BlockAt, group: Option<&str>) -> Option<&TrialChange> {
        (self.block.0 == at && self.block.1.as_deref() == group).then_some(&self.change)
    }
}

//! A session that ends after the booking, and what would bring it in.

use chrono::NaiveTime;
use lane_distance::LaneNumber;
use serde::Serialize;

/// A session that ends after the booking.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Overrun {
    /// When it ends.
    pub ends: NaiveTime,
    /// How much later that is than the end of the booking, in seconds.
    pub over_s: f64,
    /// When the booking ends.
    pub booked_until: NaiveTime,
    /// What would bring it in, one remedy of a kind at most; where nothing would, what comes nearest.
    #[serde(skip)]
    pub remedies: Vec<Remedy>,
}

/// A change to a plan that ends after the booking, and its new end.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Remedy {
    /// What changes.
    #[serde(flatten)]
    pub kind: RemedyKind,
    /// The number of the block in the plan, from 1.
    pub number: usize,
    /// The block as it was written.
    pub block: String,
    /// When the session then ends.
    pub ends: NaiveTime,
    /// How much that is before the end of the booking, in seconds; negative where it is after it.
    pub spare_s: f64,
}

/// What would make a session shorter.
///
/// In JSON its `kind` names it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind")]
pub enum RemedyKind {
    /// Leaving out a block.
    #[serde(rename = "drop a block")]
    Drop,
    /// A shorter rest between its runs.
    #[serde(rename = "shorten the rest")]
    Rest {
        /// The rest that the block gives, in seconds.
        from_s: f64,
        /// The rest instead, in seconds.
        to_s: f64,
    },
    /// More lanes, so that its runners need fewer waves.
    #[serde(rename = "open lanes")]
    Lanes {
        /// All its lanes.
        lanes: Vec<LaneNumber>,
        /// Those of them that are closed now.
        opened: Vec<LaneNumber>,
    },
}

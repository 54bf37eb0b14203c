//! What one of a pack is to run, where the pack is not of one speed.

use serde::Serialize;

use crate::plan::split::Split;

/// Members of a pack whose targets differ by no more than this each lap have the splits of the slowest, in seconds.
pub(crate) const ALIKE_S: f64 = 1.0;

/// A lap, in metres, as far as [`ALIKE_S`] goes.
pub(crate) const LAP_M: f64 = 400.0;

/// The target of one member of a pack, and when this one should pass what.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OwnTime {
    /// Who it is.
    pub athlete: String,
    /// The target, in seconds; for a range, the slower.
    pub target_s: f64,
    /// When the athlete should pass the round distances and the paint on the way.
    pub splits: Vec<Split>,
}

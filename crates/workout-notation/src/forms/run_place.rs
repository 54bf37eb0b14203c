//! Where a run is to be laid, and which way.

use lane_distance::{Course, Place};

/// Where a run is to be laid, and which way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RunPlace {
    /// At a place of the track.
    At(Place),
    /// On a straight, the way that the wind says: whoever knows the wind chooses.
    Wind {
        /// The straight, where the text names one.
        on: Option<Course>,
        /// Whether the run goes against the wind, not with it.
        against: bool,
    },
}

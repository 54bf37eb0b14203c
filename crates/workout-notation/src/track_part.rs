//! Straights and bends, the parts of a track.

use std::fmt;

/// A part of the track that is run from its start to its end.
///
/// How long it is depends on the track, and for a bend on the lane: 84.39 m and 115.61 m in lane 1 of the standard
/// track.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrackPart {
    /// One of the two straights.
    Straight,
    /// One of the two bends.
    Bend,
}

impl TrackPart {
    /// What lies between two of its kind.
    ///
    /// ```
    /// assert_eq!(workout_notation::TrackPart::Straight.other(), workout_notation::TrackPart::Bend);
    /// ```
    pub const fn other(self) -> Self {
        match self {
            Self::Straight => Self::Bend,
            Self::Bend => Self::Straight,
        }
    }
}

impl fmt::Display for TrackPart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Straight => "straight",
            Self::Bend => "bend",
        })
    }
}

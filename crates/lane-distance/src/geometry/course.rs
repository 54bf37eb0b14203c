//! The three courses of a track.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Where a run is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum Course {
    /// Round the track.
    #[serde(rename = "oval")]
    Oval,
    /// The home straight, from its chute to the finish line.
    #[serde(rename = "home straight")]
    HomeStraight,
    /// The back straight, from its chute to the start of the bend.
    #[serde(rename = "back straight")]
    BackStraight,
}

impl Course {
    /// All courses.
    pub const ALL: [Self; 3] = [Self::Oval, Self::HomeStraight, Self::BackStraight];
}

impl fmt::Display for Course {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The word that a track file has for it.
        self.serialize(f)
    }
}

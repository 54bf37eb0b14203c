//! Who runs, and how they share the lanes.

/// Somebody who runs a set.
#[derive(Clone, Debug, PartialEq)]
pub struct Runner {
    /// The name.
    pub name: String,
    /// The target of each repetition, in seconds.
    pub target_s: f64,
    /// The rest after each repetition, in seconds.
    pub rest_s: f64,
    /// The lanes that the runner may use, if not all: after an injury, no tight bends.
    pub lanes: Option<Vec<u8>>,
}

impl Runner {
    /// A runner who may use every lane.
    pub fn new(name: impl Into<String>, target_s: f64, rest_s: f64) -> Self {
        Self { name: name.into(), target_s, rest_s, lanes: None }
    }
}

/// How a set shares the lanes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// One athlete to a lane; a wave is at most as many as there are lanes, or fewer by choice.
    OneToALane {
        /// The most athletes in a wave, if fewer than lanes.
        most: Option<usize>,
    },
    /// A pace group to a lane, with at most so many in it.
    GroupToALane {
        /// The most athletes in a group.
        most: usize,
    },
}

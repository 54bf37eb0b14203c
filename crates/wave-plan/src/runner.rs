//! Who runs a set.

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

    /// The least time from one go to the next, in seconds.
    pub(crate) fn cycle_s(&self) -> f64 {
        self.target_s + self.rest_s
    }

    /// How long the runner needs for all repetitions, with nobody in the way, in seconds.
    pub(crate) fn alone_s(&self, reps: u32) -> f64 {
        f64::from(reps) * self.target_s + f64::from(reps.saturating_sub(1)) * self.rest_s
    }

    pub(crate) fn may_use(&self, lane: u8) -> bool {
        self.lanes.as_ref().is_none_or(|own| own.contains(&lane))
    }
}

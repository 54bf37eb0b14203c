//! Sets of like repetitions, all begun at once: what the search and the generator speak of.

use std::collections::BTreeMap;

use wave_plan::{Ground, Mode};

/// Repetitions of one distance, and who runs them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct SquadSet {
    pub(crate) reps: u32,
    pub(crate) distance_m: f64,
    pub(crate) ground: Ground,
    pub(crate) lanes: Vec<u8>,
    pub(crate) finish_m: BTreeMap<u8, f64>,
    pub(crate) is_reversed: bool,
    pub(crate) mode: Mode,
    pub(crate) runners: Vec<Runner>,
}

/// Somebody with the same target and rest in each repetition.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Runner {
    pub(crate) name: String,
    pub(crate) target_s: f64,
    pub(crate) rest_s: f64,
    pub(crate) lanes: Option<Vec<u8>>,
}

impl Runner {
    pub(crate) fn new(name: impl Into<String>, target_s: f64, rest_s: f64) -> Self {
        Self { name: name.into(), target_s, rest_s, lanes: None }
    }
}

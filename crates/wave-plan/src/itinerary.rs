//! What is to be run, and by whom.

use std::collections::BTreeMap;

use crate::ground::Ground;
use crate::runner::Runner;

/// What one group does from the first start of a block to its last finish: runs in order, and who runs them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Itinerary {
    /// How long the group does something else first, from the end of the itinerary before it, in seconds. At least
    /// 10 s are kept there, and as much as the start gap and the timing gap: a wave needs that to stand on its start.
    pub after_s: f64,
    /// Its runs, in order; nothing for a run that is given by its time alone, which is in nobody's way.
    pub runs: Vec<Option<Stretch>>,
    /// The lanes that it may use, each once.
    pub lanes: Vec<u8>,
    /// How it shares the lanes.
    pub mode: Mode,
    /// Whether everybody stays in one lane, such as over hurdles; else lanes turn from run to run.
    pub keeps_lanes: bool,
    /// Who runs it.
    pub runners: Vec<Runner>,
}

/// The ground that a run covers. What is left at its default is a straight that ends on the finish line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stretch {
    /// How far it is, in metres.
    pub distance_m: f64,
    /// What it runs on.
    pub ground: Ground,
    /// Where it finishes in each lane, in metres past the finish line in the direction of running; on the line
    /// where a lane is not listed.
    pub finish_m: BTreeMap<u8, f64>,
    /// Whether it runs the other way. Nobody else then runs in its lanes, nor within 10 s of it.
    pub is_reversed: bool,
}

impl Stretch {
    pub(crate) fn finish_m(&self, lane: u8) -> f64 {
        self.finish_m.get(&lane).copied().unwrap_or(0.0)
    }
}

/// How an itinerary shares the lanes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// One athlete to a lane; a wave has at most as many as there are lanes.
    OneToALane {
        /// The most athletes in a wave, if fewer than lanes.
        most: Option<usize>,
    },
    /// A pace group to a lane.
    GroupToALane {
        /// The most athletes in a group.
        most: usize,
    },
    /// Everybody in one wave, spread over all its lanes.
    Together,
}

impl Default for Mode {
    fn default() -> Self {
        Self::OneToALane { most: None }
    }
}

impl Itinerary {
    /// Repetitions of one stretch.
    pub fn repetitions(reps: usize, stretch: Stretch, lanes: Vec<u8>, runners: Vec<Runner>) -> Self {
        Self { runs: vec![Some(stretch); reps], lanes, runners, ..Self::default() }
    }

    /// The most athletes in one wave.
    pub(crate) fn most_in_wave(&self) -> usize {
        match self.mode {
            Mode::OneToALane { most } => most.unwrap_or(usize::MAX).clamp(1, self.lanes.len().max(1)),
            Mode::GroupToALane { most } => most.max(1),
            Mode::Together => self.runners.len().max(1),
        }
    }

    /// How many waves it has: as few as can be.
    pub(crate) fn wave_count(&self) -> usize {
        self.runners.len().div_ceil(self.most_in_wave())
    }

    /// How many starts it has at most.
    pub(crate) fn start_count(&self) -> usize {
        self.wave_count().saturating_mul(self.runs.len())
    }

    pub(crate) fn members(&self, wave: &[usize]) -> Vec<&Runner> {
        wave.iter().map(|&runner| &self.runners[runner]).collect()
    }
}

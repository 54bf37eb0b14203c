//! What is to be run.

use std::collections::BTreeMap;

use crate::ground::Ground;
use crate::runner::Runner;

/// Repetitions of one distance, and who runs them. What is left at its default runs one to a lane on a straight and
/// finishes on the finish line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SquadSet {
    /// How many repetitions.
    pub reps: u32,
    /// How far each is, in metres.
    pub distance_m: f64,
    /// What it runs on.
    pub ground: Ground,
    /// The lanes that it may use, each once.
    pub lanes: Vec<u8>,
    /// Where it finishes in each lane, in metres past the finish line in the direction of running; on the line
    /// where a lane is not listed.
    pub finish_m: BTreeMap<u8, f64>,
    /// Whether it runs the other way. Nobody else then runs in its lanes, nor within 10 s of it.
    pub is_reversed: bool,
    /// How it shares the lanes.
    pub mode: Mode,
    /// Who runs it.
    pub runners: Vec<Runner>,
}

/// How a set shares the lanes.
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
}

impl Default for Mode {
    fn default() -> Self {
        Self::OneToALane { most: None }
    }
}

impl SquadSet {
    /// The most athletes in one wave.
    pub(crate) fn most_in_wave(&self) -> usize {
        match self.mode {
            Mode::OneToALane { most } => most.unwrap_or(usize::MAX).clamp(1, self.lanes.len().max(1)),
            Mode::GroupToALane { most } => most.max(1),
        }
    }

    /// How many waves it has: as few as can be.
    pub(crate) fn wave_count(&self) -> usize {
        self.runners.len().div_ceil(self.most_in_wave())
    }

    /// How many starts it has.
    pub(crate) fn start_count(&self) -> usize {
        self.wave_count().saturating_mul(self.reps as usize)
    }

    pub(crate) fn members(&self, wave: &[usize]) -> Vec<&Runner> {
        wave.iter().map(|&runner| &self.runners[runner]).collect()
    }

    pub(crate) fn finish_m(&self, lane: u8) -> f64 {
        self.finish_m.get(&lane).copied().unwrap_or(0.0)
    }
}

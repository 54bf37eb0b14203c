//! What is to be run, and by whom.

use std::collections::BTreeMap;

use crate::ground::Ground;
use crate::lane_turns::lane_turns;
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

    /// Whether none of its runs is by time.
    pub(crate) fn is_over_stretches(&self) -> bool {
        self.runs.iter().all(Option::is_some)
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
        if !self.takes_lanes_beside() {
            return self.runners.len().div_ceil(self.most_in_wave());
        }
        let order = self.by_speed();
        let mut left = order.as_slice();
        let mut waves = 0;
        while !left.is_empty() {
            left = &left[self.fitting(left).max(1)..];
            waves += 1;
        }
        waves
    }

    /// Whether somebody takes a lane beside their own, so that fewer than there are lanes can run at once.
    pub(crate) fn takes_lanes_beside(&self) -> bool {
        let is_one_to_a_lane = matches!(self.mode, Mode::OneToALane { .. });
        is_one_to_a_lane && self.runners.iter().any(|runner| runner.lanes_beside > 0)
    }

    /// How many of some runners, from the first on, can run in one wave.
    pub(crate) fn fitting(&self, runners: &[usize]) -> usize {
        let most = self.most_in_wave().min(runners.len());
        (0..=most).rev().find(|&count| self.has_lanes(&runners[..count])).unwrap_or(0)
    }

    /// Whether the members of a wave may run at once.
    pub(crate) fn has_lanes(&self, members: &[usize]) -> bool {
        let runners = self.members(members);
        match self.mode {
            Mode::OneToALane { .. } => lane_turns(&runners, &self.lanes, 1).is_some(),
            Mode::Together => true,
            Mode::GroupToALane { .. } => self.lanes.iter().any(|&lane| self.may_all_have(&runners, lane)),
        }
    }

    /// Whether a group may have a lane.
    pub(crate) fn may_all_have(&self, runners: &[&Runner], lane: u8) -> bool {
        runners.iter().all(|runner| runner.may_have(lane, &self.lanes))
    }

    /// The runners from the fastest to the slowest. Those with the same times stay together, so that nobody waits for
    /// another's rest.
    pub(crate) fn by_speed(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.runners.len()).collect();
        let first = |n: usize| {
            self.runners[n].times.first().map_or((0.0, 0.0), |times| (times.target_s, times.rest_s))
        };
        let all_s = |n: usize| self.runners[n].times.iter().map(|times| times.target_s).sum::<f64>();
        order.sort_by(|&a, &b| {
            let ((a_s, a_rest_s), (b_s, b_rest_s)) = (first(a), first(b));
            a_s.total_cmp(&b_s).then(a_rest_s.total_cmp(&b_rest_s)).then(all_s(a).total_cmp(&all_s(b)))
        });
        order
    }

    /// How many starts it has at most.
    pub(crate) fn start_count(&self) -> usize {
        self.wave_count().saturating_mul(self.runs.len())
    }

    pub(crate) fn members(&self, wave: &[usize]) -> Vec<&Runner> {
        wave.iter().map(|&runner| &self.runners[runner]).collect()
    }
}

//! How far apart two waves must start.

use super::runner::Runner;
use super::timing_rules::{FOLLOW_M, STAND_S, Timers, TimingRules};

/// A wave as the clock sees it.
#[derive(Clone, Debug)]
pub(super) struct WaveTimes {
    /// Of its members, in seconds.
    targets_s: Vec<f64>,
    /// The least time from one start to the next, in seconds.
    pub(super) period_s: f64,
    /// How many run in it.
    pub(super) members: usize,
    /// How far each repetition is, in metres.
    distance_m: f64,
    /// The shortest and the longest lap of its lanes, in metres.
    lap_m: (f64, f64),
}

/// Differences of two start times that may not be, as open intervals.
pub(super) type Forbidden = Vec<(f64, f64)>;

impl WaveTimes {
    pub(super) fn new(runners: &[&Runner], distance_m: f64, lap_m: (f64, f64)) -> Self {
        let period_s = runners.iter().map(|runner| runner.target_s + runner.rest_s).fold(0.0, f64::max);
        let targets_s = runners.iter().map(|runner| runner.target_s).collect();
        Self { targets_s, period_s, members: runners.len(), distance_m, lap_m }
    }

    /// When the first and the last of the wave finish, in seconds from its start.
    pub(super) fn window_s(&self) -> (f64, f64) {
        let first = self.targets_s.iter().copied().fold(f64::INFINITY, f64::min);
        (first, self.targets_s.iter().copied().fold(0.0, f64::max))
    }

    /// How far the start of `next` may not lie past that of this wave; `share_lanes` where a runner of
    /// one may run in the lane of a runner of the other.
    pub(super) fn forbidden(&self, next: &Self, rules: &TimingRules, share_lanes: bool) -> Forbidden {
        let mut forbidden = vec![(-rules.start_gap_s, rules.start_gap_s)];
        if rules.timers == Timers::One {
            forbidden.push(self.timing(next, rules));
        }
        if share_lanes {
            for &ahead_s in &self.targets_s {
                for &behind_s in &next.targets_s {
                    self.following(ahead_s, behind_s, &mut forbidden);
                }
                self.standing(ahead_s, &mut forbidden);
            }
        }
        merged(forbidden)
    }

    /// Windows closer than the timing gap.
    pub(super) fn timing(&self, next: &Self, rules: &TimingRules) -> (f64, f64) {
        let ((first_s, last_s), (next_first_s, next_last_s)) = (self.window_s(), next.window_s());
        let gap_s = rules.timing_gap_s;
        (first_s - next_last_s - gap_s, last_s - next_first_s + gap_s)
    }

    /// Two runners in one lane closer than 10 m while both run, on this lap or a lap apart.
    fn following(&self, ahead_s: f64, behind_s: f64, forbidden: &mut Forbidden) {
        let distance_m = self.distance_m;
        let (ahead_v, behind_v) = (distance_m / ahead_s, distance_m / behind_s);
        // After a difference d the first is d × its speed ahead at the second's start, and at its own
        // end as far ahead as the second still has to go. Both grow with d.
        let at = |lead_m: f64| {
            let at_start = lead_m / ahead_v;
            let at_end = ahead_s - (distance_m - lead_m) / behind_v;
            (at_start.min(at_end), at_start.max(at_end))
        };
        // The least lead is 10 m, and the most that is run before the second starts is the whole way.
        forbidden.push((0.0, at(FOLLOW_M).1.min(ahead_s)));
        let (shortest_m, longest_m) = self.lap_m;
        let mut laps = 1.0;
        while laps * shortest_m - FOLLOW_M < distance_m {
            let low = at(laps * shortest_m - FOLLOW_M).0;
            let high = at(laps * longest_m + FOLLOW_M).1.min(ahead_s);
            if low < high {
                forbidden.push((low, high));
            }
            laps += 1.0;
        }
    }

    /// A runner who comes round through the start of a wave that stands on it.
    fn standing(&self, target_s: f64, forbidden: &mut Forbidden) {
        let (shortest_m, longest_m) = self.lap_m;
        let pace = target_s / self.distance_m;
        let mut laps = 1.0;
        while laps * shortest_m <= self.distance_m {
            forbidden.push((laps * shortest_m * pace, laps * longest_m * pace + STAND_S));
            laps += 1.0;
        }
    }
}

/// Intervals in order, with none that overlap.
pub(super) fn merged(mut intervals: Forbidden) -> Forbidden {
    intervals.retain(|(low, high)| low < high);
    intervals.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Forbidden = Vec::with_capacity(intervals.len());
    for (low, high) in intervals {
        match merged.last_mut() {
            Some(last) if low < last.1 => last.1 = last.1.max(high),
            _ => merged.push((low, high)),
        }
    }
    merged
}

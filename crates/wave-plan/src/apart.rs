//! How far apart two waves must start.

use std::collections::HashMap;
use std::rc::Rc;

use crate::ground::Ground;
use crate::runner::Runner;
use crate::timing_rules::{FOLLOW_M, STAND_S, Timers, TimingRules};

/// What tells one wave from another: its set, first member, members and lane.
pub(crate) type WaveKey = (usize, usize, usize, Option<u8>);

/// A wave as the clock sees it.
#[derive(Clone, Debug)]
pub(crate) struct WaveTimes {
    key: WaveKey,
    /// Of its members, in seconds.
    targets_s: Vec<f64>,
    /// The least time from one start to the next, in seconds.
    pub(crate) period_s: f64,
    /// How many run in it.
    pub(crate) members: usize,
    /// How far each repetition is, in metres.
    distance_m: f64,
    ground: Ground,
    /// Those that its members may run in.
    lanes: Vec<u8>,
}

/// Differences of two start times that may not be, as open intervals.
pub(crate) type Forbidden = Vec<(f64, f64)>;

/// What was found to lie between two waves; the same two come up in many orders.
#[derive(Default)]
pub(crate) struct Apart {
    found: HashMap<(WaveKey, WaveKey), Rc<Forbidden>>,
}

impl Apart {
    /// How far the start of `next` may not lie past that of a wave.
    pub(crate) fn forbidden(
        &mut self,
        wave: &WaveTimes,
        next: &WaveTimes,
        rules: &TimingRules,
    ) -> Rc<Forbidden> {
        let found =
            self.found.entry((wave.key, next.key)).or_insert_with(|| wave.forbidden(next, rules).into());
        Rc::clone(found)
    }
}

impl WaveTimes {
    pub(crate) fn new(
        key: WaveKey,
        runners: &[&Runner],
        distance_m: f64,
        ground: Ground,
        lanes: Vec<u8>,
    ) -> Self {
        let period_s = runners.iter().map(|runner| runner.target_s + runner.rest_s).fold(0.0, f64::max);
        let targets_s = runners.iter().map(|runner| runner.target_s).collect();
        Self { key, targets_s, period_s, members: runners.len(), distance_m, ground, lanes }
    }

    /// When the first and the last of the wave finish, in seconds from its start.
    pub(crate) fn window_s(&self) -> (f64, f64) {
        let first = self.targets_s.iter().copied().fold(f64::INFINITY, f64::min);
        (first, self.targets_s.iter().copied().fold(0.0, f64::max))
    }

    /// How far the start of `next` may not lie past that of this wave.
    fn forbidden(&self, next: &Self, rules: &TimingRules) -> Forbidden {
        let mut forbidden = vec![(-rules.start_gap_s, rules.start_gap_s)];
        if rules.timers == Timers::One {
            forbidden.push(self.timing(next, rules));
        }
        if self.lanes.iter().any(|lane| next.lanes.contains(lane)) {
            for &ahead_s in &self.targets_s {
                for &behind_s in &next.targets_s {
                    self.following(ahead_s, next, behind_s, &mut forbidden);
                }
                self.standing(ahead_s, next, &mut forbidden);
            }
            for &behind_s in &next.targets_s {
                let from = forbidden.len();
                next.standing(behind_s, self, &mut forbidden);
                forbidden[from..].iter_mut().for_each(|(low_s, high_s)| {
                    (*low_s, *high_s) = (-*high_s, -*low_s);
                });
            }
        }
        merged(forbidden)
    }

    /// Windows closer than the timing gap.
    pub(crate) fn timing(&self, next: &Self, rules: &TimingRules) -> (f64, f64) {
        let ((first_s, last_s), (next_first_s, next_last_s)) = (self.window_s(), next.window_s());
        let gap_s = rules.timing_gap_s;
        (first_s - next_last_s - gap_s, last_s - next_first_s + gap_s)
    }

    /// The laps that come up between two waves, from the furthest behind to the furthest ahead: each as
    /// the least and the most metres that it may be, in any lane. On a straight there is none but no lap.
    fn laps_m(&self, next: &Self, far_m: f64) -> impl Iterator<Item = (f64, f64)> {
        let (shortest_m, longest_m, most) = match self.ground.and(next.ground) {
            Ground::Straight => (0.0, 0.0, 0),
            Ground::Laps { shortest_m, longest_m } => {
                (shortest_m, longest_m, (far_m / shortest_m).ceil() as i32)
            }
        };
        (-most..=most).map(move |laps| {
            let (short_m, long_m) = (f64::from(laps) * shortest_m, f64::from(laps) * longest_m);
            (short_m.min(long_m), short_m.max(long_m))
        })
    }

    /// Two runners in one lane closer than 10 m while both run, on this lap or laps apart.
    ///
    /// Both end at one finish. What lies between them changes steadily from the moment when both run to
    /// the moment when one is done, and both values grow with the difference of the starts. So it comes
    /// under a limit where one of the two does, and over one where one of the two does.
    fn following(&self, ahead_s: f64, next: &Self, behind_s: f64, forbidden: &mut Forbidden) {
        let (ahead_m, behind_m) = (self.distance_m, next.distance_m);
        let (ahead_v, behind_v) = (ahead_m / ahead_s, behind_m / behind_s);
        // The difference of starts at which the lead is so much when the later one starts, and when the
        // earlier one is done.
        let at_start = |lead_m: f64| {
            let run_m = lead_m + ahead_m - behind_m;
            run_m / if run_m >= 0.0 { ahead_v } else { behind_v }
        };
        let at_end = |lead_m: f64| {
            if lead_m >= 0.0 {
                ahead_s - (behind_m - lead_m) / behind_v
            } else {
                (lead_m + ahead_m) / ahead_v - behind_s
            }
        };
        for (least_m, most_m) in self.laps_m(next, ahead_m.max(behind_m) + FOLLOW_M) {
            let (low_m, high_m) = (least_m - FOLLOW_M, most_m + FOLLOW_M);
            if low_m < behind_m && high_m > -ahead_m {
                let low_s = at_start(low_m).min(at_end(low_m)).max(-behind_s);
                let high_s = at_start(high_m).max(at_end(high_m)).min(ahead_s);
                forbidden.push((low_s, high_s));
            }
        }
    }

    /// A runner who comes through the start of a wave that stands on it.
    fn standing(&self, target_s: f64, next: &Self, forbidden: &mut Forbidden) {
        let pace = target_s / self.distance_m;
        // The finish is one, so the starts lie apart by what the distances differ, and by laps.
        let further_m = self.distance_m - next.distance_m;
        for (least_m, most_m) in self.laps_m(next, self.distance_m.max(next.distance_m)) {
            let (from_m, to_m) = (further_m + least_m, further_m + most_m);
            // One's own start is not come through.
            if to_m > 0.0 && from_m <= self.distance_m {
                let (from_m, to_m) = (from_m.max(0.0), to_m.min(self.distance_m));
                forbidden.push((from_m * pace, to_m * pace + STAND_S));
            }
        }
    }
}

/// Between two spans that may not be, less than this is nothing that anybody could start in, in seconds:
/// a wave would go while another's runner finishes on its very spot.
const MOMENT_S: f64 = 1e-3;

/// Intervals in order, with none that overlap or touch.
pub(crate) fn merged(mut intervals: Forbidden) -> Forbidden {
    intervals.retain(|(low, high)| low < high);
    intervals.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Forbidden = Vec::with_capacity(intervals.len());
    for (low, high) in intervals {
        match merged.last_mut() {
            Some(last) if low < last.1 + MOMENT_S => last.1 = last.1.max(high),
            _ => merged.push((low, high)),
        }
    }
    merged
}

//! A wave: the runners who start together, and how far its starts must be from another's.

use crate::ground::Ground;
use crate::rules::{FOLLOW_M, STAND_S, Timers, TimingRules};
use crate::set::SquadSet;

/// A wave of a set.
#[derive(Debug)]
pub(crate) struct Wave<'a> {
    /// No two waves of all sets have the same.
    pub(crate) id: (usize, usize),
    pub(crate) set: &'a SquadSet,
    /// Its members, as indices into the runners of the set.
    pub(crate) members: Vec<usize>,
    /// The lanes that its members may run in.
    pub(crate) lanes: Vec<u8>,
    /// The least time from one go to the next, in seconds.
    pub(crate) cycle_s: f64,
    /// When the first and the last of it finish, in seconds from its go.
    pub(crate) window_s: (f64, f64),
}

/// Differences of two start times that are not allowed, as open intervals.
pub(crate) type Forbidden = Vec<(f64, f64)>;

impl<'a> Wave<'a> {
    pub(crate) fn new(id: (usize, usize), set: &'a SquadSet, members: Vec<usize>, lanes: Vec<u8>) -> Self {
        let runners = set.members(&members);
        let targets = || runners.iter().map(|runner| runner.target_s);
        let window_s = (targets().fold(f64::INFINITY, f64::min), targets().fold(0.0, f64::max));
        let cycle_s = runners.iter().map(|runner| runner.cycle_s()).fold(0.0, f64::max);
        Self { id, set, members, lanes, cycle_s, window_s }
    }

    fn targets_s(&self) -> impl Iterator<Item = f64> {
        self.members.iter().map(|&member| self.set.runners[member].target_s)
    }

    /// By how much `next` may not go after this wave.
    pub(crate) fn forbidden(&self, next: &Self, rules: &TimingRules) -> Forbidden {
        let mut forbidden = vec![(-rules.start_gap_s, rules.start_gap_s)];
        if rules.timers == Timers::One {
            let ((first_s, last_s), (next_first_s, next_last_s)) = (self.window_s, next.window_s);
            let gap_s = rules.timing_gap_s;
            forbidden.push((first_s - next_last_s - gap_s, last_s - next_first_s + gap_s));
        }
        // How far the finish of `next` lies past this wave's, for each of the lanes that they share.
        let mut offsets_m: Vec<f64> = (self.lanes.iter().filter(|lane| next.lanes.contains(lane)))
            .map(|&lane| next.set.finish_m(lane) - self.set.finish_m(lane))
            .collect();
        offsets_m.sort_by(f64::total_cmp);
        offsets_m.dedup();
        for offset_m in offsets_m {
            if self.set.is_reversed != next.set.is_reversed {
                forbidden.push((-next.window_s.1 - STAND_S, self.window_s.1 + STAND_S));
                continue;
            }
            for ahead_s in self.targets_s() {
                for behind_s in next.targets_s() {
                    self.following(ahead_s, next, behind_s, offset_m, &mut forbidden);
                }
                self.standing(ahead_s, next, offset_m, &mut forbidden);
            }
            for behind_s in next.targets_s() {
                let from = forbidden.len();
                next.standing(behind_s, self, -offset_m, &mut forbidden);
                forbidden[from..].iter_mut().for_each(|(low_s, high_s)| {
                    (*low_s, *high_s) = (-*high_s, -*low_s);
                });
            }
        }
        merged(forbidden)
    }

    /// How much further than `next` this wave has come when both are at the same place: whole laps, up to
    /// `far_m` either way, and what their finishes lie apart. Each is the least and the most metres in any
    /// lane. On a straight nobody is a lap ahead.
    fn laps_m(&self, next: &Self, far_m: f64, offset_m: f64) -> impl Iterator<Item = (f64, f64)> {
        let (shortest_m, longest_m, most) = match self.set.ground.and(next.set.ground) {
            Ground::Straight => (0.0, 0.0, 0),
            Ground::Laps { shortest_m, longest_m } => {
                (shortest_m, longest_m, ((far_m + offset_m.abs()) / shortest_m).ceil() as i32)
            }
        };
        (-most..=most).map(move |laps| {
            let (short_m, long_m) = (f64::from(laps) * shortest_m, f64::from(laps) * longest_m);
            (short_m.min(long_m) + offset_m, short_m.max(long_m) + offset_m)
        })
    }

    /// Two runners in one lane closer than 10 m while both run, on this lap or laps apart.
    ///
    /// Each is measured from its own finish. The lead changes steadily from the moment when both run to the
    /// moment when one is done, and its values at both moments grow with the difference of the starts. So it
    /// passes a limit exactly where one of the two does.
    fn following(&self, ahead_s: f64, next: &Self, behind_s: f64, offset_m: f64, forbidden: &mut Forbidden) {
        let (ahead_m, behind_m) = (self.set.distance_m, next.set.distance_m);
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
        for (least_m, most_m) in self.laps_m(next, ahead_m.max(behind_m) + FOLLOW_M, offset_m) {
            let (low_m, high_m) = (least_m - FOLLOW_M, most_m + FOLLOW_M);
            if low_m < behind_m && high_m > -ahead_m {
                let low_s = at_start(low_m).min(at_end(low_m)).max(-behind_s);
                let high_s = at_start(high_m).max(at_end(high_m)).min(ahead_s);
                forbidden.push((low_s, high_s));
            }
        }
    }

    /// A runner of this wave who comes through the start of `next` while it stands there.
    fn standing(&self, target_s: f64, next: &Self, offset_m: f64, forbidden: &mut Forbidden) {
        let s_per_m = target_s / self.set.distance_m;
        // Starts lie apart by what the distances differ, by what the finishes differ, and by laps.
        let further_m = self.set.distance_m - next.set.distance_m;
        let far_m = self.set.distance_m.max(next.set.distance_m);
        for (least_m, most_m) in self.laps_m(next, far_m, offset_m) {
            let (from_m, to_m) = (further_m + least_m, further_m + most_m);
            // A runner does not come through the start they go from.
            if to_m > 0.0 && from_m <= self.set.distance_m {
                let (from_m, to_m) = (from_m.max(0.0), to_m.min(self.set.distance_m));
                forbidden.push((from_m * s_per_m, to_m * s_per_m + STAND_S));
            }
        }
    }
}

/// A gap between two forbidden intervals shorter than this counts as forbidden, in seconds: a wave would go just
/// as a runner of another finishes on the same spot.
const MOMENT_S: f64 = 1e-3;

/// Intervals in order, with none that overlap or touch.
fn merged(mut intervals: Forbidden) -> Forbidden {
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

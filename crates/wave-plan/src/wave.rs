//! A wave: the runners who start together, and how far its starts must be from another's.

use crate::ground::Ground;
use crate::itinerary::{Itinerary, Stretch};
use crate::rules::{FOLLOW_M, STAND_S, Timers, TimingRules};

/// A wave of an itinerary.
#[derive(Debug)]
pub(crate) struct Wave<'a> {
    /// The number of its first kind of run: the kinds of all waves are counted through.
    pub(crate) first_kind: usize,
    /// The party that it belongs to.
    pub(crate) party: usize,
    pub(crate) itinerary: &'a Itinerary,
    /// Its members, as indices into the runners of the itinerary.
    pub(crate) members: Vec<usize>,
    /// The lanes that its members may run in.
    pub(crate) lanes: Vec<u8>,
    /// Its runs, in order: those that at least one member does.
    pub(crate) legs: Vec<Leg>,
    /// How long members wait for the one who is ready last, all together, in seconds.
    pub(crate) wait_s: f64,
    /// What its runs are, each kind once.
    kinds: Vec<Kind<'a>>,
}

/// One run of a wave.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Leg {
    /// What it is, as an index into the kinds of the wave.
    pub(crate) kind: usize,
    /// When the first and the last of the wave finish, in seconds from its go.
    pub(crate) window_s: (f64, f64),
    /// The least time to the go of the next, in seconds.
    pub(crate) cycle_s: f64,
    /// The least time from the first go, in seconds.
    pub(crate) since_s: f64,
}

/// Runs of a wave that are alike: over the same stretch, with the same targets.
#[derive(Debug, PartialEq)]
struct Kind<'a> {
    stretch: Option<&'a Stretch>,
    targets_s: Vec<f64>,
    window_s: (f64, f64),
}

/// Differences of two start times that are not allowed, as open intervals.
pub(crate) type Forbidden = Vec<(f64, f64)>;

impl<'a> Wave<'a> {
    pub(crate) fn new(
        (party, itinerary): (usize, &'a Itinerary),
        first_kind: usize,
        members: Vec<usize>,
        lanes: Vec<u8>,
    ) -> Self {
        let runners = itinerary.members(&members);
        let mut kinds: Vec<Kind<'a>> = Vec::new();
        let mut legs: Vec<Leg> = Vec::new();
        let mut wait_s = 0.0;
        for (run, stretch) in itinerary.runs.iter().enumerate() {
            let times = || runners.iter().filter_map(|runner| runner.times.get(run));
            let targets_s: Vec<f64> = times().map(|times| times.target_s).collect();
            if targets_s.is_empty() {
                break;
            }
            let first_s = targets_s.iter().copied().fold(f64::INFINITY, f64::min);
            let last_s = targets_s.iter().copied().fold(0.0, f64::max);
            let goes_on = || runners.iter().filter(|runner| run + 1 < runner.times.len());
            // Somebody who is done for the day may be the last to finish: the others wait, for lanes turn.
            let cycle_s = goes_on().map(|runner| runner.times[run].cycle_s()).fold(last_s, f64::max);
            wait_s += goes_on().map(|runner| cycle_s - runner.times[run].cycle_s()).sum::<f64>();
            let kind = Kind { stretch: stretch.as_ref(), targets_s, window_s: (first_s, last_s) };
            let known = kinds.iter().position(|known| *known == kind);
            let since_s = legs.last().map_or(0.0, |leg| leg.since_s + leg.cycle_s);
            legs.push(Leg { kind: known.unwrap_or(kinds.len()), window_s: kind.window_s, cycle_s, since_s });
            if known.is_none() {
                kinds.push(kind);
            }
        }
        Self { first_kind, party, itinerary, members, lanes, legs, wait_s, kinds }
    }

    /// The least time from its first go to its last, in seconds.
    pub(crate) fn cycles_s(&self) -> f64 {
        self.legs.last().map_or(0.0, |leg| leg.since_s)
    }

    /// How many kinds of runs it has.
    pub(crate) fn kind_count(&self) -> usize {
        self.kinds.len()
    }

    /// By how much a run of the kind `next_kind` of `next` may not go after one of the kind `kind` of this wave.
    pub(crate) fn forbidden(
        &self,
        kind: usize,
        next: &Self,
        next_kind: usize,
        rules: &TimingRules,
    ) -> Forbidden {
        let (kind, next_kind) = (&self.kinds[kind], &next.kinds[next_kind]);
        let (Some(stretch), Some(next_stretch)) = (kind.stretch, next_kind.stretch) else {
            return Vec::new();
        };
        let mut forbidden = vec![(-rules.start_gap_s, rules.start_gap_s)];
        let one_watch = match rules.timers {
            Timers::One => true,
            Timers::EachGroup => self.party == next.party,
            Timers::Two | Timers::Untimed => false,
        };
        let ((first_s, last_s), (next_first_s, next_last_s)) = (kind.window_s, next_kind.window_s);
        if one_watch {
            let gap_s = rules.timing_gap_s;
            forbidden.push((first_s - next_last_s - gap_s, last_s - next_first_s + gap_s));
        }
        // How far the finish of `next` lies past this wave's, for each of the lanes that they share.
        let mut offsets_m: Vec<f64> = (self.lanes.iter().filter(|lane| next.lanes.contains(lane)))
            .map(|&lane| next_stretch.finish_m(lane) - stretch.finish_m(lane))
            .collect();
        offsets_m.sort_by(f64::total_cmp);
        offsets_m.dedup();
        for offset_m in offsets_m {
            if stretch.is_reversed != next_stretch.is_reversed {
                forbidden.push((-next_last_s - STAND_S, last_s + STAND_S));
                continue;
            }
            let pair = Meeting { ahead: stretch, behind: next_stretch, offset_m };
            for &ahead_s in &kind.targets_s {
                for &behind_s in &next_kind.targets_s {
                    pair.following(ahead_s, behind_s, &mut forbidden);
                }
                pair.standing(ahead_s, &mut forbidden);
            }
            let turned = Meeting { ahead: next_stretch, behind: stretch, offset_m: -offset_m };
            for &behind_s in &next_kind.targets_s {
                let from = forbidden.len();
                turned.standing(behind_s, &mut forbidden);
                forbidden[from..].iter_mut().for_each(|(low_s, high_s)| {
                    (*low_s, *high_s) = (-*high_s, -*low_s);
                });
            }
        }
        merged(forbidden)
    }
}

/// Two runs in one lane, the same way.
struct Meeting<'a> {
    ahead: &'a Stretch,
    behind: &'a Stretch,
    /// How far the finish of `behind` lies past that of `ahead`, in metres.
    offset_m: f64,
}

impl Meeting<'_> {
    /// How much further `ahead` has come than `behind` when both are at the same place: whole laps, up to
    /// `far_m` either way, and what their finishes lie apart. Each is the least and the most metres in any
    /// lane. On a straight nobody is a lap ahead.
    fn laps_m(&self, far_m: f64) -> impl Iterator<Item = (f64, f64)> {
        let offset_m = self.offset_m;
        let (shortest_m, longest_m, most) = match self.ahead.ground.and(self.behind.ground) {
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
    fn following(&self, ahead_s: f64, behind_s: f64, forbidden: &mut Forbidden) {
        let (ahead_m, behind_m) = (self.ahead.distance_m, self.behind.distance_m);
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
        for (least_m, most_m) in self.laps_m(ahead_m.max(behind_m) + FOLLOW_M) {
            let (low_m, high_m) = (least_m - FOLLOW_M, most_m + FOLLOW_M);
            if low_m < behind_m && high_m > -ahead_m {
                let low_s = at_start(low_m).min(at_end(low_m)).max(-behind_s);
                let high_s = at_start(high_m).max(at_end(high_m)).min(ahead_s);
                forbidden.push((low_s, high_s));
            }
        }
    }

    /// The runner ahead who comes through the start of the other run while somebody stands there.
    fn standing(&self, target_s: f64, forbidden: &mut Forbidden) {
        let (ahead_m, behind_m) = (self.ahead.distance_m, self.behind.distance_m);
        let s_per_m = target_s / ahead_m;
        // Starts lie apart by what the distances differ, by what the finishes differ, and by laps.
        let further_m = ahead_m - behind_m;
        for (least_m, most_m) in self.laps_m(ahead_m.max(behind_m)) {
            let (from_m, to_m) = (further_m + least_m, further_m + most_m);
            // A runner does not come through the start they go from.
            if to_m > 0.0 && from_m <= ahead_m {
                let (from_m, to_m) = (from_m.max(0.0), to_m.min(ahead_m));
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

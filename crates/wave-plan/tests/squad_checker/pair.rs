//! Two runs in one lane.

use wave_plan::{Ground, SquadSet};

use super::TOLERANCE_S;

/// The gap between two runs in one lane, in metres, and how long a wave stands on its start, in
/// seconds: what the planner promises.
const FOLLOW_M: f64 = 10.0;
const STAND_S: f64 = 10.0;

/// One run of one runner. All runs end at one finish, in each lane at 0.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Run {
    pub(crate) go_s: f64,
    pub(crate) target_s: f64,
    pub(crate) distance_m: f64,
}

impl Run {
    pub(crate) fn done_s(&self) -> f64 {
        self.go_s + self.target_s
    }

    /// Metres past the finish along the lane, before it negative; laps are not taken off.
    fn at_m(&self, time_s: f64) -> f64 {
        self.distance_m * ((time_s - self.go_s) / self.target_s - 1.0)
    }
}

/// The shortest lap, the longest and one between, of lanes that two sets may share. Where one of two is on a
/// straight, the laps are those of the other; where both are, there is none.
pub(crate) fn laps_m(a: &SquadSet, b: &SquadSet) -> [Option<f64>; 3] {
    let laps = [a.ground, b.ground].into_iter().filter_map(|ground| match ground {
        Ground::Straight => None,
        Ground::Laps { shortest_m, longest_m } => Some((shortest_m, longest_m)),
    });
    let shortest_m = laps.clone().map(|lap| lap.0).reduce(f64::min);
    let longest_m = laps.map(|lap| lap.1).reduce(f64::max);
    [shortest_m, shortest_m.zip(longest_m).map(|(a, b)| f64::midpoint(a, b)), longest_m]
}

/// What two runs in one lane do to each other, if anything, where the lane has a lap or none.
pub(crate) fn clash(a: &Run, b: &Run, lap_m: Option<f64>) -> Option<&'static str> {
    if too_close(a, b, lap_m) {
        return Some("runs too close to");
    }
    if runs_through(a, b, lap_m) {
        return Some("runs through the start of");
    }
    runs_through(b, a, lap_m).then_some("stands in the way of")
}

/// While both run, the way from one to the other along the lane falls under 10 m.
fn too_close(a: &Run, b: &Run, lap_m: Option<f64>) -> bool {
    let (from_s, to_s) = (a.go_s.max(b.go_s), a.done_s().min(b.done_s()));
    if from_s >= to_s - TOLERANCE_S {
        return false;
    }
    // What lies between them changes steadily, so it takes all values between its first and its last.
    let (first_m, last_m) = (a.at_m(from_s) - b.at_m(from_s), a.at_m(to_s) - b.at_m(to_s));
    let (least_m, most_m) = (first_m.min(last_m), first_m.max(last_m));
    // A tenth of a millimetre is rounding.
    let near_m = FOLLOW_M - 1e-4;
    let whole_laps = lap_m.map_or(0.0, |lap_m| ((least_m - near_m) / lap_m).ceil() * lap_m);
    least_m - near_m <= whole_laps && whole_laps < most_m + near_m
}

/// `runner` passes the start of `stands` in the last 10 s before its go, or at that moment.
fn runs_through(runner: &Run, stands: &Run, lap_m: Option<f64>) -> bool {
    let mut spot_m = -stands.distance_m;
    // On a straight the spot is passed once at most.
    let lap_m = lap_m.unwrap_or(f64::INFINITY);
    while spot_m - lap_m > -runner.distance_m {
        spot_m -= lap_m;
    }
    while spot_m <= TOLERANCE_S {
        // One's own start is not run through.
        if spot_m > -runner.distance_m + TOLERANCE_S {
            let passes_s = runner.go_s + runner.target_s * (spot_m / runner.distance_m + 1.0);
            if passes_s > stands.go_s - STAND_S + TOLERANCE_S && passes_s < stands.go_s + TOLERANCE_S {
                return true;
            }
        }
        spot_m += lap_m;
    }
    false
}

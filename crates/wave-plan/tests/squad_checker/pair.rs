//! Two runs in one lane.

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

/// What two runs in one lane do to each other, if anything, where the lane's lap has a length.
pub(crate) fn clash(a: &Run, b: &Run, lap_m: f64) -> Option<&'static str> {
    // A straight is a lap that nobody comes to the end of.
    let lap_m = lap_m.min(1e7);
    if too_close(a, b, lap_m) {
        return Some("runs too close to");
    }
    if runs_through(a, b, lap_m) {
        return Some("runs through the start of");
    }
    runs_through(b, a, lap_m).then_some("stands in the way of")
}

/// While both run, the way from one to the other along the lane falls under 10 m.
fn too_close(a: &Run, b: &Run, lap_m: f64) -> bool {
    let (from_s, to_s) = (a.go_s.max(b.go_s), a.done_s().min(b.done_s()));
    if from_s >= to_s - TOLERANCE_S {
        return false;
    }
    // What lies between them changes steadily, so it takes all values between its first and its last.
    let (first_m, last_m) = (a.at_m(from_s) - b.at_m(from_s), a.at_m(to_s) - b.at_m(to_s));
    let (least_m, most_m) = (first_m.min(last_m), first_m.max(last_m));
    // A tenth of a millimetre is rounding.
    let near_m = FOLLOW_M - 1e-4;
    let whole_laps = ((least_m - near_m) / lap_m).ceil() * lap_m;
    whole_laps < most_m + near_m
}

/// `runner` passes the start of `stands` in the last 10 s before its go, or at that moment.
fn runs_through(runner: &Run, stands: &Run, lap_m: f64) -> bool {
    let mut spot_m = -stands.distance_m;
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

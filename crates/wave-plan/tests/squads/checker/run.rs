//! One run, and two in one lane.

use super::TOLERANCE_S;

/// The gap between two runs in one lane, in metres, and how long a wave stands on its start, in
/// seconds: what the planner promises.
const FOLLOW_M: f64 = 10.0;
const STAND_S: f64 = 10.0;

/// One run of one runner.
#[derive(Clone, Debug)]
pub(crate) struct Run {
    pub(crate) who: String,
    pub(crate) go_s: f64,
    pub(crate) target_s: f64,
    /// The least time until the runner goes again, in seconds.
    pub(crate) cycle_s: f64,
    pub(crate) distance_m: f64,
    /// The lanes that it may be in, and where it finishes in each: metres past the finish line.
    pub(crate) lanes: Vec<(u8, f64)>,
    /// The laps that these lanes may have, in metres; none on a straight.
    pub(crate) laps_m: Vec<f64>,
    /// Whether it runs against the usual direction.
    pub(crate) is_reversed: bool,
}

impl Run {
    pub(crate) fn done_s(&self) -> f64 {
        self.go_s + self.target_s
    }

    /// Metres past its finish along the lane, before it negative; laps are not taken off.
    fn at_m(&self, time_s: f64) -> f64 {
        self.distance_m * ((time_s - self.go_s) / self.target_s - 1.0)
    }
}

/// What two runs do to each other in a lane that they may share, if anything.
pub(crate) fn clash(a: &Run, b: &Run) -> Option<&'static str> {
    // From when one stands on its start to when it is done the other is done, or does not stand yet.
    let latest_s = STAND_S - TOLERANCE_S;
    if a.go_s - latest_s > b.done_s() || b.go_s - latest_s > a.done_s() {
        return None;
    }
    // Where one of two is on a straight, the laps are the other's.
    let known: Vec<f64> = a.laps_m.iter().chain(&b.laps_m).copied().collect();
    let shortest_m = known.iter().copied().reduce(f64::min);
    let longest_m = known.iter().copied().reduce(f64::max);
    let middle_m =
        shortest_m.zip(longest_m).map(|(shortest_m, longest_m)| f64::midpoint(shortest_m, longest_m));
    let mut offsets_m: Vec<f64> = (a.lanes.iter())
        .flat_map(|(lane, a_m)| {
            b.lanes.iter().filter(move |(own, _)| own == lane).map(move |(_, b_m)| b_m - a_m)
        })
        .collect();
    offsets_m.dedup();
    for offset_m in offsets_m {
        if a.is_reversed != b.is_reversed {
            return Some("runs towards");
        }
        for lap_m in [shortest_m, middle_m, longest_m] {
            if too_close(a, b, offset_m, lap_m) {
                return Some("runs too close to");
            }
            if runs_through(a, b, offset_m, lap_m) {
                return Some("runs through the start of");
            }
            if runs_through(b, a, -offset_m, lap_m) {
                return Some("stands in the way of");
            }
        }
    }
    None
}

/// While both run, the way from one to the other along the lane falls under 10 m. The finish of `b` lies
/// `offset_m` past that of `a`.
fn too_close(a: &Run, b: &Run, offset_m: f64, lap_m: Option<f64>) -> bool {
    let (from_s, to_s) = (a.go_s.max(b.go_s), a.done_s().min(b.done_s()));
    if from_s >= to_s - TOLERANCE_S {
        return false;
    }
    // What lies between them changes steadily, so it takes all values between its first and its last.
    let apart_m = |time_s: f64| a.at_m(time_s) - b.at_m(time_s) - offset_m;
    let (first_m, last_m) = (apart_m(from_s), apart_m(to_s));
    let (least_m, most_m) = (first_m.min(last_m), first_m.max(last_m));
    // A tenth of a millimetre is rounding.
    let near_m = FOLLOW_M - 1e-4;
    let whole_laps_m = lap_m.map_or(0.0, |lap_m| ((least_m - near_m) / lap_m).ceil() * lap_m);
    least_m - near_m <= whole_laps_m && whole_laps_m < most_m + near_m
}

/// `runner` passes the start of `stands` in the last 10 s before its go, or at that moment.
fn runs_through(runner: &Run, stands: &Run, offset_m: f64, lap_m: Option<f64>) -> bool {
    // On a straight the spot is passed once at most.
    let lap_m = lap_m.unwrap_or(f64::INFINITY);
    let mut spot_m = offset_m - stands.distance_m;
    while spot_m > -runner.distance_m && lap_m.is_finite() {
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

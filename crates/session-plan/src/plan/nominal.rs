//! What the numbers in a workout alone would count.

use lane_distance::Track;
use serde::Serialize;

use crate::plan::plan_words::to_cm;
use workout_notation::{RunKind, RunLength};

/// What the numbers in a workout alone would count for a run: a lap as lane 1's, a hurdles race in
/// full, a run-in not at all.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Nominal {
    /// The run as it is written, such as `200`, `2 laps` or `110h to hurdle 5`.
    pub text: String,
    /// What the numbers alone would count, in metres.
    pub distance_m: f64,
    /// Why the run is of another length, where it is.
    pub why: Option<String>,
}

/// Less than this is no other length, in metres.
const SAME_M: f64 = 0.05;

impl Nominal {
    /// What the numbers alone would count for a run that is really `distance_m` long.
    pub(crate) fn of(track: &Track, kind: RunKind, lane: u8, distance_m: f64) -> Self {
        let lap_m = track.lap_m(1).map_or(400.0, f64::round);
        let length = |length: RunLength| match length {
            RunLength::Metres(metres) => (metres, String::new()),
            RunLength::Laps(laps) => {
                let own_m = track.lap_m(lane).unwrap_or(lap_m);
                (laps * lap_m, format!("a lap of lane {lane} is {} m", to_cm(own_m)))
            }
        };
        let (nominal_m, why) = match kind {
            RunKind::Plain(told) | RunKind::InAndOut { length: told, .. } => length(told),
            RunKind::Flying { metres, run_in_m } => (metres, format!("the run-in is {} m", to_cm(run_in_m))),
            RunKind::Hurdles { race_m, .. } => (race_m, format!("there it is {} m", to_cm(distance_m))),
            RunKind::Exchange { .. } => (0.0, format!("the takeover zone is {} m", to_cm(distance_m))),
            RunKind::Timed { .. } => (0.0, String::new()),
        };
        let run_in_m = run_in_m(kind).unwrap_or(0.0);
        let differs = (distance_m + run_in_m - nominal_m).abs() > SAME_M;
        Self { text: text(kind), distance_m: nominal_m, why: differs.then_some(why) }
    }
}

/// How long the run-in of a flying run is, in metres.
pub(crate) const fn run_in_m(kind: RunKind) -> Option<f64> {
    match kind {
        RunKind::Flying { run_in_m, .. } => Some(run_in_m),
        _ => None,
    }
}

/// A run as it is written.
pub(crate) fn text(kind: RunKind) -> String {
    if let RunKind::Plain(RunLength::Metres(metres)) = kind {
        return to_cm(metres);
    }
    let text = kind.to_string();
    match text.strip_prefix("1 laps") {
        Some(rest) => format!("1 lap{rest}"),
        None => text,
    }
}

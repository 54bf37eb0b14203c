//! What the numbers in a workout alone would count.

use crate::plan::hurdle_run;
use lane_distance::{LaneNumber, Track};
use workout_notation::{RunKind, RunLength};

/// What the numbers in a workout alone would count for a run: a lap as lane 1's, a hurdles race in
/// full, a run-in not at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nominal {
    /// The run as it is written.
    pub run: RunKind,
    /// What the numbers alone would count, in metres.
    pub distance_m: f64,
    /// Why the run is of another length, where it is.
    pub why: Option<OtherLength>,
}

/// Why a run is not as long as the numbers alone say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OtherLength {
    /// A lap of its lane is not a lap of lane 1.
    Lap {
        /// The lane.
        lane: LaneNumber,
        /// Its lap, in metres.
        lap_m: f64,
    },
    /// Laps of its lanes are not laps of lane 1.
    Laps {
        /// The lane of the shortest.
        inner: LaneNumber,
        /// How long that is, in metres.
        inner_m: f64,
        /// The lane of the longest.
        outer: LaneNumber,
        /// How long that is, in metres.
        outer_m: f64,
    },
    /// Its run-in counts as well.
    RunIn {
        /// How long that is, in metres.
        run_in_m: f64,
    },
    /// It ends at a hurdle.
    ToHurdle {
        /// How far that is, in metres.
        distance_m: f64,
    },
    /// It goes through a takeover zone.
    Zone {
        /// How long that is, in metres.
        distance_m: f64,
    },
    /// It goes through a takeover zone, with the run-in of the one who brings the baton.
    ZoneWithRunIn {
        /// How long the zone is, in metres.
        distance_m: f64,
        /// How long the run-in is, in metres.
        run_in_m: f64,
    },
}

impl OtherLength {
    /// The reason of two runs that have this one and another: laps of several lanes are one reason.
    pub(crate) fn with(self, other: Self) -> Option<Self> {
        let (Some(own), Some(others)) = (self.laps(), other.laps()) else {
            return (self == other).then_some(self);
        };
        let (inner, inner_m) = if others.0.1 < own.0.1 { others.0 } else { own.0 };
        let (outer, outer_m) = if others.1.1 > own.1.1 { others.1 } else { own.1 };
        Some(if inner == outer { self } else { Self::Laps { inner, inner_m, outer, outer_m } })
    }

    /// The lanes with the shortest and the longest lap that it is about, and those laps.
    const fn laps(self) -> Option<((LaneNumber, f64), (LaneNumber, f64))> {
        match self {
            Self::Lap { lane, lap_m } => Some(((lane, lap_m), (lane, lap_m))),
            Self::Laps { inner, inner_m, outer, outer_m } => Some(((inner, inner_m), (outer, outer_m))),
            _ => None,
        }
    }
}

/// Lengths that differ by less than this are the same, in metres.
const SAME_M: f64 = 0.05;

impl Nominal {
    /// What the numbers alone would count for a run that is really `distance_m` long.
    pub(crate) fn of(track: &Track, kind: RunKind, lane: LaneNumber, distance_m: f64) -> Self {
        let lap_m = track.lap_m(LaneNumber::FIRST).map_or(400.0, f64::round);
        let (nominal_m, why) = match kind {
            RunKind::Plain(length) | RunKind::InAndOut { length, .. } => match length {
                RunLength::Metres(metres) => (metres, None),
                RunLength::Laps(laps) => {
                    let own_m = track.lap_m(lane).unwrap_or(lap_m);
                    (laps * lap_m, Some(OtherLength::Lap { lane, lap_m: own_m }))
                }
            },
            RunKind::Flying { metres, run_in_m } => (metres, Some(OtherLength::RunIn { run_in_m })),
            RunKind::Hurdles { race_m, part } => {
                let said_m = hurdle_run::said_m(race_m, part).unwrap_or(0.0);
                (said_m, Some(OtherLength::ToHurdle { distance_m }))
            }
            RunKind::Exchange { .. } => (0.0, Some(OtherLength::Zone { distance_m })),
            RunKind::Part(_) => (distance_m, None),
            RunKind::Timed { .. } => (0.0, None),
        };
        let run_in_m = run_in_m(kind).unwrap_or(0.0);
        let differs = (distance_m + run_in_m - nominal_m).abs() > SAME_M;
        Self { run: kind, distance_m: nominal_m, why: why.filter(|_| differs) }
    }
}

/// How long the run-in of a flying run is, in metres.
pub(crate) const fn run_in_m(kind: RunKind) -> Option<f64> {
    match kind {
        RunKind::Flying { run_in_m, .. } => Some(run_in_m),
        _ => None,
    }
}

//! A cone to set out before the session.

use lane_distance::Placement;
use serde::Serialize;
use workout_notation::RunKind;

/// Spots closer than this share a cone, in metres.
const SAME_SPOT_M: f64 = 0.005;

/// A cone to set out before the session.
#[derive(Clone, Debug, PartialEq)]
pub struct Cone {
    /// Its place on the walk, from 1: the number that it has in every view.
    pub order: u32,
    /// What it marks: starts first, then finishes, then run-ins.
    pub uses: Vec<ConeUse>,
    /// Where it goes.
    pub spot: Placement,
    /// The tape from the nearest paint in the walker's steps; 0 on the paint.
    pub strides: f64,
}

/// An end of some runs that a cone marks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ConeUse {
    /// Which end.
    pub end: ConeEnd,
    /// How long those runs are, in metres.
    pub distance_m: f64,
    /// The run as it is written.
    #[serde(skip)]
    pub run: RunKind,
    /// The number of their block, from 1.
    pub block: usize,
}

/// An end of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ConeEnd {
    /// Where it starts.
    Start,
    /// Where it finishes.
    Finish,
    /// Where the run-in of a flying run begins.
    RunIn,
}

impl Cone {
    /// A cone on a spot, with no number yet.
    pub(crate) fn of(spot: &Placement, first: ConeUse, stride_m: f64) -> Self {
        let strides = spot.clone().with_strides(stride_m).strides.unwrap_or(0.0);
        Self { order: 0, uses: vec![first], spot: spot.clone(), strides }
    }

    /// Whether the cone marks a spot.
    pub fn stands_on(&self, spot: &Placement) -> bool {
        let apart_m = (self.spot.x_m - spot.x_m).hypot(self.spot.y_m - spot.y_m);
        self.spot.lane == spot.lane && apart_m < SAME_SPOT_M
    }

    /// Whether it marks such an end of any run.
    pub fn marks(&self, end: ConeEnd) -> bool {
        self.uses.iter().any(|own| own.end == end)
    }
}

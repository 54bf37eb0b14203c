//! A cone to set out before the session, and the spots that paint shows instead.

use std::fmt;

use lane_distance::{ON_PAINT_M, Placement};
use serde::{Serialize, Serializer};
use workout_notation::RunKind;

/// Which spots get a cone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Deserialize, schemars::JsonSchema)]
pub enum Cones {
    /// Those that no paint shows.
    #[default]
    #[serde(rename = "off paint")]
    OffPaint,
    /// All of them.
    #[serde(rename = "every spot")]
    EverySpot,
}

/// A cone to set out before the session.
#[derive(Clone, Debug, PartialEq)]
pub struct Cone {
    /// Its place on the walk, from 1.
    pub order: u32,
    /// What it is called in every view.
    pub label: ConeLabel,
    /// What it marks: starts first, then finishes, then places of change, then run-ins.
    pub uses: Vec<SpotUse>,
    /// Where it goes.
    pub spot: Placement,
    /// The tape from the nearest paint in the walker's steps; 0 on the paint.
    pub strides: f64,
}

/// A spot that paint shows, so that it needs no cone.
#[derive(Clone, Debug, PartialEq)]
pub struct PaintedSpot {
    /// What happens there, in the order of a [`Cone`]'s.
    pub uses: Vec<SpotUse>,
    /// Where it is.
    pub spot: Placement,
}

/// What some runs do at a spot.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SpotUse {
    /// What they do.
    pub end: SpotEnd,
    /// How long those runs are, in metres.
    pub distance_m: f64,
    /// The run as it is written.
    #[serde(skip)]
    pub run: RunKind,
    /// The number of their block, from 1.
    pub block: usize,
}

/// What a run does at a spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum SpotEnd {
    /// It starts.
    Start,
    /// It finishes.
    Finish,
    /// It changes from fast to easy or back.
    Change,
    /// Its run-in begins.
    RunIn,
    /// The outgoing runner of an exchange goes when the incoming one comes by.
    CheckMark,
}

/// What a cone is called: by its number on the walk; for one who trains alone in one lane by its first use, `S`, `F`,
/// `C`, `R` or `M`, with a number where there are several.
///
/// Serialised, it is a number, or a text with the letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct ConeLabel {
    end: Option<SpotEnd>,
    number: Option<u32>,
}

impl ConeLabel {
    /// The name of the cone with a number on the walk.
    pub(crate) const fn numbered(order: u32) -> Self {
        Self { end: None, number: Some(order) }
    }

    /// The name of the cone of one who trains alone; a number where there are several.
    pub(crate) const fn lettered(end: SpotEnd, number: Option<u32>) -> Self {
        Self { end: Some(end), number }
    }

    /// Whether another is the next after it: `5` and `6`, `S1` and `S2`.
    pub fn is_before(self, next: Self) -> bool {
        let follows = |number: u32| next.number == Some(number + 1);
        self.end == next.end && self.number.is_some_and(follows)
    }
}

impl fmt::Display for ConeLabel {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.end {
            None => "",
            Some(SpotEnd::Start) => "S",
            Some(SpotEnd::Finish) => "F",
            Some(SpotEnd::Change) => "C",
            Some(SpotEnd::RunIn) => "R",
            Some(SpotEnd::CheckMark) => "M",
        })?;
        self.number.map_or(Ok(()), |number| write!(f, "{number}"))
    }
}

impl Serialize for ConeLabel {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match (self.end, self.number) {
            (None, Some(number)) => to.serialize_u32(number),
            _ => to.collect_str(self),
        }
    }
}

impl Cone {
    /// Whether the cone marks a spot.
    pub fn stands_on(&self, spot: &Placement) -> bool {
        is_same_spot(&self.spot, spot)
    }
}

/// Whether two spots are one for somebody who stands there: they are less than the breadth of a line apart.
pub(crate) fn is_same_spot(a: &Placement, b: &Placement) -> bool {
    a.lane == b.lane && libm::hypot(a.x_m - b.x_m, a.y_m - b.y_m) <= ON_PAINT_M
}

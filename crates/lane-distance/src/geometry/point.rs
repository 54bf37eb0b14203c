//! Places on the plan of the track.

use serde::Serialize;

/// A place on the plan, in metres from the centre of the infield.
///
/// +x is the direction of running on the home straight; +y points from the home straight to the
/// back straight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Point {
    /// Metres along the home straight's direction of running.
    pub x: f64,
    /// Metres towards the back straight.
    pub y: f64,
}

impl Point {
    /// The place at `x`, `y`.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Straight-line distance to another place, in metres.
    pub fn distance(self, other: Self) -> f64 {
        libm::hypot(self.x - other.x, self.y - other.y)
    }

    /// The place `length_m` away in the direction `heading_rad` (anticlockwise from +x).
    pub fn towards(self, heading_rad: f64, length_m: f64) -> Self {
        let (sin, cos) = libm::sincos(heading_rad);
        Self::new(self.x + length_m * cos, self.y + length_m * sin)
    }
}

/// A place with the direction of running through it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Pose {
    /// The place.
    pub point: Point,
    /// Direction of running, in radians anticlockwise from +x; it grows along the lap and is not
    /// wrapped.
    pub heading_rad: f64,
}

impl Pose {
    /// The place `offset_m` to the right of the direction of running: outwards on a track that is
    /// run anticlockwise.
    pub fn outwards(self, offset_m: f64) -> Point {
        self.point.towards(self.heading_rad - std::f64::consts::FRAC_PI_2, offset_m)
    }

    /// How far ahead a point lies in the direction of running, in metres; negative is behind.
    pub(crate) fn ahead_m(self, point: Point) -> f64 {
        let (sin, cos) = libm::sincos(self.heading_rad);
        (point.x - self.point.x) * cos + (point.y - self.point.y) * sin
    }

    /// How far a point lies to the right of the direction of running, in metres; negative is to the left.
    pub(crate) fn outside_m(self, point: Point) -> f64 {
        let (sin, cos) = libm::sincos(self.heading_rad);
        (point.x - self.point.x) * sin - (point.y - self.point.y) * cos
    }
}

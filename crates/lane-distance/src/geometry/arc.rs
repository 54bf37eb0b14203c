//! A curved piece of the inner edge.

use crate::geometry::point::{Point, Pose};
use crate::geometry::stretch::Stretch;

/// A left-turning arc of the inner edge of lane 1.
///
/// ```
/// use lane_distance::{Arc, Stretch};
///
/// let bend = Arc { radius_m: 36.50, turn_rad: std::f64::consts::PI };
/// // On the measure line, 0.30 m outside a raised kerb, the bend is 36.80 m × π long.
/// assert!((bend.length_at(0.30) - 115.611).abs() < 0.001);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Radius of the inner edge, in metres.
    pub radius_m: f64,
    /// Angle between start and end, in radians, positive to the left.
    pub turn_rad: f64,
}

impl Arc {
    /// The centre of the arc that begins at `start`.
    pub fn centre(&self, start: Pose) -> Point {
        start.outwards(-self.radius_m)
    }
}

impl Stretch for Arc {
    fn length_at(&self, offset_m: f64) -> f64 {
        (self.radius_m + offset_m) * self.turn_rad
    }

    fn turn_rad(&self) -> f64 {
        self.turn_rad
    }

    fn pose_at(&self, start: Pose, fraction: f64) -> Pose {
        let heading_rad = start.heading_rad + fraction * self.turn_rad;
        let centre = Pose { point: self.centre(start), heading_rad };
        Pose { point: centre.outwards(self.radius_m), heading_rad }
    }
}

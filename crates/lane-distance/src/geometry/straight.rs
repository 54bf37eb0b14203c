//! A straight piece of the inner edge.

use crate::geometry::point::Pose;
use crate::geometry::stretch::Stretch;

/// A straight piece of the inner edge of lane 1.
///
/// ```
/// use lane_distance::{Straight, Stretch};
///
/// let straight = Straight { length_m: 84.39 };
/// assert_eq!(straight.length_at(8.74), 84.39); // every lane runs the same length
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Straight {
    /// Length in metres.
    pub length_m: f64,
}

impl Stretch for Straight {
    fn length_at(&self, _offset_m: f64) -> f64 {
        self.length_m
    }

    fn turn_rad(&self) -> f64 {
        0.0
    }

    fn pose_at(&self, start: Pose, fraction: f64) -> Pose {
        Pose {
            point: start.point.towards(start.heading_rad, fraction * self.length_m),
            heading_rad: start.heading_rad,
        }
    }
}

//! A piece of the inner edge of lane 1.

use std::f64::consts::{FRAC_PI_2, TAU};

use crate::geometry::point::{Point, Pose};

/// A piece of the inner edge of lane 1; every line parallel to it follows from it.
///
/// ```
/// use lane_distance::Piece;
///
/// let bend = Piece::Arc { radius_m: 36.50, turn_rad: std::f64::consts::PI };
/// // On the measure line, 0.30 m outside a raised kerb, the bend is 36.80 m × π long.
/// assert!((bend.length_m(0.30) - 115.611).abs() < 0.001);
/// let straight = Piece::Straight { length_m: 84.39 };
/// assert_eq!(straight.length_m(8.74), 84.39); // every lane runs the same length
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A straight piece.
    Straight {
        /// Length in metres.
        length_m: f64,
    },
    /// A left-turning arc.
    Arc {
        /// Radius of the inner edge, in metres.
        radius_m: f64,
        /// Angle between start and end, in radians, positive to the left.
        turn_rad: f64,
    },
}

impl Piece {
    /// Whether it is an arc.
    pub const fn is_arc(self) -> bool {
        matches!(self, Self::Arc { .. })
    }

    /// Length in metres of the parallel that lies `offset_m` outside the inner edge.
    pub fn length_m(self, offset_m: f64) -> f64 {
        match self {
            Self::Straight { length_m } => length_m,
            Self::Arc { radius_m, turn_rad } => (radius_m + offset_m) * turn_rad,
        }
    }

    /// How far the direction of running turns to the left from start to end, in radians.
    pub const fn turn_rad(self) -> f64 {
        match self {
            Self::Straight { .. } => 0.0,
            Self::Arc { turn_rad, .. } => turn_rad,
        }
    }

    /// Point and direction on the inner edge after `fraction` of the piece (0 at its start, 1 at its
    /// end), for a piece that begins at `start`.
    pub fn pose(self, start: Pose, fraction: f64) -> Pose {
        match self {
            Self::Straight { length_m } => {
                Pose { point: start.point.towards(start.heading_rad, fraction * length_m), ..start }
            }
            Self::Arc { radius_m, turn_rad } => {
                let heading_rad = start.heading_rad + fraction * turn_rad;
                let centre = Pose { point: start.outwards(-radius_m), heading_rad };
                Pose { point: centre.outwards(radius_m), heading_rad }
            }
        }
    }

    /// How far a point lies outside the inner edge, in metres, square to a piece that begins at
    /// `start`: negative is inside. Nothing where the point lies beside no part of the piece.
    pub(crate) fn outside_m(self, start: Pose, point: Point) -> Option<f64> {
        match self {
            Self::Straight { length_m } => {
                (0.0..=length_m).contains(&start.ahead_m(point)).then(|| start.outside_m(point))
            }
            Self::Arc { radius_m, turn_rad } => {
                let centre = start.outwards(-radius_m);
                let angle = libm::atan2(point.y - centre.y, point.x - centre.x);
                let turned = (angle - start.heading_rad + FRAC_PI_2).rem_euclid(TAU);
                (turned <= turn_rad).then_some(point.distance(centre) - radius_m)
            }
        }
    }

    /// The part of the piece that lies behind the place nearest to a point on its parallel, and how far off that place
    /// is, in metres. The parallel lies `offset_m` outside the inner edge, which begins at `start`.
    pub(crate) fn nearest(self, start: Pose, offset_m: f64, point: Point) -> (f64, f64) {
        let fraction = match self {
            Self::Straight { length_m } => start.ahead_m(point) / length_m,
            Self::Arc { radius_m, turn_rad } => {
                let centre = start.outwards(-radius_m);
                let angle = libm::atan2(point.y - centre.y, point.x - centre.x);
                let turned = (angle - start.heading_rad + FRAC_PI_2).rem_euclid(TAU);
                // Beyond its ends, the nearer of the two, as seen from the centre.
                if turned > (turn_rad + TAU) / 2.0 { 0.0 } else { turned / turn_rad }
            }
        };
        let fraction = fraction.clamp(0.0, 1.0);
        (fraction, self.pose(start, fraction).outwards(offset_m).distance(point))
    }

    /// Whether its lengths and angles are those of a piece of a lap.
    pub(crate) fn is_valid(self) -> bool {
        let is_length = |metres: f64| metres > 0.0 && metres.is_finite();
        match self {
            Self::Straight { length_m } => is_length(length_m),
            Self::Arc { radius_m, turn_rad } => is_length(radius_m) && turn_rad > 0.0 && turn_rad <= TAU,
        }
    }
}

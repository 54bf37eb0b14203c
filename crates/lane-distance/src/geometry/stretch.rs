//! What every piece of a path can say of itself.

use crate::geometry::arc::Arc;
use crate::geometry::point::Pose;
use crate::geometry::straight::Straight;

/// A piece of the inner edge, and every line parallel to it.
///
/// A new shape of piece joins the track by answering these three questions.
pub trait Stretch {
    /// Length in metres of the parallel that lies `offset_m` outside the inner edge.
    fn length_at(&self, offset_m: f64) -> f64;

    /// How far the direction of running turns to the left from start to end, in radians.
    fn turn_rad(&self) -> f64;

    /// Place and direction on the inner edge after `fraction` of the piece (0 at its start, 1 at
    /// its end), for a piece that begins at `start`.
    fn pose_at(&self, start: Pose, fraction: f64) -> Pose;
}

/// A piece of a [`Path`](crate::Path).
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// A straight piece.
    Straight(Straight),
    /// A left-turning arc.
    Arc(Arc),
}

impl Stretch for Piece {
    fn length_at(&self, offset_m: f64) -> f64 {
        match self {
            Self::Straight(straight) => straight.length_at(offset_m),
            Self::Arc(arc) => arc.length_at(offset_m),
        }
    }

    fn turn_rad(&self) -> f64 {
        match self {
            Self::Straight(straight) => straight.turn_rad(),
            Self::Arc(arc) => arc.turn_rad(),
        }
    }

    fn pose_at(&self, start: Pose, fraction: f64) -> Pose {
        match self {
            Self::Straight(straight) => straight.pose_at(start, fraction),
            Self::Arc(arc) => arc.pose_at(start, fraction),
        }
    }
}

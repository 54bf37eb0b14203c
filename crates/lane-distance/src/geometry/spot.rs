//! A place in a lane.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;

/// A lane, a course, and a distance along that lane's measure line: everything else that is
/// said of a point on the track is derived from these three.
///
/// A spot has one form: on the oval `to_finish_m` is at least 0 and less than a lap of the lane, so
/// the finish line is at 0. On a straight it is the distance before that straight's finish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// The course that the distance is measured on.
    pub course: Course,
    /// The lane's number.
    pub lane: LaneNumber,
    /// Distance to the finish line along the lane's measure line, in metres.
    pub to_finish_m: f64,
}

impl Spot {
    /// A spot on the oval.
    pub const fn on_oval(lane: LaneNumber, to_finish_m: f64) -> Self {
        Self { course: Course::Oval, lane, to_finish_m }
    }
}

/// A spot in terms of the paint of its lane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaintReading {
    /// Which mark, as an index into the track's marks; nothing where the lane has no paint.
    pub mark: Option<crate::paint::mark::MarkId>,
    /// How far past the mark the spot lies on the measure line, in metres; negative is behind it.
    pub past_m: f64,
    /// The same as laid with a tape along the lane's inner line, in metres, with the same sign.
    pub tape_m: f64,
}

/// A spot within this distance of a mark's measured edge stands on its paint, in metres: the width
/// of a painted line by the Technical Rules, so that the toe is on the paint.
pub const ON_PAINT_M: f64 = 0.05;

impl PaintReading {
    /// Whether the spot stands on the paint of its mark.
    pub fn is_on_paint(&self) -> bool {
        self.mark.is_some() && self.past_m.abs() <= ON_PAINT_M
    }
}

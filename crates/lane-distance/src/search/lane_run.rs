//! A run of one distance along one lane, wherever it starts.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::line::Line;
use crate::geometry::spot::{ON_PAINT_M, Spot};
use crate::track::layout::StraightCourse;

/// How far past the finish line nobody is sent to finish: runners stop at the line, those who time
/// them stand there, and others slow down beyond it.
const RUN_OUT_M: f64 = 20.0;

/// Rounding that does not push a run off its place, in metres.
const ROUNDING_M: f64 = 1e-9;

/// A run of one distance along one lane: it knows which starts have a finish, and where.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LaneRun<'a> {
    lane: LaneNumber,
    distance_m: f64,
    ground: Ground<'a>,
}

#[derive(Clone, Copy, Debug)]
enum Ground<'a> {
    /// Round the oval; `part_m` is what is left of the distance after whole laps. Runs that lie
    /// within the last `found_m` have been found on the home straight.
    Oval { line: &'a Line, part_m: f64, found_m: f64 },
    /// Along a straight of this length.
    Straight { course: Course, length_m: f64, against: bool },
    /// Within a bend, between two distances from the finish line.
    Bend { line: &'a Line, begins_m: f64, ends_m: f64 },
}

impl<'a> LaneRun<'a> {
    pub(crate) fn oval(line: &'a Line, lane: LaneNumber, distance_m: f64, found_m: f64) -> Self {
        let part_m = line.within_lap_m(distance_m);
        Self { lane, distance_m, ground: Ground::Oval { line, part_m, found_m } }
    }

    pub(crate) fn straight(
        course: Course,
        straight: StraightCourse,
        lane: LaneNumber,
        distance_m: f64,
        against: bool,
    ) -> Self {
        let ground = Ground::Straight { course, length_m: straight.length_m(), against };
        Self { lane, distance_m, ground }
    }

    pub(crate) fn bend(
        line: &'a Line,
        lane: LaneNumber,
        distance_m: f64,
        (first, after): (usize, usize),
    ) -> Self {
        let ground = Ground::Bend { line, begins_m: line.start_of_m(first), ends_m: line.start_of_m(after) };
        Self { lane, distance_m, ground }
    }

    pub(crate) const fn lane(&self) -> LaneNumber {
        self.lane
    }

    pub(crate) const fn distance_m(&self) -> f64 {
        self.distance_m
    }

    pub(crate) const fn course(&self) -> Course {
        match self.ground {
            Ground::Oval { .. } | Ground::Bend { .. } => Course::Oval,
            Ground::Straight { course, .. } => course,
        }
    }

    /// Whether it is run on a straight the other way.
    pub(crate) const fn is_against(&self) -> bool {
        matches!(self.ground, Ground::Straight { against: true, .. })
    }

    /// The lap that goes round, in metres: infinite on a straight.
    pub(crate) fn lap_m(&self) -> f64 {
        match self.ground {
            Ground::Oval { line, .. } | Ground::Bend { line, .. } => line.lap_m(),
            Ground::Straight { .. } => f64::INFINITY,
        }
    }

    /// Whether it must stay within a part of the lap.
    pub(crate) const fn is_bounded(&self) -> bool {
        !matches!(self.ground, Ground::Oval { .. })
    }

    /// The longest distance that its place has room for, in metres.
    pub(crate) fn room_m(&self) -> f64 {
        match self.ground {
            Ground::Oval { .. } => f64::INFINITY,
            Ground::Straight { length_m, .. } => length_m,
            Ground::Bend { begins_m, ends_m, .. } => ends_m - begins_m,
        }
    }

    fn spot(&self, to_finish_m: f64) -> Spot {
        Spot { course: self.course(), lane: self.lane, to_finish_m }
    }

    /// Start and finish of the run that ends on the finish line; nothing where it may not, or where
    /// that run has been found on another course.
    pub(crate) fn ending_on_the_line(&self) -> Option<(Spot, Spot)> {
        let start_m = match self.ground {
            Ground::Oval { part_m, found_m, .. } => {
                // A run of whole laps has no part left, and has not been found on the home straight.
                (part_m > found_m + ON_PAINT_M || part_m < self.distance_m).then_some(part_m)
            }
            Ground::Straight { course: Course::HomeStraight, against: false, .. } => Some(self.distance_m),
            _ => None,
        }?;
        Some((self.spot(start_m), self.spot(0.0)))
    }

    /// Start and finish of the run from a start that does not end on the finish line; nothing where
    /// the start has no such run.
    pub(crate) fn starting_at(&self, start_m: f64) -> Option<(Spot, Spot)> {
        let finish_m = match self.ground {
            Ground::Oval { line, part_m, found_m } => {
                let lap_m = line.lap_m();
                let finish_m = if start_m >= part_m { start_m - part_m } else { start_m - part_m + lap_m };
                let is_found = start_m <= found_m + ON_PAINT_M && finish_m < start_m;
                let is_finish_line = finish_m <= ON_PAINT_M;
                let is_in_run_out = lap_m - finish_m < RUN_OUT_M;
                (!is_found && !is_finish_line && !is_in_run_out).then_some(finish_m)
            }
            Ground::Straight { length_m, against: true, .. } => {
                let finish_m = start_m + self.distance_m;
                (finish_m <= length_m + ROUNDING_M).then_some(finish_m)
            }
            Ground::Straight { course, length_m, .. } => {
                let finish_m = start_m - self.distance_m;
                // The home straight has a finish line; the back straight ends where the bend begins.
                let least_m = if course == Course::HomeStraight { ON_PAINT_M } else { -ROUNDING_M };
                (start_m <= length_m + ROUNDING_M && finish_m >= least_m).then_some(finish_m.max(0.0))
            }
            Ground::Bend { line, begins_m, ends_m } => {
                let from_m = from_finish_m(line, start_m);
                let holds =
                    from_m >= begins_m - ROUNDING_M && from_m + self.distance_m <= ends_m + ROUNDING_M;
                holds.then(|| line.within_lap_m(start_m - self.distance_m))
            }
        }?;
        Some((self.spot(start_m), self.spot(finish_m)))
    }

    /// Start and finish of the run to a finish; nothing where the place has no room for it.
    pub(crate) fn finishing_at(&self, finish_m: f64) -> Option<(Spot, Spot)> {
        let start_m = match self.ground {
            Ground::Oval { line, part_m, .. } => line.within_lap_m(finish_m + part_m),
            Ground::Straight { against: true, .. } => finish_m - self.distance_m,
            Ground::Straight { .. } => finish_m + self.distance_m,
            Ground::Bend { line, .. } => line.within_lap_m(finish_m + self.distance_m),
        };
        if start_m < 0.0 {
            return None;
        }
        self.starting_at(start_m)
    }

    /// The run that begins where its place does; the oval has no beginning.
    pub(crate) fn starting_with_its_place(&self) -> Option<(Spot, Spot)> {
        match self.ground {
            Ground::Oval { .. } => None,
            Ground::Straight { against: true, .. } => self.starting_at(0.0),
            Ground::Straight { length_m, .. } => self.starting_at(length_m),
            Ground::Bend { line, begins_m, .. } => {
                self.starting_at(line.within_lap_m(line.lap_m() - begins_m))
            }
        }
    }
}

fn from_finish_m(line: &Line, to_finish_m: f64) -> f64 {
    if to_finish_m == 0.0 { 0.0 } else { line.lap_m() - to_finish_m }
}

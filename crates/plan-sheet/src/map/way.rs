//! A way along the track as path data: straight lines and arcs, nothing else.

use kurbo::Point;
use lane_distance::{Path, Piece, Station};

use super::frame::Frame;
use crate::drawing::ink::{number, pair};

/// A way along the track, some metres outside the inner edge, on the page.
#[derive(Clone, Debug)]
pub(super) struct Way {
    start: Point,
    steps: Vec<Step>,
}

/// A step of a way: straight, or round an arc of a radius.
#[derive(Clone, Copy, Debug)]
struct Step {
    radius: Option<f64>,
    end: Point,
}

/// Half a turn in one arc would hang on the last digit of its ends: no arc turns farther than this.
const LARGEST_ARC_RAD: f64 = 1.6;

impl Way {
    /// The way between two stations, over the finish line where the second does not lie ahead.
    pub(super) fn of(path: &Path, frame: Frame, (from, to): (Station, Station), outside_m: f64) -> Self {
        let count = path.pieces().len();
        let is_ahead = (to.piece, to.fraction) > (from.piece, from.fraction);
        let last = if is_ahead { to.piece } else { to.piece + count };
        let place = |piece: usize, fraction: f64| {
            frame.at(path.pose(Station { piece: piece % count, fraction }).outwards(outside_m))
        };
        let mut steps = Vec::new();
        for piece in from.piece..=last {
            let begins = if piece == from.piece { from.fraction } else { 0.0 };
            let ends = if piece == last { to.fraction } else { 1.0 };
            match path.pieces()[piece % count] {
                Piece::Straight { .. } => steps.push(Step { radius: None, end: place(piece, ends) }),
                Piece::Arc { radius_m, turn_rad } => {
                    let parts = ((ends - begins) * turn_rad / LARGEST_ARC_RAD).ceil().max(1.0);
                    let radius = Some(frame.length(radius_m + outside_m));
                    steps.extend((1..=parts as u32).map(|part| {
                        let end = place(piece, begins + (ends - begins) * f64::from(part) / parts);
                        Step { radius, end }
                    }));
                }
            }
        }
        Self { start: place(from.piece, from.fraction), steps }
    }

    /// Where it ends, and where the step to there began.
    pub(super) fn end(&self) -> (Point, Point) {
        let place = |back: usize| {
            self.steps.len().checked_sub(back).map_or(self.start, |index| self.steps[index].end)
        };
        (place(1), place(2))
    }

    /// The way in the direction of running.
    pub(super) fn forward(&self) -> String {
        let steps: String = self.steps.iter().map(|step| step.to(step.end, Turn::Left)).collect();
        format!("M{}{steps}", pair(self.start))
    }

    /// The way back, to be added to the data of a way that ends abreast of it.
    pub(super) fn back(&self) -> String {
        let mut d = format!("L{}", pair(self.end().0));
        for (index, step) in self.steps.iter().enumerate().rev() {
            let begins = if index == 0 { self.start } else { self.steps[index - 1].end };
            d += &step.to(begins, Turn::Right);
        }
        d
    }
}

/// Which way an arc turns on the page.
#[derive(Clone, Copy)]
enum Turn {
    Left,
    Right,
}

impl Step {
    fn to(self, end: Point, turn: Turn) -> String {
        match self.radius {
            None => format!("L{}", pair(end)),
            Some(radius) => {
                let radius = number(radius);
                format!("A{radius} {radius} 0 0 {} {}", turn as u8, pair(end))
            }
        }
    }
}

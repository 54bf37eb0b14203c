//! The inner edge of lane 1: a closed chain of pieces.

use std::f64::consts::{FRAC_PI_2, TAU};

use crate::geometry::piece::Piece;
use crate::geometry::point::{Point, Pose};
use crate::geometry::station::Station;

/// How far the ends of a path may lie apart, in metres.
const CLOSING_GAP_M: f64 = 0.001;

/// How far the turns of a lap may differ from 360°, in radians (a millionth of a degree).
const CLOSING_TURN_RAD: f64 = 1e-6 * TAU / 360.0;

/// The inner edge of lane 1, in running order from the finish line, which lies at the end of the
/// home straight: so the first piece is the first of the bend after the finish, and the last piece
/// is the home straight.
///
/// ```
/// use lane_distance::{Path, Piece};
/// use std::f64::consts::PI;
///
/// let bend = Piece::Arc { radius_m: 36.50, turn_rad: PI };
/// let straight = Piece::Straight { length_m: 84.39 };
/// let path = Path::close(vec![bend, straight, bend, straight])?;
/// let finish = path.starts()[0].point;
/// assert!((finish.x - 84.39 / 2.0).abs() < 1e-9 && (finish.y + 36.50).abs() < 1e-9);
/// # Ok::<(), lane_distance::PathError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    pieces: Vec<Piece>,
    starts: Vec<Pose>,
}

/// Why a chain of pieces is not a lap.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum PathError {
    /// There are no pieces, or the last is not straight.
    #[error("the last piece of the path is the home straight, and must be a straight")]
    NoHomeStraight,
    /// A length, a radius or a turn is not positive, or an arc turns more than once round.
    #[error("piece {} of the path has a length, a radius or a turn that no lap has", index + 1)]
    Piece {
        /// Its index, from 0.
        index: usize,
    },
    /// The arcs do not turn once round.
    #[error("the arcs of the path turn {turn_deg:.4}° in all; a lap turns exactly 360°")]
    Turn {
        /// Sum of the turns, in degrees.
        turn_deg: f64,
    },
    /// The end is not the start.
    #[error(
        "the path does not close: after a whole lap it ends {gap_m:.3} m from where it began \
         ({along_m:+.3} m along the home straight, {across_m:+.3} m across); the most allowed is 0.001 m"
    )]
    Gap {
        /// Distance between the ends, in metres.
        gap_m: f64,
        /// The part of the gap along the home straight, in metres, to the millimetre.
        along_m: f64,
        /// The part of the gap towards the back straight, in metres, to the millimetre.
        across_m: f64,
    },
}

impl Path {
    /// Lays the pieces end to end and centres them on the infield.
    ///
    /// The centre is the middle of the box that bounds the inner edge.
    ///
    /// # Errors
    ///
    /// [`PathError`] where the last piece is not straight, a piece has an impossible length, the turns do not add up to 360°, or the
    /// ends lie more than 1 mm apart.
    pub fn close(pieces: Vec<Piece>) -> Result<Self, PathError> {
        if !matches!(pieces.last(), Some(Piece::Straight { .. })) {
            return Err(PathError::NoHomeStraight);
        }
        if let Some(index) = pieces.iter().position(|piece| !piece.is_valid()) {
            return Err(PathError::Piece { index });
        }
        let mut starts = Vec::with_capacity(pieces.len());
        let mut pose = Pose::default();
        for piece in &pieces {
            starts.push(pose);
            pose = piece.pose(pose, 1.0);
        }
        if (pose.heading_rad - TAU).abs() > CLOSING_TURN_RAD {
            return Err(PathError::Turn { turn_deg: pose.heading_rad.to_degrees() });
        }
        let gap_m = pose.point.distance(Point::default());
        if gap_m > CLOSING_GAP_M {
            // Adding 0 turns a negative zero into a plain one.
            let to_mm = |metres: f64| (metres * 1000.0).round() / 1000.0 + 0.0;
            let (along_m, across_m) = (to_mm(pose.point.x), to_mm(pose.point.y));
            return Err(PathError::Gap { gap_m, along_m, across_m });
        }
        let (low, high) = bounds(&pieces, &starts);
        for start in &mut starts {
            start.point.x -= (low.x + high.x) / 2.0;
            start.point.y -= (low.y + high.y) / 2.0;
        }
        Ok(Self { pieces, starts })
    }

    /// The pieces, in running order from the finish line.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Where each piece begins on the inner edge.
    pub fn starts(&self) -> &[Pose] {
        &self.starts
    }

    /// How far a point lies outside the inner edge, in metres: negative is on the infield. Infinite
    /// where it lies beside no piece, as in the very corner between two.
    pub fn outside_m(&self, point: Point) -> f64 {
        // Deep in the infield several pieces answer: the nearest counts.
        let beside =
            self.pieces.iter().zip(&self.starts).filter_map(|(piece, &start)| piece.outside_m(start, point));
        beside.min_by(|a, b| a.abs().total_cmp(&b.abs())).unwrap_or(f64::INFINITY)
    }

    /// The station of the place nearest to a point on the parallel that lies `offset_m` outside the inner edge, and how
    /// far off that place is, in metres.
    pub(crate) fn nearest(&self, offset_m: f64, point: Point) -> (Station, f64) {
        let places = self.pieces.iter().zip(&self.starts).enumerate().map(|(piece, (shape, &start))| {
            let (fraction, off_m) = shape.nearest(start, offset_m, point);
            (Station { piece, fraction }, off_m)
        });
        // A path has pieces.
        let nearest = places.min_by(|a, b| a.1.total_cmp(&b.1));
        nearest.unwrap_or((Station { piece: 0, fraction: 0.0 }, f64::INFINITY))
    }

    /// Point and direction on the inner edge at a station. A piece that the path does not have counts
    /// as its last.
    pub fn pose(&self, station: Station) -> Pose {
        let piece = station.piece.min(self.pieces.len() - 1);
        self.pieces[piece].pose(self.starts[piece], station.fraction)
    }

    /// The corners of the box that bounds the inner edge: lowest x and y, highest x and y.
    pub fn bounds(&self) -> (Point, Point) {
        bounds(&self.pieces, &self.starts)
    }
}

/// An arc reaches its outermost x or y either at an end or where it runs along an axis.
fn bounds(pieces: &[Piece], starts: &[Pose]) -> (Point, Point) {
    let mut low = Point::new(f64::INFINITY, f64::INFINITY);
    let mut high = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
    let mut reach = |point: Point| {
        low = Point::new(low.x.min(point.x), low.y.min(point.y));
        high = Point::new(high.x.max(point.x), high.y.max(point.y));
    };
    for (piece, &start) in pieces.iter().zip(starts) {
        reach(start.point);
        let turn = piece.turn_rad();
        let mut heading = (start.heading_rad / FRAC_PI_2).ceil() * FRAC_PI_2;
        while turn > 0.0 && heading < start.heading_rad + turn {
            reach(piece.pose(start, (heading - start.heading_rad) / turn).point);
            heading += FRAC_PI_2;
        }
    }
    (low, high)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arc(radius_m: f64, turn_deg: f64) -> Piece {
        Piece::Arc { radius_m, turn_rad: turn_deg.to_radians() }
    }

    fn straight(length_m: f64) -> Piece {
        Piece::Straight { length_m }
    }

    #[test]
    fn the_box_reaches_the_outermost_point_of_each_bend() {
        let path = Path::close(vec![arc(36.5, 180.0), straight(84.39), arc(36.5, 180.0), straight(84.39)])
            .expect("half a lap turns as the other does");
        let (low, high) = path.bounds();
        let along_m = 84.39 / 2.0 + 36.5;
        for (corner, x, y) in [(low, -along_m, -36.5), (high, along_m, 36.5)] {
            assert!((corner.x - x).abs() < 1e-9 && (corner.y - y).abs() < 1e-9, "{corner:?}");
        }
    }

    #[test]
    fn a_gap_is_named_with_its_size_and_direction() {
        let error = Path::close(vec![arc(36.5, 180.0), straight(84.39), arc(36.5, 180.0), straight(84.89)])
            .expect_err("the straights differ by half a metre");
        assert_eq!(
            error.to_string(),
            "the path does not close: after a whole lap it ends 0.500 m from where it began \
             (+0.500 m along the home straight, +0.000 m across); the most allowed is 0.001 m"
        );
    }

    #[test]
    fn a_lap_turns_once_round() {
        let error = Path::close(vec![arc(36.5, 180.0), straight(84.39), arc(36.5, 179.0), straight(84.39)])
            .expect_err("a degree is missing");
        assert_eq!(error, PathError::Turn { turn_deg: 359.0_f64.to_radians().to_degrees() });
    }

    #[test]
    fn a_piece_that_is_no_length_is_refused() {
        for wrong in [straight(f64::NAN), straight(0.0), arc(f64::INFINITY, 180.0), arc(36.5, -180.0)] {
            let error = Path::close(vec![arc(36.5, 180.0), wrong, arc(36.5, 180.0), straight(84.39)]);
            assert_eq!(error, Err(PathError::Piece { index: 1 }), "{wrong:?}");
        }
    }

    #[test]
    fn a_path_of_no_pieces_has_no_home_straight() {
        assert_eq!(Path::close(Vec::new()), Err(PathError::NoHomeStraight));
    }
}

//! The shortest run from an outer lane to an inner one: breaking for the inside.

use crate::geometry::lane_number::LaneNumber;
use crate::geometry::piece::Piece;
use crate::geometry::point::Point;
use crate::geometry::spot::Spot;
use crate::geometry::station::Station;
use crate::track::layout::Layout;

/// The shortest run from a spot to the measure line of a lane further in, and on along it: a
/// straight line that touches the inner measure line on a bend, and that line from there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Join {
    /// Length of the straight line, in metres.
    pub across_m: f64,
    /// Where the runner reaches the inner lane's measure line.
    pub at: Spot,
    /// The whole run from the spot to the finish line, in metres.
    pub to_finish_m: f64,
}

impl Layout {
    /// The shortest run from a spot on the oval to the measure line of `lane`, which lies further
    /// in, and along it to the finish line.
    ///
    /// The tangent point on an arc of centre C and radius ρ, seen from P, lies at the angle
    /// atan2(P − C) + acos(ρ / |P − C|): elementary geometry of the circle. The inner measure line
    /// is convex, so that exactly one arc of the lap holds its own tangent point.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let layout = track.layout();
    /// // From the end of the first bend in lane 8, breaking for lane 1 costs 0.415 m.
    /// let (inside, outside) = (LaneNumber::FIRST, LaneNumber::of::<8>());
    /// let join = layout.join(layout.end_of_first_bend(outside), inside).expect("lane 1 lies further in");
    /// let costs_m = join.to_finish_m - layout.end_of_first_bend(inside).to_finish_m;
    /// assert!((costs_m - 0.415).abs() < 0.001);
    /// ```
    pub fn join(&self, from: Spot, lane: LaneNumber) -> Option<Join> {
        if lane == from.lane {
            return Some(Join { across_m: 0.0, at: from, to_finish_m: from.to_finish_m });
        }
        let point = self.point(from);
        let line = self.measure(lane);
        let begins = self.station(from).piece;
        let pieces = self.path().pieces().len();
        // The tangent point lies ahead: look from the runner's own piece on.
        (begins..begins + pieces).find_map(|piece| {
            let (across_m, fraction) = self.tangent(point, piece % pieces, line.offset_m, Touching::Ahead)?;
            let from_finish_m = line.from_finish_m(Station { piece: piece % pieces, fraction });
            let at = Spot::on_oval(lane, line.within_lap_m(line.lap_m() - from_finish_m));
            // Touching beyond the finish line, the straight line itself crosses the finish.
            let laps_m = if piece >= pieces { line.lap_m() } else { 0.0 };
            Some(Join { across_m, at, to_finish_m: across_m + line.lap_m() - from_finish_m - laps_m })
        })
    }

    /// The shortest run from a spot on the oval to a spot of another lane, in the direction of
    /// running, in metres; less than a lap and the run across.
    ///
    /// Inwards it is a straight line that touches the inner measure line, and that line from there;
    /// outwards it is the reverse. Where the touching point would lie beyond the end,
    /// it is one straight line.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// // From lane 4 to lane 1 along the whole back straight: 3.56 m sideways cost 0.075 m.
    /// let layout = track.layout();
    /// let from = layout.end_of_first_bend(LaneNumber::of::<4>());
    /// let way_m = layout.crossing_m(from, Spot::on_oval(LaneNumber::FIRST, 200.0)).expect("both are on the oval");
    /// assert!((way_m - 84.39 - 0.075).abs() < 0.001);
    /// ```
    pub fn crossing_m(&self, from: Spot, to: Spot) -> Option<f64> {
        let (inner, outer) = if from.lane < to.lane { (from, to) } else { (to, from) };
        let line = self.measure(inner.lane);
        let abreast = self.abreast(outer, inner.lane);
        // Distances along the inner line, from beside the outer spot towards the inner one.
        let towards = |a: Spot, b: Spot| match from.lane < to.lane {
            true => line.within_lap_m(b.to_finish_m - a.to_finish_m),
            false => line.within_lap_m(a.to_finish_m - b.to_finish_m),
        };
        let (across_m, touching) = if from.lane < to.lane {
            self.touching_behind(outer, inner.lane)?
        } else {
            let join = self.join(outer, inner.lane)?;
            (join.across_m, join.at)
        };
        let (touches_m, ends_m) = (towards(abreast, touching), towards(abreast, inner));
        Some(if ends_m < touches_m {
            self.point(from).distance(self.point(to)) * self.scale()
        } else {
            across_m + ends_m - touches_m
        })
    }

    /// Length of the straight line from a spot back to the measure line of a lane further in, and
    /// where it touches: how a runner in that lane comes out to the spot.
    fn touching_behind(&self, from: Spot, lane: LaneNumber) -> Option<(f64, Spot)> {
        let point = self.point(from);
        let line = self.measure(lane);
        let pieces = self.path().pieces().len();
        let begins = self.station(from).piece + pieces;
        (0..pieces).find_map(|back| {
            let piece = (begins - back) % pieces;
            let (across_m, fraction) = self.tangent(point, piece, line.offset_m, Touching::Behind)?;
            let from_finish_m = line.from_finish_m(Station { piece, fraction });
            Some((across_m, Spot::on_oval(lane, line.within_lap_m(line.lap_m() - from_finish_m))))
        })
    }

    /// Length of the tangent from a point to a piece at an offset, and the part of the piece that
    /// lies behind the tangent point; nothing where the piece does not hold it.
    fn tangent(&self, from: Point, piece: usize, offset_m: f64, touching: Touching) -> Option<(f64, f64)> {
        let Piece::Arc { radius_m, turn_rad } = self.path().pieces()[piece] else {
            return None;
        };
        let start = self.path().starts()[piece];
        let centre = start.outwards(-radius_m);
        let radius_m = radius_m + offset_m;
        let (dx, dy) = (from.x - centre.x, from.y - centre.y);
        let away_m = libm::hypot(dx, dy);
        if away_m < radius_m {
            return None;
        }
        let between = libm::acos(radius_m / away_m);
        let angle = libm::atan2(dy, dx)
            + match touching {
                Touching::Ahead => between,
                Touching::Behind => -between,
            };
        let begins = start.heading_rad - std::f64::consts::FRAC_PI_2;
        // A hair before the arc begins is its beginning, not the end of a turn.
        let turned = (angle - begins + 1e-9).rem_euclid(std::f64::consts::TAU) - 1e-9;
        (turned <= turn_rad + 1e-9).then(|| {
            let across_m = (away_m * away_m - radius_m * radius_m).sqrt() * self.scale();
            (across_m, (turned / turn_rad).clamp(0.0, 1.0))
        })
    }
}

/// On which side of the point a tangent touches, in the direction of running.
#[derive(Clone, Copy, Debug)]
enum Touching {
    Ahead,
    Behind,
}

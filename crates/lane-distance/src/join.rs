//! The shortest way from an outer lane to an inner one: breaking for the inside.

use crate::layout::Layout;
use crate::line::Station;
use crate::point::Point;
use crate::spot::Spot;
use crate::stretch::Piece;

/// The shortest way from a spot to the measure line of a lane further in, and on along it: a
/// straight line that touches the inner measure line on a bend, and that line from there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Join {
    /// Length of the straight line, in metres.
    pub across_m: f64,
    /// Where the runner reaches the inner lane's measure line.
    pub at: Spot,
    /// The whole way from the spot to the finish line, in metres.
    pub to_finish_m: f64,
}

impl Layout {
    /// The shortest way from a spot on the oval to the measure line of `lane`, which lies further
    /// in, and along it to the finish line.
    ///
    /// The tangent point on an arc of centre C and radius ρ, seen from P, lies at the angle
    /// atan2(P − C) + acos(ρ / |P − C|): elementary geometry of the circle. The inner measure line
    /// is convex, so that exactly one arc of the lap holds its own tangent point.
    ///
    /// ```
    /// use lane_distance::{Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let layout = track.layout();
    /// // From the end of the first bend in lane 8, the way to lane 1 costs 0.415 m.
    /// let join = layout.join(layout.end_of_first_bend(8), 1).expect("lane 1 lies further in");
    /// let costs_m = join.to_finish_m - layout.end_of_first_bend(1).to_finish_m;
    /// assert!((costs_m - 0.415).abs() < 0.001);
    /// ```
    pub fn join(&self, from: Spot, lane: u8) -> Option<Join> {
        if lane == from.lane {
            return Some(Join { across_m: 0.0, at: from, to_finish_m: from.to_finish_m });
        }
        let point = self.point(from);
        let line = self.measure(lane);
        let begins = self.station(from).piece;
        let pieces = self.path().pieces().len();
        // The tangent point lies ahead: look from the runner's own piece on.
        (begins..begins + pieces).find_map(|piece| {
            let (across_m, fraction) = self.tangent(point, piece % pieces, line.offset_m)?;
            let from_finish_m = line.from_finish_m(Station { piece: piece % pieces, fraction });
            let at = Spot::on_oval(lane, line.within_lap_m(line.lap_m() - from_finish_m));
            // Touching beyond the finish line, the straight line itself crosses the finish.
            let laps_m = if piece >= pieces { line.lap_m() } else { 0.0 };
            Some(Join { across_m, at, to_finish_m: across_m + line.lap_m() - from_finish_m - laps_m })
        })
    }

    /// Length of the tangent from a point to a piece at an offset, and the part of the piece that
    /// lies behind the tangent point; nothing where the piece does not hold it.
    fn tangent(&self, from: Point, piece: usize, offset_m: f64) -> Option<(f64, f64)> {
        let Piece::Arc(arc) = self.path().pieces()[piece] else {
            return None;
        };
        let start = self.path().starts()[piece];
        let centre = arc.centre(start);
        let radius_m = arc.radius_m + offset_m;
        let (dx, dy) = (from.x - centre.x, from.y - centre.y);
        let away_m = dx.hypot(dy);
        if away_m < radius_m {
            return None;
        }
        let angle = dy.atan2(dx) + (radius_m / away_m).acos();
        let begins = start.heading_rad - std::f64::consts::FRAC_PI_2;
        // A hair before the arc begins is its beginning, not the end of a turn.
        let turned = (angle - begins + 1e-9).rem_euclid(std::f64::consts::TAU) - 1e-9;
        (turned <= arc.turn_rad + 1e-9).then(|| {
            let across_m = (away_m * away_m - radius_m * radius_m).sqrt();
            (across_m, (turned / arc.turn_rad).clamp(0.0, 1.0))
        })
    }
}

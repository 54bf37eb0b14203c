//! A lane's measure line as a curves library has it: lines and cubic curves with lengths found numerically.

use std::f64::consts::FRAC_PI_2;

use kurbo::{Arc, Line, ParamCurve, ParamCurveArclen, ParamCurveNearest, PathSeg, Point, Shape};
use lane_distance::{Course, LaneNumber, Piece, Track};

/// How near curves, lengths and places have to come to the true ones, in metres: all together stays below 1 mm.
const NEAR_M: f64 = 1e-5;

/// A measure line, from where it begins to where it ends in the direction of running.
pub(crate) struct MeasureLine {
    curves: Vec<Curve>,
    pub(crate) length_m: f64,
}

/// A piece of it.
struct Curve {
    begins_m: f64,
    length_m: f64,
    segment: PathSeg,
}

impl MeasureLine {
    /// A lap of a lane, from the finish line to the finish line.
    pub(crate) fn lap(track: &Track, lane: LaneNumber) -> Self {
        let path = track.layout().path();
        let outside_m = track.layout().lane(lane).measure_m;
        Self::new(path.pieces().iter().zip(path.starts()).flat_map(|(piece, start)| {
            let begins = start.outwards(outside_m);
            let begins = Point::new(begins.x, begins.y);
            let (sin, cos) = start.heading_rad.sin_cos();
            match *piece {
                Piece::Straight { length_m } => {
                    let ends = begins + length_m * kurbo::Vec2::new(cos, sin);
                    vec![PathSeg::Line(Line::new(begins, ends))]
                }
                Piece::Arc { radius_m, turn_rad } => {
                    let radius_m = radius_m + outside_m;
                    let centre = begins + radius_m * kurbo::Vec2::new(-sin, cos);
                    let from_rad = start.heading_rad - FRAC_PI_2;
                    let arc = Arc::new(centre, (radius_m, radius_m), from_rad, turn_rad, 0.0);
                    arc.path_segments(NEAR_M).collect()
                }
            }
        }))
    }

    /// The home straight of a lane, from the back of its chute to the finish line.
    pub(crate) fn home_straight(track: &Track, lane: LaneNumber) -> Option<Self> {
        let layout = track.layout();
        let home = layout.straight(Course::HomeStraight)?;
        let start = layout.path().starts().get(home.piece)?;
        let begins = start.outwards(layout.lane(lane).measure_m);
        let (sin, cos) = start.heading_rad.sin_cos();
        let along = |metres: f64| Point::new(begins.x + metres * cos, begins.y + metres * sin);
        Some(Self::new([PathSeg::Line(Line::new(along(-home.chute_m), along(home.straight_m)))]))
    }

    fn new(segments: impl IntoIterator<Item = PathSeg>) -> Self {
        let mut line = Self { curves: Vec::new(), length_m: 0.0 };
        for segment in segments {
            let length_m = segment.arclen(NEAR_M);
            line.curves.push(Curve { begins_m: line.length_m, length_m, segment });
            line.length_m += length_m;
        }
        line
    }

    /// The place so far along the line.
    pub(crate) fn at(&self, along_m: f64) -> Option<Point> {
        let curve = self.curves.iter().rev().find(|curve| curve.begins_m <= along_m)?;
        let own_m = (along_m - curve.begins_m).min(curve.length_m);
        Some(curve.segment.eval(curve.segment.inv_arclen(own_m, NEAR_M)))
    }

    /// How far along the line the place nearest to a point lies, in metres.
    pub(crate) fn along_m(&self, point: Point) -> Option<f64> {
        let nearest = self.curves.iter().map(|curve| (curve, curve.segment.nearest(point, NEAR_M)));
        let (curve, nearest) = nearest.min_by(|a, b| a.1.distance_sq.total_cmp(&b.1.distance_sq))?;
        Some(curve.begins_m + curve.segment.subsegment(0.0..nearest.t).arclen(NEAR_M))
    }
}

//! Measures a way along a lane independently of the solver: a curves library projects coordinates on
//! a line of cubic curves and integrates its length numerically.

use kurbo::{Arc, ParamCurve, ParamCurveArclen, ParamCurveNearest, PathSeg, Point, Shape};

/// How far the cubic curves may leave a true arc, in metres. A line that runs this far outside a
/// circle all the way round is 2π times as much longer: a hundred times less than the strictest test asks for.
const FITTED_M: f64 = 1e-9;

/// To what the curves library integrates the length of one curve, in metres.
const MEASURED_M: f64 = 1e-10;

/// A closed line, run from the finish line.
pub(crate) struct Trace {
    /// Each curve, with the distance from the finish line at which it begins.
    curves: Vec<(f64, PathSeg)>,
    /// Length of the whole line, in metres.
    pub(crate) lap_m: f64,
}

impl Trace {
    /// The line made of these curves, in running order.
    pub(crate) fn new(curves: impl IntoIterator<Item = PathSeg>) -> Self {
        let mut route = Self { curves: Vec::new(), lap_m: 0.0 };
        for curve in curves {
            route.curves.push((route.lap_m, curve));
            route.lap_m += curve.arclen(MEASURED_M);
        }
        route
    }

    /// How far along the line the place nearest to `x`, `y` lies, and how far off the line that is.
    pub(crate) fn locate(&self, x: f64, y: f64) -> (f64, f64) {
        let nearest = self.curves.iter().map(|(begins_m, curve)| {
            let nearest = curve.nearest(Point::new(x, y), MEASURED_M);
            (begins_m, curve, nearest)
        });
        let (begins_m, curve, nearest) = nearest
            .min_by(|a, b| a.2.distance_sq.total_cmp(&b.2.distance_sq))
            .expect("a route has at least one curve");
        let along_m = begins_m + curve.subsegment(0.0..nearest.t).arclen(MEASURED_M);
        (along_m, nearest.distance_sq.max(0.0).sqrt())
    }
}

/// An arc that turns left, as cubic curves; angles in radians, anticlockwise from +x at the centre.
pub(crate) fn bend(centre: (f64, f64), radius_m: f64, begins_rad: f64, turn_rad: f64) -> Vec<PathSeg> {
    let arc = Arc::new(centre, (radius_m, radius_m), begins_rad, turn_rad, 0.0);
    arc.path_segments(FITTED_M).collect()
}

/// A straight from one place to another.
pub(crate) fn straight(from: (f64, f64), to: (f64, f64)) -> Vec<PathSeg> {
    vec![PathSeg::Line(kurbo::Line::new(from, to))]
}

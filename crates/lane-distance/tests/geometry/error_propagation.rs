//! How sure a distance is: the closed form against finite differences. One dimension of the track is
//! changed at a time, the run is measured anew on the same ground lines, and the changes add as squares.
//!
//! The tolerance of a lane's width, 0.01 m: World Athletics, Technical Rules, track and lanes (from
//! memory). That of a tape, 0.02 m: common practice, no source.

use lane_distance::spec::{InnerEdge, LengthSpec, OneOrMany, RadiusAt, TrackSpec};
use lane_distance::{Course, Lane, Line, Pair, Path, Place, Track};

use crate::lane_number;

/// By how much a dimension is changed, in metres. Lengths are linear in it: any step does.
const STEP_M: f64 = 0.001;

/// The measure lines of a lane: as the track is described, and with one dimension changed in each.
struct Lines {
    nominal: Line,
    /// With lane 1, 2, 3 and so on wider.
    wider_lanes: Vec<Line>,
    /// With all bends wider.
    wider_bends: Line,
}

impl Lines {
    fn of(spec: &TrackSpec, path: &Path, lane: u8) -> Self {
        let OneOrMany::One(width) = spec.lane_width else { panic!("the built-in tracks give one width") };
        let line = |path: &Path, wider: Option<u8>| {
            let widths_m = (1..=spec.lanes)
                .map(|of| width.metres() + if wider == Some(of) { STEP_M } else { 0.0 })
                .collect::<Vec<_>>();
            let lanes = Lane::side_by_side(spec.inner_edge, &widths_m);
            Line::parallel(path, lanes[usize::from(lane) - 1].measure_m, 1.0)
        };
        let mut pieces = path.pieces().to_vec();
        for piece in &mut pieces {
            if let lane_distance::Piece::Arc { radius_m, .. } = piece {
                *radius_m += STEP_M;
            }
        }
        let wider = Path::close(pieces).expect("bends that are all wider close as well");
        Self {
            nominal: line(path, None),
            wider_lanes: (1..=spec.lanes).map(|of| line(path, Some(of))).collect(),
            wider_bends: line(&wider, None),
        }
    }

    /// How sure a pair is, by finite differences.
    fn propagated_m(&self, pair: &Pair, [width_m, radius_m, tape_m]: [f64; 3]) -> f64 {
        let nominal_m = run_m(&self.nominal, &self.nominal, pair);
        let slope = |line: &Line| (run_m(line, &self.nominal, pair) - nominal_m) / STEP_M;
        let widths = self.wider_lanes.iter().map(|line| slope(line) * width_m);
        let radius = slope(&self.wider_bends) * radius_m;
        let ends = [pair.start_reading, pair.finish_reading];
        let tapes = ends.into_iter().filter(|end| !end.is_on_paint()).map(|_| tape_m);
        widths.chain([radius]).chain(tapes).map(|error_m| error_m * error_m).sum::<f64>().sqrt()
    }
}

/// How long a run is on a line, from the square line through its start to that through its finish.
fn run_m(line: &Line, nominal: &Line, pair: &Pair) -> f64 {
    let along_m = |to_finish_m: f64| {
        let from_finish_m = if to_finish_m == 0.0 { 0.0 } else { nominal.lap_m() - to_finish_m };
        line.from_finish_m(nominal.station(from_finish_m))
    };
    let (begins_m, ends_m) = (along_m(pair.start.to_finish_m), along_m(pair.finish.to_finish_m));
    let laps = (pair.distance_m / nominal.lap_m()).floor();
    let part_m = ends_m - begins_m;
    laps * line.lap_m() + if part_m < -1e-6 { part_m + line.lap_m() } else { part_m.max(0.0) }
}

#[test]
fn the_closed_form_is_what_finite_differences_add_up_to() {
    let mut pairs = 0;
    for name in ["standard", "double-bend-1", "double-bend-2", "double-bend-3"] {
        for tolerances in [[0.01, 0.0, 0.02], [0.01, 0.005, 0.02], [0.03, 0.02, 0.05]] {
            let mut spec = TrackSpec::built_in(name).expect("it comes with the crate");
            assert_eq!((spec.radius_at, spec.inner_edge), (RadiusAt::InnerEdge, InnerEdge::Kerb));
            let [width, radius, tape] = tolerances.map(LengthSpec::from_metres);
            spec.tolerances = lane_distance::spec::Tolerances { lane_width: width, radius, tape };
            let track = Track::build(&spec).unwrap_or_else(|faults| panic!("{faults:?}"));
            for lane in 1..=spec.lanes {
                let lines = Lines::of(&spec, track.layout().path(), lane);
                for distance_m in [60.0, 150.0, 250.0, 400.0, 1000.0, 1609.344] {
                    let found = track.search_at(Place::On(Course::Oval), lane_number(lane), distance_m);
                    for pair in found.expect("lane and distance are in range") {
                        let closed_m = track.uncertainty_m(&pair);
                        let propagated_m = lines.propagated_m(&pair, tolerances);
                        assert!(
                            (closed_m - propagated_m).abs() < 1e-6,
                            "{name} {tolerances:?}: ±{closed_m} m, propagated ±{propagated_m} m: {pair:?}"
                        );
                        pairs += 1;
                    }
                }
            }
        }
    }
    assert!(pairs > 1000, "only {pairs} pairs");
}

#[test]
fn the_other_way_is_as_sure_as_the_way() {
    let track = Track::built_in("standard").expect("it comes with the crate");
    let sure_m = |place| {
        let pairs = track.search_at(place, lane_number(4), 60.0).expect("60 m fit on the home straight");
        track.uncertainty_m(&pairs[0])
    };
    // On a straight no lane is longer than another: what is left is the tape, where there is one.
    for place in [Place::On(Course::HomeStraight), Place::Against(Course::HomeStraight)] {
        assert_eq!(sure_m(place), 0.0, "{place}");
    }
}

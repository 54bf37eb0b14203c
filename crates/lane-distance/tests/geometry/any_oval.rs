//! Ovals of any size: whatever the search offers there is the distance apart, measured from the
//! coordinates along a line that is built from the dimensions alone.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::lane_number;
use crate::trace::{Trace, bend, straight};
use lane_distance::spec::{
    InnerEdge, LengthSpec, MarksSpec, OneOrMany, PieceSpec, RadiusAt, StraightSpec, TrackSpec,
};
use lane_distance::{Course, Spot, Track};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

/// The dimensions of an oval.
#[derive(Clone, Debug)]
struct Oval {
    radius_m: f64,
    straight_m: f64,
    widths_m: Vec<f64>,
    inner_edge: InnerEdge,
    chute_m: f64,
    sets: Vec<&'static str>,
}

fn any_oval() -> impl Strategy<Value = Oval> {
    let edge = prop_oneof![Just(InnerEdge::Kerb), Just(InnerEdge::Line), Just(InnerEdge::KerbOnBends)];
    let sets = prop_oneof![
        Just(vec!["standard"]),
        Just(vec!["standard", "club lines", "former takeover zones", "300 m hurdles"]),
        Just(vec!["small oval", "club lines"]),
        Just(vec!["yards"]),
    ];
    let widths_m = prop::collection::vec(0.9..1.5, 1..=10);
    (10.0..60.0, 5.0..150.0, widths_m, edge, 0.0..120.0, sets).prop_map(
        |(radius_m, straight_m, widths_m, inner_edge, chute_m, sets)| Oval {
            radius_m,
            straight_m,
            widths_m,
            inner_edge,
            chute_m,
            sets,
        },
    )
}

impl Oval {
    fn track(&self) -> Track {
        let m = LengthSpec::from_metres;
        let arc = PieceSpec { radius: Some(m(self.radius_m)), turn: Some(180.0), straight: None };
        let straight = PieceSpec { straight: Some(m(self.straight_m)), ..PieceSpec::default() };
        let spec = TrackSpec {
            name: "any oval".to_owned(),
            source: String::new(),
            path: vec![arc, straight, arc, straight],
            radius_at: RadiusAt::InnerEdge,
            inner_edge: self.inner_edge,
            lanes: self.widths_m.len() as u8,
            lane_width: OneOrMany::Many(self.widths_m.iter().copied().map(m).collect()),
            home_straight: StraightSpec { lanes: None, chute: m(self.chute_m) },
            back_straight: StraightSpec::default(),
            surveyed_lap: None,
            bearing: None,
            closed_lanes: Default::default(),
            hazards: Vec::new(),
            tolerances: Default::default(),
            marks: MarksSpec {
                sets: Some(self.sets.iter().map(|set| (*set).to_owned()).collect()),
                ..MarksSpec::default()
            },
        };
        Track::build(&spec).unwrap_or_else(|faults| panic!("{faults:?}"))
    }

    /// World Athletics, Technical Rules, track and lanes: lane 1 is measured 0.30 m outside a kerb, every
    /// other lane, and lane 1 without a kerb, 0.20 m outside its inner line.
    fn measure_line(&self, lane: usize) -> Trace {
        let outside_m = match (lane, self.inner_edge) {
            (1, InnerEdge::Kerb | InnerEdge::KerbOnBends) => 0.30,
            _ => 0.20,
        };
        let radius_m = self.radius_m + self.widths_m[..lane - 1].iter().sum::<f64>() + outside_m;
        let half_m = self.straight_m / 2.0;
        let curves = [
            bend((half_m, 0.0), radius_m, -FRAC_PI_2, PI),
            straight((half_m, radius_m), (-half_m, radius_m)),
            bend((-half_m, 0.0), radius_m, FRAC_PI_2, PI),
            straight((-half_m, -radius_m), (half_m, -radius_m)),
        ];
        Trace::new(curves.into_iter().flatten())
    }
}

#[test]
fn every_pair_on_any_oval_is_the_distance_apart() {
    // The same ovals each time: a check that fails today fails tomorrow.
    let config = Config { cases: 200, failure_persistence: None, ..Config::default() };
    let mut runner = TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let cases = (any_oval(), any::<prop::sample::Index>(), prop_oneof![10.0..400.0, 10.0..10_000.0]);
    let outcome = runner.run(&cases, |(oval, lane, distance_m)| {
        let lane = lane.index(oval.widths_m.len()) + 1;
        let (track, line) = (oval.track(), oval.measure_line(lane));
        let lap_m = track.lap_m(lane_number(lane as u8)).expect("the lane exists");
        prop_assert!((lap_m - line.lap_m).abs() < 1e-6, "a lap of {lap_m} m, integrated {} m", line.lap_m);
        let pairs =
            track.search(lane_number(lane as u8), distance_m).expect("lane and distance are in range");
        prop_assert!(!pairs.is_empty(), "nothing is offered");
        for pair in pairs {
            if pair.start.course == Course::Oval {
                let along_m = |spot: Spot| {
                    let point = track.point(spot);
                    line.locate(point.x, point.y).0
                };
                let part_m = along_m(pair.finish) - along_m(pair.start);
                let laps = ((distance_m - part_m) / line.lap_m).round();
                let wrong_by_m = part_m + laps * line.lap_m - distance_m;
                prop_assert!(wrong_by_m.abs() < 1e-5, "{wrong_by_m} m wrong: {pair:?}");
            } else {
                let run_m = track.point(pair.start).distance(track.point(pair.finish));
                prop_assert!((run_m - distance_m).abs() < 1e-6, "{run_m} m: {pair:?}");
            }
        }
        Ok(())
    });
    outcome.unwrap_or_else(|error| panic!("{error}"));
}

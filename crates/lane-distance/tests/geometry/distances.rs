//! Every pair that the search offers on the standard track, measured from its coordinates alone.
//!
//! The measure lines are typed from World Athletics, Track and Field Facilities Manual, chapter 2, 400 m
//! standard track: bends of 36.50 m to the kerb, straights of 84.39 m, lanes of 1.22 m; measured 0.30 m
//! outside the kerb in lane 1 and 0.20 m outside the inner line elsewhere (Technical Rules, track
//! and lanes).

use std::f64::consts::{FRAC_PI_2, PI};

use crate::by_hand::{STRAIGHT_M, radius_m};
use crate::fixtures::{standard, standard_with};
use crate::lane_number;
use crate::trace::{Trace, bend, straight};
use lane_distance::spec::LengthSpec;
use lane_distance::{Course, Pair, Spot, Track};

/// The repetitions that people run, in metres.
const DISTANCES_M: [f64; 22] = [
    30.0, 40.0, 60.0, 80.0, 100.0, 120.0, 150.0, 200.0, 250.0, 300.0, 333.33, 400.0, 500.0, 600.0, 800.0,
    1000.0, 1200.0, 1500.0, 1609.344, 2000.0, 3000.0, 5000.0,
];

/// Half a straight: the finish line lies this far along +x from the centre.
const HALF_STRAIGHT_M: f64 = STRAIGHT_M / 2.0;

/// The measure line of a lane of the published track, from the finish line.
fn published_line(lane: u8) -> Trace {
    let radius_m = radius_m(lane);
    let curves = [
        bend((HALF_STRAIGHT_M, 0.0), radius_m, -FRAC_PI_2, PI),
        straight((HALF_STRAIGHT_M, radius_m), (-HALF_STRAIGHT_M, radius_m)),
        bend((-HALF_STRAIGHT_M, 0.0), radius_m, FRAC_PI_2, PI),
        straight((-HALF_STRAIGHT_M, -radius_m), (HALF_STRAIGHT_M, -radius_m)),
    ];
    Trace::new(curves.into_iter().flatten())
}

/// By how much the way from start to finish, whole laps added, differs from the distance.
fn wrong_by_m(track: &Track, line: &Trace, pair: &Pair) -> f64 {
    if pair.start.course != Course::Oval {
        return track.point(pair.start).distance(track.point(pair.finish)) - pair.distance_m;
    }
    let along_m = |spot: Spot| {
        let point = track.point(spot);
        let (along_m, off_m) = line.locate(point.x, point.y);
        assert!(off_m < 1e-6, "{spot:?} lies {off_m} m off the measure line");
        along_m
    };
    let part_m = along_m(pair.finish) - along_m(pair.start);
    let laps = ((pair.distance_m - part_m) / line.lap_m).round();
    assert!(part_m + laps * line.lap_m > 0.0, "{pair:?} runs backwards");
    part_m + laps * line.lap_m - pair.distance_m
}

#[test]
fn every_pair_is_the_distance_apart() {
    let track = standard();
    let mut pairs = 0;
    for lane in 1..=8 {
        let line = published_line(lane);
        for distance_m in DISTANCES_M {
            for pair in track.search(lane_number(lane), distance_m).expect("lane and distance are in range") {
                assert_eq!(pair.distance_m, distance_m);
                assert_eq!([pair.start.lane, pair.finish.lane], [lane, lane]);
                assert_eq!(pair.start.course, pair.finish.course);
                let wrong_by_m = wrong_by_m(&track, &line, &pair);
                assert!(wrong_by_m.abs() < 0.001, "{distance_m} m is {wrong_by_m} m wrong: {pair:?}");
                pairs += 1;
            }
        }
    }
    assert!(pairs >= 8 * DISTANCES_M.len(), "only {pairs} pairs for 8 lanes and 22 distances");
}

#[test]
fn a_pair_on_the_home_straight_is_run_along_it_to_the_finish_or_short_of_it() {
    let track = standard();
    for lane in 1..=8 {
        for distance_m in DISTANCES_M.into_iter().filter(|distance_m| *distance_m <= 100.0) {
            let pairs = track.search(lane_number(lane), distance_m).expect("lane and distance are in range");
            for pair in pairs.iter().filter(|pair| pair.start.course == Course::HomeStraight) {
                let (start, finish) = (track.point(pair.start), track.point(pair.finish));
                assert!((start.y + radius_m(lane)).abs() < 1e-9, "{start:?} is not in lane {lane}");
                assert!((finish.y + radius_m(lane)).abs() < 1e-9, "{finish:?} is not in lane {lane}");
                assert!(start.x < finish.x, "{pair:?} runs backwards");
                assert!(finish.x <= HALF_STRAIGHT_M + 1e-9, "{pair:?} runs past the finish line");
                // 110 m for the hurdles and 3 m behind: the chute that the track file gives.
                assert!(start.x >= HALF_STRAIGHT_M - 113.0 - 1e-9, "{pair:?} starts behind the chute");
            }
        }
    }
}

#[test]
fn a_spot_on_the_oval_has_one_form() {
    let track = standard();
    for lane in 1..=8 {
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        for distance_m in DISTANCES_M {
            for pair in track.search(lane_number(lane), distance_m).expect("lane and distance are in range") {
                for spot in [pair.start, pair.finish] {
                    assert!((0.0..lap_m).contains(&spot.to_finish_m), "{spot:?} is not within one lap");
                }
            }
        }
    }
}

#[test]
fn the_shortest_and_the_longest_repetition_are_taken() {
    let track = standard();
    let line = published_line(4);
    for distance_m in [10.0, 10_000.0] {
        for pair in track.search(lane_number(4), distance_m).expect("the distance is in range") {
            let wrong_by_m = wrong_by_m(&track, &line, &pair);
            assert!(wrong_by_m.abs() < 0.001, "{distance_m} m is {wrong_by_m} m wrong: {pair:?}");
        }
    }
}

#[test]
fn a_lap_of_exactly_the_distance_is_run_from_the_finish_line() {
    let surveyed = standard_with(|spec| {
        spec.surveyed_lap = Some(LengthSpec::from_metres(400.0));
    });
    for (track, lane) in [(&surveyed, 1), (&standard(), 3), (&surveyed, 5)] {
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        for metres in [lap_m, lap_m - 1e-10, lap_m + 1e-10, 2.0 * lap_m] {
            let pairs = track.search(lane_number(lane), metres).expect("it fits");
            let first = pairs.first().expect("a lap can be run");
            assert!(first.finish.to_finish_m == 0.0 && first.ends_on_paint() == 2, "{metres} m: {first:?}");
            let start_m = first.start.to_finish_m;
            assert!(start_m.min(lap_m - start_m) < 1e-6, "{metres} m: {first:?}");
        }
    }
}

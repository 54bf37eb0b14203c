//! The length of every lane, against numeric integration by a curves library.
//!
//! The library knows nothing of (r + o)·θ: it integrates along cubic curves that follow the measure
//! line to a billionth of a metre.

use std::f64::consts::FRAC_PI_2;

use crate::fixtures::built_in;
use crate::lane_number;
use crate::trace::{Trace, bend, straight};
use lane_distance::{Course, Piece, Point, Spot, Track};

/// The measure line of a lane, from the pieces of the inner edge.
pub(crate) fn measure_line(track: &Track, lane: u8) -> Trace {
    let layout = track.layout();
    let offset_m = layout.lanes()[usize::from(lane) - 1].measure_m;
    let path = layout.path();
    Trace::new(path.pieces().iter().zip(path.starts()).flat_map(|(piece, start)| {
        let (sin, cos) = start.heading_rad.sin_cos();
        // The runner's right hand points outwards: (sin, -cos) of the heading.
        let (x, y) = (start.point.x + offset_m * sin, start.point.y - offset_m * cos);
        match *piece {
            Piece::Straight { length_m } => straight((x, y), (x + length_m * cos, y + length_m * sin)),
            Piece::Arc { radius_m, turn_rad } => {
                let radius_m = radius_m + offset_m;
                let centre = (x - radius_m * sin, y + radius_m * cos);
                bend(centre, radius_m, start.heading_rad - FRAC_PI_2, turn_rad)
            }
        }
    }))
}

pub(crate) fn every_lane() -> impl Iterator<Item = (Track, u8)> {
    built_in().flat_map(|track| {
        let lanes = 1..=track.layout().lanes_of(Course::Oval);
        lanes.map(move |lane| (track.clone(), lane))
    })
}

#[test]
fn a_lap_of_every_lane_is_as_long_as_the_integral_says() {
    let mut lanes = 0;
    for (track, lane) in every_lane() {
        let integrated_m = measure_line(&track, lane).lap_m;
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        assert!(
            (lap_m - integrated_m).abs() < 1e-6,
            "{} lane {lane}: {lap_m} m, integrated {integrated_m} m",
            track.name()
        );
        lanes += 1;
    }
    assert_eq!(lanes, 8 + 6 + 3 * 8 + 4 + 6 + 6, "every lane of the eight built-in tracks");
}

#[test]
fn a_spot_lies_on_its_measure_line_as_far_along_as_it_says() {
    for (track, lane) in every_lane() {
        let line = measure_line(&track, lane);
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        for part in 1..60 {
            let spot = Spot::on_oval(lane_number(lane), lap_m * f64::from(part) / 60.0);
            let point = track.point(spot);
            let (along_m, off_m) = line.locate(point.x, point.y);
            assert!(off_m < 1e-6, "{} {spot:?} lies {off_m} m off its measure line", track.name());
            assert!(
                (along_m - (lap_m - spot.to_finish_m)).abs() < 1e-6,
                "{} {spot:?} lies {along_m} m from the finish line",
                track.name()
            );
        }
    }
}

#[test]
fn every_lap_ends_at_the_finish_line() {
    for (track, lane) in every_lane() {
        let begin = track.point(Spot::on_oval(lane_number(lane), 0.0));
        let end = track.point(Spot::on_oval(lane_number(lane), 1e-9));
        assert!(
            begin.distance(end) <= 0.001,
            "{} lane {lane} ends {} m from the finish line",
            track.name(),
            begin.distance(end)
        );
    }
}

#[test]
fn a_measure_line_lies_as_far_outside_the_inner_edge_as_it_says() {
    for (track, lane) in every_lane() {
        let layout = track.layout();
        let own = layout.lanes()[usize::from(lane) - 1].measure_m;
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        for part in 0..60 {
            let spot = Spot::on_oval(lane_number(lane), lap_m * f64::from(part) / 60.0);
            let outside_m = layout.path().outside_m(layout.point(spot));
            assert!((outside_m - own).abs() < 1e-6, "{} lane {lane}: {outside_m} m, not {own}", track.name());
        }
        // The middle of the infield lies half a field's width inside the nearest straight.
        let middle_m = layout.path().outside_m(Point::new(0.0, 0.0));
        let across_m = layout.path().bounds().1.y;
        assert!((middle_m + across_m).abs() < 1e-6, "{}: {middle_m} m, {across_m} m", track.name());
    }
}

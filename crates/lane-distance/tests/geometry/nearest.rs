//! The spot nearest to a point, against the projection of a curves library.

use kurbo::{Line, ParamCurveNearest};
use lane_distance::{Course, LaneNumber, Point, Spot, Track};
use proptest::prelude::*;

use crate::arc_length::measure_line;
use crate::fixtures::{built_in, for_any};
use crate::random_track::any_ground;

/// How far a point is off the measure line of a lane: round the oval, and along each straight with its chute.
fn off_m(track: &Track, lane: LaneNumber, point: Point) -> f64 {
    let layout = track.layout();
    let oval = layout
        .has_lane(Course::Oval, lane)
        .then(|| measure_line(track, lane.get()).locate(point.x, point.y).1);
    let straights =
        Course::ALL.into_iter().filter(|course| layout.has_lane(*course, lane)).filter_map(|course| {
            let ground = layout.straight(course)?;
            let end = |to_finish_m: f64| layout.point(Spot { course, lane, to_finish_m });
            let (begins, ends) = (end(ground.length_m()), end(0.0));
            let line = Line::new((begins.x, begins.y), (ends.x, ends.y));
            Some(line.nearest(kurbo::Point::new(point.x, point.y), 1e-9).distance_sq.sqrt())
        });
    oval.into_iter().chain(straights).fold(f64::INFINITY, f64::min)
}

#[test]
fn no_place_of_a_lane_is_nearer_than_the_nearest() {
    let tracks: Vec<Track> = built_in().collect();
    let places = (0..tracks.len(), 1u8..=8, -130.0..130.0, -75.0..75.0);
    for_any(2_000, places, |(track, lane, x, y)| {
        let (track, point) = (&tracks[track], Point::new(x, y));
        let lane = LaneNumber::new(lane).expect("it is between 1 and 10");
        let Some(spot) = track.layout().nearest(lane, point) else {
            prop_assert!(track.lane_number(lane.get()).is_err());
            return Ok(());
        };
        let (is_m, least_m) = (track.point(spot).distance(point), off_m(track, lane, point));
        prop_assert!((is_m - least_m).abs() < 1e-6, "{spot:?} is {is_m} m off, another place {least_m} m");
        Ok(())
    });
}

#[test]
fn a_point_on_a_measure_line_is_the_spot_that_it_was_made_from() {
    for_any(1_000, (any_ground(), 0usize..3, 1u8..=10, 0.0..1.0), |(ground, course, lane, part)| {
        let track = ground.track();
        let (layout, course) = (track.layout(), Course::ALL[course]);
        let lane = LaneNumber::new(lane).expect("it is between 1 and 10");
        let length_m = match layout.straight(course) {
            Some(ground) => ground.length_m(),
            None if course == Course::Oval => layout.measure(lane).lap_m(),
            None => return Ok(()),
        };
        if !layout.has_lane(course, lane) {
            return Ok(());
        }
        let spot = Spot { course, lane, to_finish_m: part * length_m };
        let found = layout.spot_at(layout.point(spot));
        let apart_m = layout.point(found).distance(layout.point(spot));
        if found.lane == lane {
            prop_assert!(apart_m < 1e-6, "{:?} is found as {:?}, {} m away", spot, found, apart_m);
        } else {
            // Where a chute leaves the bend it lies over other lanes.
            let is_in_chute = |spot: Spot| layout.on_course(spot, Course::Oval).is_none();
            prop_assert!(is_in_chute(spot) || is_in_chute(found), "{:?} is found as {:?}", spot, found);
            prop_assert!(apart_m <= layout.lane(found.lane).width_m, "{} m", apart_m);
        }
        Ok(())
    });
}

#[test]
fn a_chute_is_found_by_its_straight_and_the_rest_by_the_oval() {
    let track = Track::built_in("standard").expect("it comes with the crate");
    let at = |x: f64| track.layout().spot_at(Point::new(x, -37.5));
    assert_eq!(at(-60.0).course, Course::HomeStraight);
    assert!((at(-60.0).to_finish_m - (60.0 + 84.39 / 2.0)).abs() < 1e-9);
    assert_eq!(at(-40.0).course, Course::Oval);
}

#[test]
fn the_name_of_any_spot_is_read_as_that_spot() {
    let tracks: Vec<Track> = built_in().collect();
    for_any(2_000, (0..tracks.len(), -130.0..130.0, -75.0..75.0), |(track, x, y)| {
        let track = &tracks[track];
        let spot = track.layout().spot_at(Point::new(x, y));
        if let Some(name) = track.landmark_name(spot) {
            let read = track.landmark(&name, spot.lane).expect("it is a name");
            let apart_m = track.point(read).distance(track.point(spot));
            prop_assert!(apart_m < 0.011, "{name} is {apart_m} m from {spot:?}");
        } else {
            prop_assert!(spot.course != Course::Oval, "{spot:?} has no name on {}", track.name());
        }
        Ok(())
    });
}

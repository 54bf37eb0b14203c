//! Ways round tracks of any shape: there and back make a lap, and the walk meets the paint in order.

use crate::fixtures::for_any;
use crate::lane_number;
use crate::random_track::{Ground, any_ground};
use lane_distance::{Course, Route, Spot, Track};
use proptest::prelude::*;

#[test]
fn there_and_back_make_a_lap() {
    for_any(300, (any_ground(), 1u8..=4, 0.0..1.0, 0.0..1.0), |(ground, lane, a, b)| {
        let track = ground.track();
        let lap_m = track.lap_m(lane_number(lane)).expect("a track has four lanes at least");
        let computed_m = ground.lap_m(lane) * ground.scale();
        prop_assert!((lap_m - computed_m).abs() < 1e-9, "a lap of {lap_m} m, computed {computed_m} m");
        let integrated_m = ground.measure_line(lane).lap_m * ground.scale();
        prop_assert!((lap_m - integrated_m).abs() < 1e-6, "{lap_m} m, integrated {integrated_m} m");
        let spot = |part: f64| Spot::on_oval(lane_number(lane), part * lap_m);
        let (a, b) = (spot(a), spot(b));
        prop_assume!((a.to_finish_m - b.to_finish_m).abs() > 1e-6);
        let way_m = |from, to| track.distance_m(from, to).expect("both are on the oval");
        let sum_m = way_m(a, b) + way_m(b, a);
        prop_assert!((sum_m - lap_m).abs() < 1e-9, "{a:?} {b:?}: {sum_m} m, a lap is {lap_m} m");
        let route = |from, to, against, laps| Route { from, to, against, laps };
        let length_m = |route| track.route_m(&route).expect("both are on the oval");
        prop_assert!((length_m(route(a, b, true, 0)) - way_m(b, a)).abs() < 1e-9, "clockwise");
        prop_assert!((length_m(route(a, b, false, 3)) - way_m(a, b) - 3.0 * lap_m).abs() < 1e-9, "3 laps");
        Ok(())
    });
}

#[test]
fn a_spot_lies_on_its_measure_line_and_square_to_lane_1() {
    for_any(300, (any_ground(), 2u8..=4, 0.0..1.0_f64), |(ground, lane, part)| {
        let track = ground.track();
        let lap_m = track.lap_m(lane_number(lane)).expect("a track has four lanes at least");
        let spot = Spot::on_oval(lane_number(lane), (1.0 - part) * lap_m);
        let point = track.point(spot);
        let (along_m, off_m) = ground.measure_line(lane).locate(point.x, point.y);
        prop_assert!(off_m < 1e-6, "{spot:?} lies {off_m} m off");
        let computed_m: f64 = part * ground.lap_m(lane);
        prop_assert!((along_m - computed_m).abs() < 1e-6, "{spot:?}: {along_m} m, computed {computed_m} m");
        let abreast = track.layout().abreast(spot, lane_number(1));
        let inside_m = (ground.lap_m(1) - ground.along_lane_1_m(lane, computed_m)) * ground.scale();
        prop_assert!((abreast.to_finish_m - inside_m).abs() < 1e-6, "{abreast:?}, computed {inside_m} m");
        Ok(())
    });
}

#[test]
fn a_survey_scales_every_way_alike() {
    let cases = (any_ground(), 2u8..=4, 1u8..=3, 0.0..1.0, 0.0..1.0);
    for_any(300, cases, |(ground, lane, inside, a, b)| {
        prop_assume!(inside < lane);
        let plain = Ground { surveyed_off_m: None, hazards: Vec::new(), ..ground.clone() };
        let (surveyed, plain, scale) = (ground.track(), plain.track(), ground.scale());
        let lap_m = |lane| plain.lap_m(lane).expect("a track has four lanes at least");
        let spots = [(lane, a), (inside, b)]
            .map(|(lane, part)| Spot::on_oval(lane_number(lane), part * lap_m(lane_number(lane))));
        let scaled = spots.map(|spot| Spot { to_finish_m: spot.to_finish_m * scale, ..spot });
        for way in [[0, 1], [1, 0]] {
            let [from, to] = way.map(|end| spots[end]);
            let plain_m = plain.layout().crossing_m(from, to).expect("both are on the oval");
            let [from, to] = way.map(|end| scaled[end]);
            let surveyed_m = surveyed.layout().crossing_m(from, to).expect("both are on the oval");
            prop_assert!((surveyed_m - plain_m * scale).abs() < 1e-6, "{surveyed_m} m, {plain_m} m");
        }
        let start_m = |track: &Track, scale: f64| {
            let to_finish_m = b * lap_m(lane_number(inside)) * scale;
            let spot = track
                .layout()
                .curved_start(lane_number(inside), to_finish_m, lane_number(lane))
                .expect("it lies outside");
            spot.to_finish_m / (lap_m(lane_number(lane)) * scale)
        };
        let differs = (start_m(&surveyed, scale) - start_m(&plain, 1.0)).abs();
        prop_assert!(differs.min(1.0 - differs) < 1e-9, "a curve differs by {differs} laps");
        Ok(())
    });
}

#[test]
fn the_walk_meets_the_paint_of_each_course_in_order() {
    for_any(300, any_ground(), |ground| {
        let track = ground.track();
        let layout = track.layout();
        for lane in 1..=ground.widths_m.len() as u8 {
            let walk = track.walk(lane_number(lane));
            // Round the oval first, then the chutes.
            prop_assert!(walk.is_sorted_by_key(|(spot, _)| spot.course), "lane {lane}: {walk:?}");
            for course in Course::ALL {
                let spots = walk.iter().map(|(spot, _)| *spot).filter(|spot| spot.course == course);
                let from_m: Vec<f64> = spots.map(|spot| layout.from_finish_m(spot)).collect();
                prop_assert!(from_m.is_sorted(), "lane {lane} of the {course}: {from_m:?}");
            }
            // Nothing that is painted in the lane is left out, and nothing is met twice.
            for (index, mark) in track.marks().iter().enumerate() {
                let met = walk.iter().filter(|(_, id)| id.index() == index).count();
                let is_painted = Course::ALL.into_iter().any(|course| {
                    track
                        .painted(course, lane_number(lane))
                        .iter()
                        .any(|painted| painted.mark.index() == index)
                });
                prop_assert_eq!(met, usize::from(is_painted), "lane {}: {}", lane, mark.name);
            }
        }
        Ok(())
    });
}

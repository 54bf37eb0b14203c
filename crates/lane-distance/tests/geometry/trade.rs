//! Facts that everybody in the trade knows: common practice, no source.

use lane_distance::spec::{LengthSpec, OneOrMany};
use lane_distance::{Course, Pair, Place, Spot, Track};

use crate::fixtures::{
    ahead_m, mark_of, painted_m, standard, standard_with, standard_with_former_zones, standard_with_sets,
};
use crate::lane_number;

/// The pair that finishes on the finish line of the oval.
fn to_finish_line(track: &Track, lane: u8, distance_m: f64) -> Pair {
    let pairs = track
        .search_at(Place::On(Course::Oval), lane_number(lane), distance_m)
        .expect("lane and distance are in range");
    let found = pairs.iter().find(|pair| pair.finish.to_finish_m == 0.0);
    *found.unwrap_or_else(|| panic!("no {distance_m} m to the finish line in lane {lane}: {pairs:?}"))
}

/// Common practice, no source.
#[test]
fn with_lanes_of_1_25_m_the_400_m_start_of_lane_2_is_7_to_8_m_ahead() {
    let track = standard_with(|spec| spec.lane_width = OneOrMany::One(LengthSpec::from_metres(1.25)));
    let ahead_m = ahead_m(&track, "400 m start", 2, 1);
    assert!((7.0..8.0).contains(&ahead_m), "{ahead_m} m");
}

/// Common practice, no source.
#[test]
fn each_200_m_start_is_3_to_4_m_ahead_of_the_next_lane_inside() {
    let track = standard();
    for lane in 2..=8 {
        let ahead_m = ahead_m(&track, "200 m start", lane, lane - 1);
        assert!((3.0..4.0).contains(&ahead_m), "lane {lane}: {ahead_m} m");
    }
}

/// Common practice, no source.
#[test]
fn a_150_to_the_finish_starts_about_2_m_further_on_in_lane_2() {
    let track = standard();
    let (inside, outside) = (to_finish_line(&track, 1, 150.0).start, to_finish_line(&track, 2, 150.0).start);
    let layout = track.layout();
    let further_m = layout.past_m(layout.abreast(inside, lane_number(2)), outside);
    assert!((further_m - 2.0).abs() < 0.1, "{further_m} m");
}

/// Common practice, no source; the 20 m zone began 110 m before the finish, the 30 m zone ends at 90 m.
#[test]
fn the_100_m_start_is_midway_between_the_relay_marks_at_110_m_and_90_m() {
    let track = standard_with_former_zones();
    for lane in 1..=8 {
        let start_m = painted_m(&track, Course::HomeStraight, lane, "100 m start");
        let former_m = painted_m(&track, Course::Oval, lane, "third former 4x100 m takeover zone entry");
        let exit_m = painted_m(&track, Course::Oval, lane, "third 4x100 m takeover zone exit");
        assert!((former_m - start_m - 10.0).abs() < 1e-9, "lane {lane}: entry at {former_m} m");
        assert!((start_m - exit_m - 10.0).abs() < 1e-9, "lane {lane}: exit at {exit_m} m");
        // Who has no line at 100 m on the bend is sent there by one of the two.
        let reading = track.read(to_finish_line(&track, lane, 100.0).start);
        assert!((reading.past_m.abs() - 10.0).abs() < 1e-9, "lane {lane}: {reading:?}");
    }
}

/// Common practice, no source.
#[test]
fn a_100_from_the_110_m_hurdles_start_to_the_finish_line_is_10_m_too_far() {
    let track = standard();
    for lane in 1..=8 {
        let hurdles_m = painted_m(&track, Course::HomeStraight, lane, "110 m hurdles start");
        let at = |to_finish_m| {
            track.point(Spot { course: Course::HomeStraight, lane: lane_number(lane), to_finish_m })
        };
        let run_m = at(hurdles_m).distance(at(0.0));
        assert!((run_m - 100.0 - 10.0).abs() < 1e-9, "lane {lane}: {run_m} m to the finish line");
        for pair in track.search(lane_number(lane), 100.0).expect("lane and distance are in range") {
            assert_ne!(
                &*mark_of(&track, pair.start_reading).name,
                "110 m hurdles start",
                "lane {lane}: {pair:?}"
            );
        }
        let of_110 = track.search(lane_number(lane), 110.0).expect("lane and distance are in range")[0];
        assert_eq!(
            &*mark_of(&track, of_110.start_reading).name,
            "110 m hurdles start",
            "lane {lane}: {of_110:?}"
        );
        assert_eq!(&*mark_of(&track, of_110.finish_reading).name, "finish line", "lane {lane}: {of_110:?}");
    }
}

/// Common practice, no source; four laps of 400 m and 9.344 m are the international mile of 1609.344 m.
#[test]
fn the_mile_starts_9_34_m_behind_the_finish_line_in_lane_1() {
    let track = standard();
    let mile = Spot::on_oval(lane_number(1), painted_m(&track, Course::Oval, 1, "mile start"));
    let finish = Spot::on_oval(lane_number(1), 0.0);
    let behind_m = track.layout().past_m(mile, finish);
    assert!((behind_m - 9.34).abs() < 0.005, "{behind_m} m");
    // It lies on the home straight, so that a tape measures the same.
    let tape_m = track.point(mile).distance(track.point(finish));
    assert!((tape_m - 9.34).abs() < 0.005, "{tape_m} m");
    let first = track.search(lane_number(1), 1609.344).expect("lane and distance are in range")[0];
    assert_eq!(&*mark_of(&track, first.start_reading).name, "mile start", "{first:?}");
    assert_eq!(&*mark_of(&track, first.finish_reading).name, "finish line", "{first:?}");
}

/// Common practice, no source.
#[test]
fn no_line_is_painted_at_90_m_on_the_home_straight() {
    let track = standard();
    for lane in 1..=8 {
        let near: Vec<_> = track
            .painted(Course::HomeStraight, lane_number(lane))
            .iter()
            .filter(|painted| (painted.to_finish_m - 90.0).abs() < 1.0)
            .map(|painted| &track.marks()[painted.mark.index()].name)
            .collect();
        assert!(near.is_empty(), "lane {lane}: {near:?}");
        let pairs = track
            .search_at(Place::On(Course::HomeStraight), lane_number(lane), 90.0)
            .expect("the lane is open");
        for pair in pairs.iter().filter(|pair| pair.finish.to_finish_m == 0.0) {
            assert!(!pair.start_reading.is_on_paint(), "lane {lane}: {pair:?}");
        }
    }
}

/// Common practice, no source.
#[test]
fn clubs_paint_lines_at_80_75_70_60_and_50_m() {
    let lines = [80, 75, 70, 60, 50];
    let (with, without) = (standard(), standard_with_sets(&["standard"]));
    for lane in 1..=8 {
        for line in lines {
            let name = format!("{line} m start");
            assert_eq!(painted_m(&with, Course::HomeStraight, lane, &name), f64::from(line));
            assert!(without.marks().iter().all(|mark| *mark.name != *name), "{name} is in the standard set");
        }
    }
}

/// Common practice, no source: a lane's two starts lie half a race apart, whatever its stagger.
#[test]
fn a_200_from_the_400_m_start_ends_at_the_200_m_start_of_the_same_lane() {
    let track = standard();
    for lane in 1..=8 {
        let between_m = painted_m(&track, Course::Oval, lane, "400 m start")
            - painted_m(&track, Course::Oval, lane, "200 m start");
        assert!((between_m - 200.0).abs() < 1e-9, "lane {lane}: {between_m} m");
        let pairs = track.search(lane_number(lane), 200.0).expect("lane and distance are in range");
        let name = |reading| &*mark_of(&track, reading).name;
        let mut ends = pairs.iter().map(|pair| (name(pair.start_reading), name(pair.finish_reading)));
        assert!(ends.any(|ends| ends == ("400 m start", "200 m start")), "lane {lane}: {pairs:?}");
    }
}

//! Staggers of the 400 m standard track, against World Athletics, Track and Field Facilities Manual,
//! stagger constants (from memory, as `tests/reference/staggers.csv` says).
//!
//! The manual rounds the 800 m and the 4x400 m from a construction of its own; the exact tangent
//! differs from it by up to 5 mm. The other two columns hold to 1 mm.

use crate::lane_number;
use crate::published::{Row, rows, source};
use lane_distance::{Course, Layout, Spot, Track};

const STAGGERS: &str = include_str!("../../../../tests/reference/staggers.csv");

fn standard() -> Track {
    Track::built_in("standard").expect("it comes with the crate")
}

/// Asserts that a column of the table holds, with the stagger that `stagger_m` finds for a lane.
fn assert_column(column: &str, to_m: f64, stagger_m: impl Fn(u8) -> f64) {
    let rows = rows(STAGGERS);
    let lanes: Vec<u8> = rows.iter().map(lane).collect();
    assert_eq!(lanes, [2, 3, 4, 5, 6, 7, 8]);
    for row in &rows {
        let (published_m, stagger_m) = (number(row, column), stagger_m(lane(row)));
        assert!(
            (stagger_m - published_m).abs() <= to_m,
            "{column}, lane {}: {stagger_m:.4} m, published {published_m} m ({})",
            lane(row),
            source(row)
        );
    }
}

fn lane(row: &Row) -> u8 {
    row["lane"].parse().expect("a lane is a number")
}

fn number(row: &Row, column: &str) -> f64 {
    row[column].parse().expect("a stagger is a number")
}

/// How far a mark lies past the place that is square across from it in lane 1.
fn painted_stagger_m(track: &Track, mark: &str, lane: u8) -> f64 {
    let spot = |lane: u8| {
        let painted = track.painted(Course::Oval, lane_number(lane)).iter();
        let found = painted.clone().find(|painted| track.marks()[painted.mark.index()].name == mark);
        let painted = found.unwrap_or_else(|| panic!("no {mark} in lane {lane}"));
        Spot::on_oval(lane_number(lane), painted.to_finish_m)
    };
    let layout: &Layout = track.layout();
    layout.past_m(layout.abreast(spot(1), lane_number(lane)), spot(lane))
}

#[test]
fn the_200_m_in_lanes_to_1_mm() {
    let track = standard();
    assert_column("stagger_200_m", 0.001, |lane| track.layout().stagger_in_lanes_m(lane_number(lane), 200.0));
    assert_column("stagger_200_m", 0.001, |lane| painted_stagger_m(&track, "200 m start", lane));
}

#[test]
fn the_400_m_in_lanes_to_1_mm() {
    let track = standard();
    assert_column("stagger_400_m", 0.001, |lane| track.layout().stagger_in_lanes_m(lane_number(lane), 400.0));
    assert_column("stagger_400_m", 0.001, |lane| painted_stagger_m(&track, "400 m start", lane));
}

#[test]
fn the_800_m_with_one_bend_in_lanes_to_5_mm() {
    let track = standard();
    assert_column("stagger_800_m", 0.005, |lane| {
        let stagger_m = track.layout().stagger_after_break_m(lane_number(lane), 800.0, 1);
        stagger_m.expect("every lane breaks for lane 1")
    });
    assert_column("stagger_800_m", 0.005, |lane| painted_stagger_m(&track, "800 m start in lanes", lane));
}

#[test]
fn the_4x400_m_with_three_bends_in_lanes_to_5_mm() {
    let track = standard();
    assert_column("stagger_4x400_m", 0.005, |lane| {
        let stagger_m = track.layout().stagger_after_break_m(lane_number(lane), 1600.0, 3);
        stagger_m.expect("every lane breaks for lane 1")
    });
    assert_column("stagger_4x400_m", 0.005, |lane| painted_stagger_m(&track, "4x400 m start", lane));
}

#[test]
fn each_of_two_laps_adds_the_stagger_of_one() {
    let layout = standard().layout().clone();
    assert_column("stagger_400_m", 0.001, |lane| layout.stagger_in_lanes_m(lane_number(lane), 800.0) / 2.0);
}

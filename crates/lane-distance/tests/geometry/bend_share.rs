//! Metres on the bend: worked out by hand from radius and straights.

use std::f64::consts::PI;

use lane_distance::{BendShare, Course, Spot, Track};

use crate::lane_number;

fn track(name: &str) -> Track {
    Track::built_in(name).expect("it comes with the crate")
}

fn assert_share(share: BendShare, metres: f64, bends: u32) {
    assert!((share.metres - metres).abs() < 1e-9, "{share:?}, not {metres} m");
    assert_eq!(share.bends, bends, "{share:?}");
}

#[test]
fn a_lap_lies_on_both_bends_and_an_outer_lane_bends_longer() {
    let track = track("standard");
    let lap = |lane| {
        let lap_m = track.lap_m(lane).expect("the lane exists");
        track.bend_share(Spot::on_oval(lane, 0.0), lap_m, false)
    };
    assert_share(lap(lane_number(1)), 2.0 * PI * 36.80, 2);
    assert_share(lap(lane_number(2)), 2.0 * PI * (36.50 + 1.22 + 0.20), 2);
}

#[test]
fn a_run_that_starts_within_a_bend_comes_by_that_bend_again() {
    let track = track("standard");
    let lap_m = track.lap_m(lane_number(1)).expect("the lane exists");
    // Half-way round the first bend, and one lap from there.
    let start = Spot::on_oval(lane_number(1), lap_m - PI * 36.80 / 2.0);
    assert_share(track.bend_share(start, lap_m, false), 2.0 * PI * 36.80, 3);
}

#[test]
fn many_laps_add_up() {
    let track = track("standard");
    let lap_m = track.lap_m(lane_number(3)).expect("the lane exists");
    let radius_m = 36.50 + 2.0 * 1.22 + 0.20;
    assert_share(
        track.bend_share(Spot::on_oval(lane_number(3), 0.0), 25.0 * lap_m, false),
        50.0 * PI * radius_m,
        50,
    );
}

#[test]
fn a_run_on_a_straight_has_no_bend_either_way() {
    let track = track("standard");
    let start = Spot { course: Course::HomeStraight, lane: lane_number(4), to_finish_m: 60.0 };
    assert_share(track.bend_share(start, 60.0, false), 0.0, 0);
    assert_share(track.bend_share(Spot { to_finish_m: 0.0, ..start }, 60.0, true), 0.0, 0);
}

#[test]
fn a_run_out_of_a_chute_goes_on_round_the_bend() {
    let track = track("standard-6");
    let start = Spot { course: Course::HomeStraight, lane: lane_number(1), to_finish_m: 110.0 };
    assert_share(track.bend_share(start, 150.0, false), 40.0, 1);
}

#[test]
fn a_bend_of_three_arcs_is_one_bend() {
    let track = track("double-bend-1");
    let lap_m = track.lap_m(lane_number(1)).expect("the lane exists");
    let share = track.bend_share(Spot::on_oval(lane_number(1), 0.0), lap_m, false);
    let straights_m: f64 = [Course::HomeStraight, Course::BackStraight]
        .iter()
        .filter_map(|course| track.layout().straight(*course))
        .map(|straight| straight.straight_m)
        .sum();
    assert_share(share, lap_m - straights_m, 2);
}

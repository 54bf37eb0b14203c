//! Paint that serves two events: the same place in every lane.
//!
//! 300 m hurdles: World Athletics, Technical Rules, hurdle races (read): 50 m to the first, 35 m between.
//! Relay: Technical Rules, relays, and the 400 m standard track marking plan (both from memory).

use lane_distance::{Course, Track};

use crate::fixtures::{painted_m, standard_with_sets};
use crate::lane_number;

fn track() -> Track {
    standard_with_sets(&["standard", "300 m hurdles"])
}

fn to_finish_m(track: &Track, lane: u8, name: &str) -> f64 {
    painted_m(track, Course::Oval, lane, name)
}

#[test]
fn the_seven_hurdles_of_300_m_stand_on_hurdles_4_to_10_of_400_m() {
    let track = track();
    for lane in 1..=8 {
        for n in 1..=7 {
            let short_m = to_finish_m(&track, lane, &format!("300 m hurdle tick {n}"));
            let long_m = to_finish_m(&track, lane, &format!("400 m hurdle tick {}", n + 3));
            assert!((short_m - long_m).abs() < 1e-9, "lane {lane} hurdle {n}: {short_m} m, {long_m} m");
            // The rule book's spacing, counted from the start of the shorter race.
            let ruled_m = 300.0 - 50.0 - 35.0 * f64::from(n - 1);
            assert!((short_m - ruled_m).abs() < 1e-9, "lane {lane} hurdle {n}: {short_m} m");
        }
    }
}

/// The scratch line of the first takeover lies midway in its zone of 20 m.
#[test]
fn the_first_4x400_m_takeover_is_at_the_800_m_start() {
    let track = track();
    for lane in 1..=8 {
        let entry_m = to_finish_m(&track, lane, "first 4x400 m takeover zone entry");
        let exit_m = to_finish_m(&track, lane, "first 4x400 m takeover zone exit");
        let start_m = to_finish_m(&track, lane, "800 m start in lanes");
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        // In the inner lanes the zone lies across the finish line: distances go round there.
        let way_m = |from_m: f64, to_m: f64| (from_m - to_m).rem_euclid(lap_m);
        assert!((way_m(entry_m, exit_m) - 20.0).abs() < 1e-9, "lane {lane}: {entry_m} m to {exit_m} m");
        assert!((way_m(entry_m, start_m) - 10.0).abs() < 1e-9, "lane {lane}: {entry_m} m, {start_m} m");
    }
}

/// The incoming runner of the first takeover has run 400 m, so the 4x400 m start lies 400 m behind the
/// scratch line: the two rules that place them must agree, but for the 1 mm that a lap of lane 1 is
/// longer than 400 m.
#[test]
fn the_first_leg_of_the_4x400_m_is_400_m_in_every_lane() {
    let track = track();
    for lane in 1..=8 {
        let lap_m = track.lap_m(lane_number(lane)).expect("the lane exists");
        let begins_m = to_finish_m(&track, lane, "4x400 m start");
        let ends_m = to_finish_m(&track, lane, "800 m start in lanes");
        // A whole lap and a little less, or the other way about in lane 1.
        let leg_m = (begins_m - ends_m).rem_euclid(lap_m);
        let differs_m = (leg_m - 400.0).rem_euclid(lap_m).min((400.0 - leg_m).rem_euclid(lap_m));
        assert!(differs_m < 0.0015, "lane {lane}: the first leg is {leg_m} m");
    }
}

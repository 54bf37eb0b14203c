//! What the search offers first on the standard track.
//!
//! The paint is that of World Athletics, Track and Field Facilities Manual, 400 m standard track marking plan, and of the
//! Technical Rules (hurdle races, relays); takeover zones and the 1500 m start from memory.

use lane_distance::{PaintReading, Pair, Track};

use crate::fixtures::{mark_of, standard};
use crate::lane_number;

/// The name of the mark that an end is measured from, and how far past it the end lies.
fn from_mark(track: &Track, reading: PaintReading) -> (&str, f64) {
    (&mark_of(track, reading).name, reading.past_m)
}

fn first_choice(track: &Track, lane: u8, distance_m: f64) -> Pair {
    track.search(lane_number(lane), distance_m).expect("lane and distance are in range")[0]
}

/// Asserts that the first choice stands on these two marks, to a millionth of a millimetre.
fn assert_first_choice(track: &Track, lane: u8, distance_m: f64, from: &str, to: &str) {
    let pair = first_choice(track, lane, distance_m);
    for (reading, name) in [(pair.start_reading, from), (pair.finish_reading, to)] {
        let (mark, past_m) = from_mark(track, reading);
        assert_eq!(mark, name, "{distance_m} m in lane {lane}: {pair:?}");
        assert!(past_m.abs() < 1e-9, "{distance_m} m in lane {lane}: {past_m} m past the {name}");
    }
}

#[test]
fn a_200_starts_on_the_lane_s_own_200_m_start() {
    let track = standard();
    for lane in 2..=8 {
        assert_first_choice(&track, lane, 200.0, "200 m start", "finish line");
    }
}

#[test]
fn a_250_in_lane_5_starts_on_the_fourth_tick_of_the_400_m_hurdles() {
    assert_first_choice(&standard(), 5, 250.0, "400 m hurdle tick 4", "finish line");
}

#[test]
fn a_150_runs_from_the_400_m_start_to_the_fourth_hurdle_tick() {
    let track = standard();
    for lane in 1..=8 {
        assert_first_choice(&track, lane, 150.0, "400 m start", "400 m hurdle tick 4");
    }
}

#[test]
fn a_300_starts_10_m_behind_the_first_takeover_zone_exit() {
    let track = standard();
    for lane in 2..=8 {
        let pair = first_choice(&track, lane, 300.0);
        let (name, past_m) = from_mark(&track, pair.start_reading);
        assert_eq!(name, "first 4x100 m takeover zone exit", "lane {lane}");
        assert!((past_m + 10.0).abs() < 1e-9, "lane {lane}: {past_m} m past the exit");
        assert_eq!(from_mark(&track, pair.finish_reading), ("finish line", 0.0), "lane {lane}");
    }
}

#[test]
fn a_300_in_lane_1_starts_on_the_1500_m_start() {
    assert_first_choice(&standard(), 1, 300.0, "1500 m start", "finish line");
}

#[test]
fn a_200_from_the_400_m_start_ends_at_the_200_m_start() {
    let track = standard();
    for lane in 1..=8 {
        let pairs = track.search(lane_number(lane), 200.0).expect("lane and distance are in range");
        let from_400 = pairs.iter().find(|pair| from_mark(&track, pair.start_reading).0 == "400 m start");
        let pair =
            from_400.unwrap_or_else(|| panic!("no 200 m from the 400 m start in lane {lane}: {pairs:?}"));
        let (name, past_m) = from_mark(&track, pair.finish_reading);
        assert_eq!(name, "200 m start", "lane {lane}");
        assert!(past_m.abs() < 1e-9, "lane {lane}: {past_m} m past the 200 m start");
    }
}

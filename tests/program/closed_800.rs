//! The 800 m with inner lanes closed: the painted starts are wrong by metres, and `toeline lanes` says
//! where to stand instead, to 0.1 mm of a string pulled taut round a sampled line.
//!
//! Dimensions: World Athletics, Track and Field Facilities Manual, chapter 2, 400 m standard track (read).

#[path = "../../crates/lane-distance/tests/geometry/sampled.rs"]
mod sampled;

use crate::answer::{json, list, number};
use sampled::{Piece, Sampled};
use serde_json::Value;

fn lanes(closed: &[&str]) -> Vec<Value> {
    list(&json(&[&["lanes"], closed].concat())["lanes"]).to_vec()
}

/// The measure lines of the standard track, lane 1 first, and the place where the first bend ends.
fn standard() -> (Vec<Sampled>, usize) {
    let half = [Piece::Bend(36.50, 180.0), Piece::Straight(84.39)];
    let outside_m = |lane: u8| if lane == 1 { 0.30 } else { f64::from(lane - 1) * 1.22 + 0.20 };
    let lines = (1..=8).map(|lane| Sampled::new(&[half, half].concat(), outside_m(lane)));
    (lines.collect(), Sampled::new(&half[..1], 0.0).steps())
}

/// How far from the finish a lane starts the 800 m: in its lane to the break line, then the shortest
/// way to the inside lane, then a lap of that.
fn start_m(lines: &[Sampled], breaks: usize, lane: usize, inside: usize) -> f64 {
    let (line, inner) = (&lines[lane - 1], &lines[inside - 1]);
    let (across_m, joins_m) = match lane == inside {
        true => (0.0, line.along_m[breaks]),
        false => inner.string_ahead(line.places[breaks], breaks),
    };
    let after_break_m = across_m + 2.0 * inner.lap_m() - joins_m;
    line.lap_m() - line.along_m[breaks] + 800.0 - after_break_m
}

#[test]
fn each_lane_starts_where_the_string_says() {
    let (lines, breaks) = standard();
    for (closed, inside) in [("1", 2), ("1,2", 3)] {
        let rows = lanes(&["--closed", closed]);
        assert_eq!(rows.len(), 8);
        for (lane, row) in (1..).zip(&rows) {
            let start = &row["start_800"];
            if lane < inside {
                assert!(start.is_null(), "lane {lane} is closed: {start}");
                continue;
            }
            let to_finish_m = number(&start["spot"]["to_finish_line_m"]);
            let string_m = start_m(&lines, breaks, lane, inside);
            assert!(
                (to_finish_m - string_m).abs() < 0.0001,
                "{closed} closed, lane {lane}: {to_finish_m} m to the finish, the string {string_m} m"
            );
            let past_m = number(&start["past_painted_m"]);
            let string_m = start_m(&lines, breaks, lane, 1) - string_m;
            assert!((past_m - string_m).abs() < 0.0001, "lane {lane}: {past_m} m, the string {string_m} m");
        }
    }
}

#[test]
fn the_painted_starts_are_wrong_by_10_m_for_each_lane_that_is_closed() {
    for (closed, least_m, most_m) in [("1", 10.0, 11.0), ("1,2", 21.0, 23.0)] {
        for row in lanes(&["--closed", closed]).iter().filter(|row| !row["start_800"].is_null()) {
            let past_m = number(&row["start_800"]["past_painted_m"]);
            assert!((least_m..most_m).contains(&past_m), "{closed} closed: {past_m} m");
        }
    }
}

#[test]
fn with_no_lane_closed_the_painted_starts_are_right() {
    assert!(lanes(&[]).iter().all(|row| row["start_800"].is_null()));
    // An outer lane that is closed changes nothing for those that are open.
    assert!(lanes(&["--closed", "8"]).iter().all(|row| row["start_800"].is_null()));
}

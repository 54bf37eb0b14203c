//! `toeline measure --format json`: the same answers unrounded, against arithmetic on the published
//! dimensions: World Athletics, Track and Field Facilities Manual, chapter 2, 400 m standard track (read).

use std::f64::consts::PI;

use crate::answer::{json, number};
use serde_json::Value;

fn measured(arguments: &[&str]) -> Value {
    json(&[&["measure"], arguments].concat())
}

fn assert_near(value: &Value, expected: f64) {
    assert!((number(value) - expected).abs() < 1e-6, "{value}, expected {expected}");
}

/// A lap of lane 2: two straights of 84.39 m, two bends of 36.50 + 1.22 + 0.20 m.
const LAP_2_M: f64 = 2.0 * 84.39 + 2.0 * PI * (36.50 + 1.22 + 0.20);

#[test]
fn whole_laps_are_those_of_the_lane() {
    let way = ["--lane", "2", "--from", "400 m start", "--to", "200 m start", "--laps", "2"];
    let measurement = measured(&way);
    assert_near(&measurement["distance_m"], 200.0 + 2.0 * LAP_2_M);
    assert_eq!((&measurement["lane"], &measurement["the_other_way"]), (&2.into(), &false.into()));
}

#[test]
fn the_other_way_is_the_rest_of_the_lap() {
    let way = ["--lane", "2", "--from", "400 m start", "--to", "200 m start", "--the-other-way"];
    let measurement = measured(&way);
    assert_near(&measurement["distance_m"], LAP_2_M - 200.0);
    assert_eq!(measurement["the_other_way"], true);
}

#[test]
fn from_the_chute_it_is_as_far_as_to_the_line_and_on_round() {
    let way = ["--lane", "2", "--from", "110 m hurdles start", "--to", "200 m start"];
    assert_near(&measured(&way)["distance_m"], 110.0 + LAP_2_M - 200.0);
}

/// Where the inner lane is reached before its bend begins, the change is the long side of a triangle.
#[test]
fn a_change_of_lane_on_a_straight_is_one_straight_line() {
    let way = ["--lane", "4", "--to-lane", "1", "--from", "break line", "--to", "finish line - 220"];
    let (on_m, across_m) = (2.0 * 84.39 + PI * 36.80 - 220.0, 3.0 * 1.22 + 0.20 - 0.30);
    assert_near(&measured(&way)["distance_m"], f64::hypot(on_m, across_m));
}

/// A tangent from a place at distance d from the centre of a bend of radius ρ is √(d² - ρ²) long, and
/// touches the bend acos(ρ / d) further round than the place itself lies.
#[test]
fn a_change_of_lane_into_a_bend_is_a_tangent_and_the_rest_along_the_inner_lane() {
    let way = ["--lane", "4", "--to-lane", "1", "--from", "break line", "--to", "finish line - 180"];
    let (inner_m, outer_m) = (36.50 + 0.30, 36.50 + 3.0 * 1.22 + 0.20);
    // The break line of lane 4 lies 84.39 m before the centre of the second bend, and `outer_m` out.
    let away_m = f64::hypot(84.39, outer_m);
    let across_m = (away_m * away_m - inner_m * inner_m).sqrt();
    let touches_rad = (inner_m / away_m).acos() - f64::atan2(84.39, outer_m);
    let in_bend_m = PI * inner_m + 84.39 - 180.0;
    assert_near(&measured(&way)["distance_m"], across_m + in_bend_m - inner_m * touches_rad);
}

#[test]
fn the_same_pace_over_the_distance_that_was_meant() {
    let way = ["--lane", "2", "--from", "200 m start - 3.52", "--to", "finish"];
    let measurement = measured(&[way.as_slice(), &["--time", "32", "--intended", "200"]].concat());
    let timed = &measurement["timed"];
    assert_near(&measurement["distance_m"], 203.52);
    assert_near(&timed["pace_s_per_km"], 32.0 / 0.20352);
    assert_near(&timed["intended_s"], 32.0 * 200.0 / 203.52);
    assert_near(&timed["lost_s"], 32.0 * 3.52 / 203.52);
    assert!(measured(&way).get("timed").is_none(), "no time was given");
}

#[test]
fn a_running_line_costs_2_pi_a_metre_and_lap() {
    for (lane, kept_m, wider_m) in [("1", "0.5", 0.2), ("1", "0.3", 0.0), ("2", "0.5", 0.3), ("8", "0", -0.2)]
    {
        let way = ["--lane", lane, "--from", "200 m start", "--to", "finish", "--laps", "1"];
        let measurement = measured(&[way.as_slice(), &["--running-line", kept_m]].concat());
        let line = &measurement["running_line"];
        assert_near(&line["lap_m"], 2.0 * PI * wider_m);
        // The way home is a straight and the rest of a bend; the lap besides turns once round.
        let arc_m = 200.0 - 84.39;
        let radius_m = 36.50
            + match lane {
                "1" => 0.30,
                "2" => 1.42,
                _ => 7.0 * 1.22 + 0.20,
            };
        assert_near(&line["way_m"], (2.0 * PI + arc_m / radius_m) * wider_m);
    }
}

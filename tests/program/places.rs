//! Where a block is laid: on a straight, on a bend, the other way; and what does not fit there.
//!
//! Lengths follow from World Athletics, Track and Field Facilities Manual, chapter 2, 400 m standard track
//! (read): straights of 84.39 m; a bend of π · 37.92 m = 119.13 m in lane 2.

use crate::answer::{json, number};
use crate::console::{answered, refused};
use crate::run::toeline;
use serde_json::Value;
use snapbox::str;

fn planned(workout: &str) -> Value {
    json(&["plan", workout])["blocks"][0]["reps"][0].clone()
}

#[test]
fn what_does_not_fit() {
    refused(str![[r#"
# a 100 on the back straight, with the length that there is
$ toeline plan '4 x 100 in lane 4 on the back straight'
error: 100 m does not fit on the back straight, which is 84.39 m long with its chute
 --> workout:1:5
  |
1 | 4 x 100 in lane 4 on the back straight
  |     ^^^
  |
help: write at most 84 m

# a 130 on the bend in lane 2, with the longest that fits
$ toeline plan '4 x 130 in lane 2 on the bend'
error: 130 m does not fit on a bend in lane 2; the longest that fits there is 119.13 m
 --> workout:1:5
  |
1 | 4 x 130 in lane 2 on the bend
  |     ^^^
  |
help: write at most 119 m

# a 143 on the bend in lane 8: π · 45.24 m = 142.13 m
$ toeline plan '143 in lane 8 on the bend'
error: 143 m does not fit on a bend in lane 8; the longest that fits there is 142.13 m
 --> workout:1:1
  |
1 | 143 in lane 8 on the bend
  | ^^^
  |
help: write at most 142 m

# a run too long for the home straight, either way
$ toeline plan '120 in lane 4 on the home straight'
error: 120 m does not fit on the home straight, which is 113.00 m long with its chute
 --> workout:1:1
  |
1 | 120 in lane 4 on the home straight
  | ^^^
  |
help: write at most 113 m
$ toeline plan '120 in lane 4 on the home straight the other way'
error: 120 m does not fit on the home straight, which is 113.00 m long with its chute
 --> workout:1:1
  |
1 | 120 in lane 4 on the home straight the other way
  | ^^^
  |
help: write at most 113 m

# a lap to the millimetre
$ toeline plan '2 laps on the back straight' --track indoor-200
error: 399.999 m does not fit on the back straight, which is 25.01 m long with its chute
 --> workout:1:1
  |
1 | 2 laps on the back straight
  | ^^^^^^
  |
help: write at most 25 m

# a bend has no other way
$ toeline plan '60 in lane 4 on the bend the other way'
error: a bend can only be run anticlockwise
 --> workout:1:26
  |
1 | 60 in lane 4 on the bend the other way
  |                          ^^^^^^^^^^^^^
  |
help: leave out the other way

# lanes 7 and 8 of a track of six have no bend
$ toeline plan '60 in lane 7 on the bend' --track standard-6
error: there is no lane 7 on the oval; open there: lanes 1 to 6
 --> workout:1:12
  |
1 | 60 in lane 7 on the bend
  |            ^
  |
help: use open lanes, for example lane 1

"#]]);
    assert_eq!(planned("130 in lane 8 on the bend")["course"], "oval");
    toeline(&["plan", "60 in lane 7 on the home straight", "--track", "standard-6"]).assert().success();
}

#[test]
fn the_other_way_is_said_under_the_table() {
    answered(str![[r#"
# the other way on the home straight
$ toeline plan --full '60 in lane 4 on the home straight the other way'
60 in lane 4 on the home straight the other way
Track: standard

Block 1: 60 m in lane 4 on the home straight the other way
────────────────────────────────────────────────────────────────────────────────
 Reps   Lane   Metres   Stand                            Finish
════════════════════════════════════════════════════════════════════════════════
 1      4          60   on the later 4x400 m takeover    on the 70 m start line
                        zone entry line
────────────────────────────────────────────────────────────────────────────────
Total 60 m.
- Run the other way: towards the start of the straight.
- Coach: outside lane 8, level with the finish in lane 4: on the 70 m start
  line.

No cones: paint shows every place.

[CAUTIONS]

"#]]);
}

#[test]
fn an_84_on_the_back_straight_fits_and_lies_wholly_on_it() {
    let rep = planned("84 in lane 4 on the back straight");
    assert_eq!(rep["course"], "back straight");
    for end in ["start", "finish"] {
        // The measure line of lane 4 on the back straight.
        assert!((number(&rep[end]["y_m"]) - (36.50 + 3.0 * 1.22 + 0.20)).abs() < 1e-9, "{rep}");
        assert!(number(&rep[end]["x_m"]).abs() <= 84.39 / 2.0 + 1e-9, "{rep}");
    }
    assert!(number(&rep["start"]["x_m"]) > number(&rep["finish"]["x_m"]), "it runs to the left: {rep}");
}

#[test]
fn a_100_on_the_bend_fits_in_lane_2() {
    let rep = planned("100 in lane 2 on the bend");
    assert_eq!((&rep["course"], &rep["the_other_way"]), (&"oval".into(), &false.into()));
    let (start, finish) = (&rep["start"], &rep["finish"]);
    // Both beyond the ends of the straights, on the same side.
    let half_m = 84.39 / 2.0;
    let (a, b) = (number(&start["x_m"]), number(&finish["x_m"]));
    assert!(a >= half_m - 1e-9 && b >= half_m - 1e-9 || a <= 1e-9 - half_m && b <= 1e-9 - half_m, "{rep}");
    // The angle between them at the bend's centre, times the radius of lane 2, is 100 m.
    let angle = |end: &Value| number(&end["y_m"]).atan2(number(&end["x_m"]) - half_m * a.signum());
    let turned = (angle(finish) - angle(start)).rem_euclid(std::f64::consts::TAU);
    assert!((turned * 37.92 - 100.0).abs() < 1e-6, "{rep}");
}

#[test]
fn the_other_way_on_the_home_straight_runs_away_from_the_finish_line() {
    let rep = planned("60 in lane 4 on the home straight the other way");
    assert_eq!((&rep["course"], &rep["the_other_way"]), (&"home straight".into(), &true.into()));
    let x_m = |end: &str| number(&rep[end]["x_m"]);
    assert!((x_m("start") - x_m("finish") - 60.0).abs() < 1e-9, "{rep}");
}

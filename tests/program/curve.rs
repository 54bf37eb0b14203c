//! `toeline curve`: the curved start line of a group, with lane 1 open and closed, from a place and for a distance.
//!
//! The places are checked against a string pulled taut in `crates/lane-distance/tests/taut_string.rs`;
//! here the whole answer is compared.

use crate::answer::{json, list};
use crate::console::{answered, refused};
use crate::run::toeline;
use snapbox::str;

#[test]
fn the_line_and_the_places_on_it() {
    answered(str![[r##"
# the 1500 m starts 300 m from the finish in lane 1
$ toeline curve 1500
Group start of 1500 m, breaking for lane 1
──────────────────────────────────────────
 Lane   Past square   Stand
══════════════════════════════════════════
    1          0.00   on the 1500 m start
    2          0.19   on the 1500 m start
    3          0.58   on the 1500 m start
    4          1.09   on the 1500 m start
    5          1.65   on the 1500 m start
    6          2.23   on the 1500 m start
    7          2.82   on the 1500 m start
    8          3.43   on the 1500 m start
──────────────────────────────────────────
- "Past square" is how many metres past the line straight across the track from
  the innermost start each lane stands, along the lane.

[CARE]

# with lane 1 closed a group breaks for lane 2
$ toeline curve 1000 --closed 1
Group start of 1000 m, breaking for lane 2
────────────────────────────────────────────────────────────────────────────────
 Lane   Past square   Stand
════════════════════════════════════════════════════════════════════════════════
    2          0.00   4.06 m past the exit of yellow zone 2 along the inner
                      line
    3          0.21   1.01 m past the exit of yellow zone 2 along the inner
                      line
    4          0.60   1.84 m back along the inner line from the exit of yellow
                      zone 2
    5          1.13   4.57 m back along the inner line from the exit of yellow
                      zone 2
    6          1.76   2.76 m past the 200 m start line along the inner line
    7          2.50   0.25 m past the 200 m start line
    8          3.34   2.17 m back along the inner line from the 200 m start
                      line
────────────────────────────────────────────────────────────────────────────────
- "Past square" is how many metres past the line straight across the track from
  the innermost start each lane stands, along the lane.

[CARE_LANE_ONE_CLOSED]

# from a place of the innermost open lane
$ toeline curve --at '200 m start + 5' --closed 1,2
Group start, breaking for lane 3
────────────────────────────────────────────────────────────────────────────────
 Lane   Past square   Stand
════════════════════════════════════════════════════════════════════════════════
    3          0.00   4.97 m back along the inner line from the exit of yellow
                      zone 2
    4          0.21   1.75 m past the 200 m start line along the inner line
    5          0.59   1.30 m back from the 200 m start line
    6          1.11   4.22 m back along the inner line from the 200 m start
                      line
    7          1.73   7.03 m back along the inner line from the 200 m start
                      line
    8          2.46   5.20 m past the 5th green tick along the inner line
────────────────────────────────────────────────────────────────────────────────
- "Past square" is how many metres past the line straight across the track from
  the innermost start each lane stands, along the lane.

[CARE_LANES_ONE_AND_TWO_CLOSED]

"##]]);
}

#[test]
fn a_closed_outer_lane_is_left_out() {
    let answer = json(&["curve", "1500", "--closed", "4"]);
    let lanes = list(&answer["lanes"]);
    let numbers: Vec<_> = lanes.iter().filter_map(|lane| lane["lane"].as_u64()).collect();
    assert_eq!(numbers, [1, 2, 3, 5, 6, 7, 8]);
    assert_eq!((&answer["inside_lane"], &answer["distance_m"]), (&1.into(), &1500.0.into()));
    assert_eq!(lanes[0]["past_square_m"], 0.0);
}

/// Whatever the lane, a runner outside stands past the square line, and farther in every lane out.
#[test]
fn the_curve_sweeps_forwards_on_every_track() {
    for track in ["standard", "double-bend-2", "oval-300", "indoor-200", "yards-440"] {
        let answer = json(&["curve", "1000", "--track", track]);
        let past: Vec<f64> =
            list(&answer["lanes"]).iter().filter_map(|lane| lane["past_square_m"].as_f64()).collect();
        assert!(past.len() >= 4 && past.is_sorted() && past[0] == 0.0 && past[3] > 0.0, "{track}: {past:?}");
    }
}

#[test]
fn a_curve_that_cannot_be_drawn() {
    refused(str![[r#"
# a place off the oval
$ toeline curve --at '110 m hurdles start'
error: `110 m hurdles start` is not on the oval

# an unknown place
$ toeline curve --at '1500 m strat'
error: no mark is called `1500 m strat`; near it: `1500 m start`, `100 m start` or `50 m start`

# every lane is closed
$ toeline curve 1500 --closed 1,2,3,4,5,6,7,8
error: no lane of the oval is open

"#]]);
}

#[test]
fn a_distance_or_a_place_is_needed_and_not_both() {
    for arguments in [&[][..], &["1500", "--at", "finish"], &["far"]] {
        toeline(&[&["curve"], arguments].concat()).assert().code(2).stdout_eq(str![]);
    }
}

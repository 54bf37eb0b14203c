//! Straights and bends in turn: each run goes from end to end of one, the recovery along the other.

use std::f64::consts::PI;

use serde_json::Value;
use snapbox::str;

use crate::answer::{json, list, number};
use crate::folder::Folder;
use crate::run::toeline;

/// A straight of the standard track, in metres (World Athletics, Track and Field Facilities Manual, 2019, 2.2.1.1).
const STRAIGHT_M: f64 = 84.39;

/// A bend of the standard track in a lane, in metres: half a turn, 0.30 m from a kerb of radius 36.50 m in lane 1, 0.20 m
/// from the line of every other lane of 1.22 m (the same).
fn bend_m(lane: u32) -> f64 {
    let measured_m = if lane == 1 { 0.3 } else { f64::from(lane - 1) * 1.22 + 0.2 };
    PI * (36.5 + measured_m)
}

fn reps(plan: &Value) -> Vec<&Value> {
    list(&plan["blocks"]).iter().flat_map(|block| list(&block["reps"])).collect()
}

#[test]
fn runs_over_straights_and_jogs_round_bends_come_to_laps_in_every_lane() {
    for lane in 1..=8 {
        let plan = json(&["plan", &format!("4 laps: stride straights, jog bends, in lane {lane}")]);
        let reps = reps(&plan);
        assert_eq!(reps.len(), 8);
        for (rep, next) in reps.iter().zip(&reps[1..]) {
            assert!((number(&rep["distance_m"]) - STRAIGHT_M).abs() < 0.005, "{rep}");
            assert!((number(&rep["recovery_m"]) - bend_m(lane)).abs() < 0.005, "lane {lane}: {rep}");
            let ends = ["x_m", "y_m"].map(|key| (number(&rep["finish"][key]), number(&next["start"][key])));
            // From the end of one straight to the start of the other: across the bend.
            assert!((ends[0].0 - ends[0].1).abs() < 0.01 && ends[1].0 * ends[1].1 < 0.0, "{ends:?}");
            assert_ne!(rep["course"], next["course"]);
        }
        assert_eq!(number(&reps[0]["finish"]["to_finish_line_m"]), 0.0);
        // The bend behind the last straight is the way home: nothing is run on it.
        assert!(reps[7]["recovery_m"].is_null());
    }
}

#[test]
fn fast_bends_are_as_long_as_their_lane_makes_them() {
    let plan = json(&["plan", "6 x bends hard in lane 4, walk the straights"]);
    let reps = reps(&plan);
    assert_eq!(reps.len(), 6);
    for rep in &reps {
        assert!((number(&rep["distance_m"]) - bend_m(4)).abs() < 0.005, "{rep}");
    }
    for rep in &reps[..5] {
        assert!((number(&rep["recovery_m"]) - STRAIGHT_M).abs() < 0.005, "{rep}");
    }
}

#[test]
fn every_view_shows_the_ends_of_the_straights() {
    let folder = Folder::with(
        "evening.yaml",
        "{ title: Straights, date: 2027-04-13, blocks: ['3 laps: sprint the straights, walk the bends'] }",
    );
    for format in plan_sheet::FORMATS.iter().filter(|format| !matches!(format.ending, "pdf" | "png" | "ics"))
    {
        let view = format!("evening.{}", format.ending);
        folder.toeline(&["plan", "evening.yaml", "--out", &view]).assert().success();
        let written = std::fs::read_to_string(folder.at(&view)).expect("it was written");
        assert!(written.contains("2.61 m past"), "{view} does not say where the home straight begins");
    }
}

#[test]
fn without_laps_they_are_refused_under_the_words() {
    toeline(&["plan", "sprint the straights, jog the bends"]).assert().failure().stderr_eq(str![[r#"
error: straights and bends in turn have no distance here
 --> workout:1:1
  |
1 | sprint the straights, jog the bends
  | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  |
help: write for example `4 laps: sprint the straights, jog the bends`

"#]]);
    toeline(&["plan", "1500 sprint the straights, jog the bends"]).assert().failure().stderr_eq(str![[r#"
error: `1500` is not a whole number of straights
 --> workout:1:1
  |
1 | 1500 sprint the straights, jog the bends
  | ^^^^
  |
help: write for example `4 laps: sprint the straights, jog the bends`

"#]]);
}

//! A surveyed lap: all distances are scaled to it, the plan says so, and a survey that is far off is
//! refused. And how sure a distance is, which is shown from 0.1 m on.
//!
//! The computed lap of lane 1 is 2 · 84.39 m + 2π · 36.80 m = 400.001 m.

use crate::answer::{list, number, printed, texts};
use crate::run::toeline;
use crate::venue::{plan_of, refused_plan};

const SESSION: &str = "title: T\ntrack: track.yaml\nblocks:\n  - 400 in lane 1\n  - 60 in lane 1\n";

const COMPUTED_M: f64 = 2.0 * 84.39 + 2.0 * std::f64::consts::PI * 36.80;

#[test]
fn a_surveyed_lap_is_said_and_used() {
    let plan = plan_of("surveyed_lap: 400.25\n", SESSION);
    let said = "All distances are scaled by 1.000622 to the surveyed lap of 400.250 m in lane 1.";
    assert!(texts(&plan["cautions"]).contains(&said), "{plan}");
    let lanes = list(&plan["track"]["lanes"]);
    assert!((number(&lanes[0]["lap_m"]) - 400.25).abs() < 1e-9);
    let lane_2_m = 2.0 * 84.39 + 2.0 * std::f64::consts::PI * 37.92;
    assert!((number(&lanes[1]["lap_m"]) - lane_2_m * 400.25 / COMPUTED_M).abs() < 1e-9);
    // 60 m of a track that is longer than its plan are less than 60 m on the plan.
    let sprint = &plan["blocks"][1]["reps"][0];
    let on_plan_m = number(&sprint["finish"]["x_m"]) - number(&sprint["start"]["x_m"]);
    assert!((on_plan_m - 60.0 * COMPUTED_M / 400.25).abs() < 1e-9, "{on_plan_m}");
}

#[test]
fn without_a_survey_nothing_is_scaled_or_said() {
    let plan = plan_of("", SESSION);
    assert!(!texts(&plan["cautions"]).iter().any(|caution| caution.contains("scaled")), "{plan}");
}

#[test]
fn a_survey_may_be_half_a_metre_off_and_no_more() {
    for lap_m in ["400.50", "399.51"] {
        plan_of(&format!("surveyed_lap: {lap_m}\n"), SESSION);
    }
    for (lap_m, off) in [("400.51", "+0.509"), ("399.40", "-0.601"), ("440 yd", "+2.335")] {
        let said = refused_plan(&format!("surveyed_lap: {lap_m}\n"), SESSION);
        let says = format!(
            "differs by {off} m from the computed lap of lane 1, 400.001 m; the most allowed is 0.5 m"
        );
        // Long messages are not broken, so the sentence stands on one line.
        assert!(said.contains(&says), "{lap_m}: {said}");
        assert!(said.contains("track.yaml:11:15"), "{lap_m}: {said}");
    }
}

fn text_of(workout: &str) -> String {
    printed(&toeline(&["plan", workout]).assert().success())
}

/// A run that turns through φ in lane n between painted marks is sure to φ · √(n - 1) · 0.01 m, each
/// lane's width to 0.01 m (World Athletics, Technical Rules, track and lanes, from memory). 400 m in
/// lane n with radius ρ turn through (400 - 168.78) / ρ, and two laps of lane 8 farther.
#[test]
fn a_plus_or_minus_is_shown_from_a_tenth_of_a_metre() {
    for (workout, shown) in [
        // 5.11 · √7 · 0.01 m = 0.135 m, and 5.56 · √4 · 0.01 m = 0.111 m.
        ("400 in lane 8", " 400 ±0.1 "),
        ("400 in lane 5", " 400 ±0.1 "),
        // A whole turn and 3.94 more, 0.270 m, with a tape of 0.02 m.
        ("800 in lane 8", " 800 ±0.3 "),
    ] {
        let text = text_of(workout);
        assert!(text.contains(shown), "{workout}: {text}");
    }
    // 5.73 · √3 · 0.01 m = 0.099 m in lane 4, nothing in lane 1 and on the home straight.
    for workout in ["400 in lane 4", "400 in lane 1", "100 in lane 8", "200 in lane 2"] {
        assert!(!text_of(workout).contains('±'), "{workout}");
    }
}

#[test]
fn a_worse_tolerance_in_the_track_file_is_used() {
    let plan = plan_of("tolerances: { lane_width: 0, radius: 3 cm, tape: 5 cm }\n", SESSION);
    let sure_m = number(&plan["blocks"][0]["reps"][0]["plus_minus_m"]);
    assert!((sure_m - 2.0 * std::f64::consts::PI * 0.03).abs() < 0.001, "{sure_m}");
    assert_eq!(plan["blocks"][1]["reps"][0]["plus_minus_m"], 0.0);
}

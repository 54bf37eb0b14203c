//! The walk that sets everything out: one cone a spot, in the order met on one lap.

use std::collections::BTreeSet;
use std::f64::consts::{FRAC_PI_2, PI};
use std::fs;

use crate::answer::{list, number};
use crate::folder::Folder;
use serde_json::Value;

/// A spot to the millimetre.
fn place(spot: &Value) -> (i64, i64, i64) {
    let mm = |key: &str| (number(&spot[key]) * 1000.0).round() as i64;
    (spot["lane"].as_i64().expect("a number"), mm("x_m"), mm("y_m"))
}

/// How far round the standard oval a place is met from the finish line, in metres of the inner edge:
/// two straights of 84.39 m and two half circles of 36.50 m (Track and Field Facilities Manual,
/// 400 m standard track), from coordinates alone. The second number is how far out in a chute it lies.
fn met_m(spot: &Value) -> (f64, f64) {
    const STRAIGHT_M: f64 = 84.39;
    const RADIUS_M: f64 = 36.50;
    let half_m = STRAIGHT_M / 2.0;
    let (x, y) = (number(&spot["x_m"]), number(&spot["y_m"]));
    let home = y < 0.0;
    let in_chute = home && x < -half_m && spot["course"] == "home straight";
    if x > half_m {
        return ((y.atan2(x - half_m) + FRAC_PI_2) * RADIUS_M, 0.0);
    }
    if x < -half_m && !in_chute {
        let round = (y.atan2(x + half_m) - FRAC_PI_2).rem_euclid(2.0 * PI);
        return (PI * RADIUS_M + STRAIGHT_M + round * RADIUS_M, 0.0);
    }
    if !home {
        return (PI * RADIUS_M + half_m - x, 0.0);
    }
    // The finish line is where the lap begins.
    let along_m = if (x - half_m).abs() < 1e-9 {
        0.0
    } else {
        2.0 * PI * RADIUS_M + STRAIGHT_M + x.max(-half_m) + half_m
    };
    (along_m, (-half_m - x).max(0.0))
}

const WORKOUTS: [&str; 8] = [
    "6 x 200 in lane 2",
    "4 x 150 in lanes 2-5",
    "3 x 300 in lanes 1-8 rest 5min",
    "8 x 100 in lanes 3-6",
    "2 x 110h in lanes 2-7",
    "2 x (400 + 200) in lanes 2,4 rest 3min",
    "4 x flying 30 with 30 run-in in lanes 4-6",
    "5 x 1000 in lane 2 rest 3min",
];

/// The plan of a workout or a session file with a cone on every spot, and the same with those off the paint alone.
fn with_every_cone(workout: &str) -> [Value; 2] {
    let track = fs::read_to_string("sessions/wrenbeck/track.yaml").expect("the track is there");
    let folder = Folder::with("track.yaml", track);
    let session = |_| format!("title: A walk\nblocks:\n  - {workout}\n");
    let text = fs::read_to_string(workout).unwrap_or_else(session);
    folder.write("off-paint.yaml", &text);
    folder.write("every.yaml", format!("{text}\ncones: every spot\n"));
    ["every.yaml", "off-paint.yaml"].map(|file| folder.json(&["plan", file]))
}

#[test]
fn every_spot_has_one_cone_and_no_cone_is_without_a_spot() {
    let sessions = ["monday-two-groups", "tuesday-sprints", "thursday-middle-distance", "friday-starts"]
        .map(|name| format!("sessions/wrenbeck/{name}.yaml"));
    for workout in WORKOUTS.into_iter().chain(sessions.iter().map(String::as_str)) {
        let [plan, off_paint] = with_every_cone(workout);
        let reps = || list(&plan["blocks"]).iter().flat_map(|block| list(&block["reps"]));
        let run_ins = reps().map(|rep| &rep["run_in"]).filter(|spot| !spot.is_null());
        let spots: BTreeSet<_> =
            reps().flat_map(|rep| [&rep["start"], &rep["finish"]]).chain(run_ins).map(place).collect();
        let cones: Vec<_> = list(&plan["setup"]).iter().map(|cone| place(&cone["spot"])).collect();
        assert_eq!(cones.len(), spots.len(), "{workout}: fewest cones");
        assert_eq!(cones.into_iter().collect::<BTreeSet<_>>(), spots, "{workout}");
        // Unless every spot is asked for, those on paint have none.
        let is_bare = |cone: &&Value| number(&cone["spot"]["past_mark_m"]).abs() > 0.05;
        let bare: Vec<_> =
            list(&plan["setup"]).iter().filter(is_bare).map(|cone| place(&cone["spot"])).collect();
        let off_paint: Vec<_> = list(&off_paint["setup"]).iter().map(|cone| place(&cone["spot"])).collect();
        assert_eq!(off_paint, bare, "{workout}");
        let orders: Vec<_> = list(&plan["setup"]).iter().map(|cone| cone["order"].as_u64()).collect();
        assert!(orders.iter().zip(1..).all(|(order, number)| *order == Some(number)), "{workout}");
        for cone in list(&plan["setup"]) {
            let what = cone["what"].as_str().expect("text");
            let marks =
                |key: &str| reps().any(|rep| !rep[key].is_null() && place(&rep[key]) == place(&cone["spot"]));
            for (word, key) in [("start", "start"), ("finish", "finish"), ("run-in", "run_in")] {
                assert_eq!(what.split(" and ").any(|told| told == word), marks(key), "{workout}: {cone}");
            }
        }
    }
}

#[test]
fn cones_come_in_the_order_met_on_a_lap_from_the_finish_line() {
    for workout in WORKOUTS {
        let [plan, _] = with_every_cone(workout);
        let met: Vec<(f64, f64, i64)> = list(&plan["setup"])
            .iter()
            .map(|cone| {
                let (along_m, out_m) = met_m(&cone["spot"]);
                ((along_m * 100.0).round(), (out_m * 100.0).round(), place(&cone["spot"]).0)
            })
            .collect();
        assert!(met.is_sorted(), "{workout}: {met:?}");
    }
}

#[test]
fn a_walk_is_no_shorter_than_its_cones_allow_and_no_longer_than_the_outer_lane_and_its_turns() {
    for workout in WORKOUTS {
        let [plan, _] = with_every_cone(workout);
        let places: Vec<(f64, f64)> = list(&plan["setup"])
            .iter()
            .map(|cone| (number(&cone["spot"]["x_m"]), number(&cone["spot"]["y_m"])))
            .collect();
        let straight_m: f64 =
            places.windows(2).map(|pair| (pair[0].0 - pair[1].0).hypot(pair[0].1 - pair[1].1)).sum();
        let walk_m = number(&plan["walk"]["walk_m"]);
        assert!(walk_m >= straight_m, "{workout}: {walk_m} < {straight_m}");
        // A lap of lane 8 is 453.03 m; each of the cones costs at most a walk across the lanes, and a
        // chute is 28.61 m out and back.
        assert!(walk_m <= 453.03 + 8.0 * 1.22 * places.len() as f64 + 2.0 * 28.61, "{workout}: {walk_m}");
        assert!((number(&plan["walk"]["walk_s"]) * 1.4 - walk_m).abs() < 1e-9);
    }
}

#[test]
fn where_no_cone_is_needed_no_walk_is_told() {
    let folder = Folder::new();
    for ending in ["txt", "md", "svg", "html"] {
        let name = format!("plan.{ending}");
        folder.toeline(&["plan", "20 min steady", "--out", &name]).assert().success();
        let text = folder.read(&name);
        assert!(!text.contains("Setting out") && !text.contains("0 cones"), "{ending}");
    }
}

//! What a line is for, and how far it was, as the page asks.

use serde_json::{Value, json};

fn asked(operation: &str, request: &Value) -> Value {
    let reply = plan_desk::answer(operation, &request.to_string());
    let body = String::from_utf8(reply.body).expect("JSON is UTF-8");
    assert_eq!(reply.status, 200, "{body}");
    serde_json::from_str(&body).expect("it says that it is JSON")
}

fn html(answer: &Value) -> &str {
    answer["html"].as_str().expect("it is text")
}

/// Where a mark of a lane lies, in metres from the centre of the infield.
fn place_of(lane: u8, mark: &str) -> (f64, f64) {
    let marks = asked("marks", &json!({ "lane": lane }));
    let marks = marks["marks"].as_array().expect("it is a list");
    let found = marks.iter().find(|row| row["mark"] == mark).expect("it is painted");
    let metres = |key: &str| found[key].as_f64().expect("it is a number");
    (metres("x_m"), metres("y_m"))
}

#[test]
fn a_tap_finds_the_mark_and_two_taps_the_distance() {
    let tap = |(x, y): (f64, f64)| asked("line", &json!({ "lane": 1, "at": { "x_m": x + 0.2, "y_m": y } }));
    let (start, finish) = (tap(place_of(3, "400 m start")), tap(place_of(3, "200 m start")));
    assert_eq!((&start["lane"], &start["place"]), (&json!(3), &json!("400 m start")));
    assert!(html(&finish).contains("Start here for 200 m: finish at the finish line."), "{finish}");
    assert!(html(&finish).contains("white line"), "{finish}");
    let request = json!({ "lane": 3, "from": start["place"], "to": finish["place"] });
    let far = asked("far", &request);
    assert!((far["distance_m"].as_f64().expect("a number") - 200.0).abs() < 0.011, "{far}");
}

#[test]
fn a_place_off_the_paint_is_read_back() {
    for (x_m, y_m) in [(0.0, -40.0), (10.0, 41.0), (78.0, 3.0), (-65.0, -38.0)] {
        let answer = asked("line", &json!({ "lane": 1, "at": { "x_m": x_m, "y_m": y_m } }));
        let (lane, place) = (&answer["lane"], &answer["place"]);
        let measured = asked("measure", &json!({ "lane": lane, "from": place, "to": "finish line" }));
        let metres = |key: &str| measured["from"][key].as_f64().expect("a number");
        // Within a lane's width across, and a mark's reach along.
        let off_m = (metres("x_m") - x_m).hypot(metres("y_m") - y_m);
        assert!(off_m < 1.3, "{place} is {off_m} m from the tap");
    }
}

#[test]
fn a_trap_says_so_and_colours_pick_lines() {
    let green = asked("line", &json!({ "lane": 4, "colour": "green" }));
    assert!(html(&green).contains("800 m start") && html(&green).contains("A trap for training"), "{green}");
    assert_eq!(green["place"], Value::Null);
    let none = asked("line", &json!({ "lane": 4, "colour": "pink" }));
    assert!(html(&none).contains("No such line in this lane."), "{none}");
    let all = asked("line", &json!({ "lane": 4 }));
    assert!(html(&all).len() > 2 * html(&green).len());
}

#[test]
fn a_time_over_a_wrong_line_is_made_honest() {
    // From the finish line to the finish line is a lap: 2π(36.50 + 1.22 + 0.20) + 2·84.39 m in lane 2.
    let lap = json!({ "lane": 2, "from": "finish line", "to": "finish line", "time": "65.0" });
    let lap_m = 2.0 * std::f64::consts::PI * (36.50 + 1.22 + 0.20) + 2.0 * 84.39;
    let words = format!(
        "{:.2} s for 400 m: the run was {:.2} m too long, which cost {:.2} s",
        65.0 * 400.0 / lap_m,
        lap_m - 400.0,
        65.0 - 65.0 * 400.0 / lap_m
    );
    let answer = asked("far", &lap);
    assert!(html(&answer).contains(&words), "{words}: {answer}");
    let mut meant = lap.clone();
    meant["meant_m"] = json!(410.0);
    assert!(html(&asked("far", &meant)).contains("too short, which saved"));
    for (key, wrong) in [
        ("time", json!("fast")),
        ("time", json!("0")),
        ("from", json!("the moon")),
        ("to", json!("finish line + far")),
        ("meant_m", json!(-400)),
        ("meant_m", json!(1e300)),
    ] {
        let mut request = lap.clone();
        request[key] = wrong;
        let reply = plan_desk::answer("far", &request.to_string());
        assert_eq!(reply.status, 422, "{}", String::from_utf8_lossy(&reply.body));
    }
}

#[test]
fn the_map_has_the_coordinates_of_the_ground() {
    let answer = asked("ground_map", &json!({ "ground": { "closed": [1] } }));
    let map = answer["map"].as_str().expect("it is text");
    let view =
        map.split_once("viewBox=\"").and_then(|(_, rest)| rest.split_once('"')).expect("it has a view").0;
    let view: Vec<f64> = view.split(' ').map(|part| part.parse().expect("a number")).collect();
    let (x_m, y_m) = place_of(8, "finish line");
    assert!(view[0] < x_m && x_m < view[0] + view[2] && view[1] < -y_m && -y_m < view[1] + view[3]);
    assert!(map.contains("class=\"closed\"") && map.contains("finish line"));
}

#[test]
fn a_place_far_away_is_the_nearest_of_the_track() {
    for (x_m, y_m) in [(1e300, -1e300), (-1.7e308, 1.7e308), (0.0, 0.0)] {
        let answer = asked("line", &json!({ "lane": 1, "at": { "x_m": x_m, "y_m": y_m } }));
        assert!(answer["place"].is_string(), "{answer}");
    }
}

//! The JSON that other programs rely on: names and values.

use crate::answer::{json, list, number, texts};
use serde_json::{Value, json};

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().expect("it is an object").keys().map(String::as_str).collect()
}

const SPOT: [&str; 12] = [
    "colour",
    "course",
    "from_finish_line_m",
    "lane",
    "mark",
    "past_mark_m",
    "plus_minus_m",
    "tape_m",
    "to_finish_line_m",
    "words",
    "x_m",
    "y_m",
];

#[test]
fn a_plan_has_the_promised_keys() {
    let plan = json(&["plan", "2 x 200 in lane 2 @ 32 rest 90", "--closed", "1"]);
    assert_eq!(
        keys(&plan),
        [
            "about",
            "begins",
            "blocks",
            "booked_until",
            "cautions",
            "changes",
            "date",
            "ends",
            "etiquette",
            "findings",
            "groups",
            "lasts_s",
            "not_read",
            "notes",
            "overrun",
            "reading",
            "setup",
            "title",
            "track",
            "walk",
            "warnings",
            "wind"
        ]
    );
    assert_eq!(plan["track"]["name"], "standard");
    assert_eq!(plan["track"]["closed_lanes"], json!([1]));
    assert_eq!(keys(&plan["track"]), ["closed_lanes", "lanes", "name", "timezone"]);
    assert_eq!(keys(&plan["track"]["lanes"][0]), ["lane", "lap_m"]);
    let block = &plan["blocks"][0];
    assert_eq!(
        keys(block),
        [
            "coach", "doubts", "findings", "group", "groups", "lasts_s", "not_read", "note", "reading",
            "remarks", "reps", "text", "timed_s"
        ]
    );
    assert_eq!(block["text"], "2 x 200 in lane 2 @ 32 rest 90");
    assert_eq!(block["reading"], "2 × 200 m @ 32 s in lane 2, 90 s rest");
    assert_eq!(plan["reading"], block["reading"]);
    assert_eq!([&block["not_read"], &block["doubts"], &plan["not_read"]], [&json!([]); 3]);
    let reps = list(&block["reps"]);
    assert_eq!(reps.len(), 2);
    assert_eq!(
        keys(&reps[0]),
        [
            "about",
            "athletes",
            "bend_m",
            "bends",
            "cautions",
            "course",
            "distance_m",
            "done_s",
            "effort",
            "findings",
            "finish",
            "go_s",
            "group",
            "groups",
            "guides",
            "lane",
            "nominal",
            "own_times",
            "pace_changes",
            "plus_minus_m",
            "recovery_m",
            "rep",
            "rest_s",
            "run_in",
            "run_in_m",
            "set",
            "sound_s",
            "splits",
            "start",
            "target_from_s",
            "target_s",
            "the_other_way",
            "wave"
        ]
    );
    assert_eq!(keys(&reps[0]["start"]), SPOT);
    assert_eq!(
        (&reps[0]["go_s"], &reps[0]["done_s"], &reps[0]["rest_s"]),
        (&json!(0.0), &json!(32.0), &json!(90.0))
    );
    assert_eq!((&reps[1]["go_s"], &reps[1]["rest_s"]), (&json!(122.0), &Value::Null));
    assert_eq!(keys(&block["coach"]), ["lane", "side", "words", "x_m", "y_m"]);
    let bare = json(&["plan", "3 x 300 in lane 2"]);
    assert_eq!(keys(&bare["setup"][0]), ["for", "label", "order", "spot", "strides", "uses", "what"]);
    assert_eq!(keys(&plan["walk"]), ["cones", "is_stride_assumed", "stride_m", "walk_m", "walk_s"]);
    assert_eq!(plan["date"], Value::Null);
}

#[test]
fn what_could_be_read_in_another_way_stands_in_the_json_as_a_value_and_in_words() {
    let plan = json(&["plan", "6-8 x 400, 75s, keep tall; 4 x 60 walk back, relaxed"]);
    let blocks = list(&plan["blocks"]);
    assert_eq!(
        blocks[0]["doubts"],
        json!([
            { "kind": "range of counts", "least": 6, "most": 8, "words": "6 to 8 are asked for, 8 planned" },
            { "kind": "rest or target", "seconds": 75.0, "words": "or 75 s could be the time of each run" },
        ])
    );
    assert_eq!(blocks[0]["not_read"], json!(["keep tall"]));
    assert_eq!(
        blocks[0]["reading"],
        "8 × 400 m, 75 s rest; 6 to 8 are asked for, 8 planned; or 75 s could be the time of each run; \
         not read: keep tall"
    );
    assert_eq!([&blocks[1]["doubts"], &blocks[1]["not_read"]], [&json!([]); 2]);
    assert_eq!(plan["not_read"], json!(["keep tall"]));
    let readings: Vec<&str> = blocks.iter().filter_map(|block| block["reading"].as_str()).collect();
    assert_eq!(plan["reading"], readings.join("\n"));
}

#[test]
fn the_200_m_start_of_lane_2_is_the_contracts_example() {
    let plan = json(&["plan", "200 in lane 2"]);
    let start = &plan["blocks"][0]["reps"][0]["start"];
    let metres = |key: &str| number(&start[key]);
    assert!((metres("from_finish_line_m") - 207.04).abs() < 0.01);
    assert_eq!((metres("to_finish_line_m"), metres("past_mark_m"), metres("tape_m")), (200.0, 0.0, 0.0));
    assert_eq!(
        (&start["course"], &start["mark"], &start["colour"], &start["words"]),
        (&json!("oval"), &json!("200 m start"), &json!("white"), &json!("on the 200 m start line"))
    );
}

#[test]
fn spots_measure_lanes_and_marks_have_the_promised_keys() {
    let spots = json(&["spots", "150 in lane 2"]);
    assert_eq!(
        keys(&spots["choices"][0]),
        ["distance_m", "ends_on_paint", "finish", "plus_minus_m", "start"]
    );
    assert_eq!(spots["choices"][0]["ends_on_paint"], 2);
    let measure = json(&["measure", "--lane", "2", "--from", "400 m start", "--to", "200 m start"]);
    assert_eq!(keys(&measure), ["cautions", "distance_m", "findings", "from", "lane", "the_other_way", "to"]);
    assert!((number(&measure["distance_m"]) - 200.0).abs() < 1e-9);
    let lanes = json(&["lanes"]);
    assert_eq!(
        keys(&lanes["lanes"][1]),
        ["lane", "lap_m", "stagger_200_m", "stagger_400_m", "stagger_4x400_m", "stagger_800_m", "start_800"]
    );
    let marks = json(&["marks", "--lane", "2"]);
    for spot in list(&marks["marks"]) {
        assert!(SPOT.iter().all(|key| spot.get(key).is_some()), "{spot}");
        assert!(spot["mark"].is_string() && spot["colour"].is_string());
    }
}

/// Every sentence of a plan has its value beside it, and a cone says as a value what it marks.
#[test]
fn what_is_said_is_there_as_values() {
    let plan = json(&["plan", "8 x 100 in lane 2 walk back rest 45s", "--closed", "1"]);
    let (warnings, cautions) = (texts(&plan["warnings"]), texts(&plan["cautions"]));
    assert_eq!(words(&plan["findings"]), [warnings, cautions].concat());
    assert_eq!(
        (&plan["findings"][1]["kind"], &plan["findings"][1]["lanes"]),
        (&json!("closed lanes"), &json!([1]))
    );
    let block = &plan["blocks"][0];
    assert_eq!(words(&block["findings"]), texts(&block["remarks"]));
    let short = &block["findings"][0];
    assert_eq!(short["kind"], "rest too short to walk");
    assert_eq!((&short["needs_s"], &short["has_s"]), (&json!(72.0), &json!(45.0)));
    let bare = json(&["plan", "3 x 300 in lane 2"]);
    assert_eq!(bare["setup"][0]["uses"], json!([{"end": "start", "distance_m": 300.0, "block": 1}]));
    assert_eq!(bare["setup"][0]["label"], "S");
}

fn words(findings: &Value) -> Vec<&str> {
    list(findings).iter().filter_map(|finding| finding["words"].as_str()).collect()
}

#[test]
fn several_session_files_make_a_list_of_plans() {
    let plans = json(&[
        "plan",
        "sessions/wrenbeck/tuesday-sprints.yaml",
        "sessions/wrenbeck/thursday-middle-distance.yaml",
    ]);
    assert_eq!(list(&plans).len(), 2);
    assert_eq!(plans[0]["date"], "2027-04-13");
}

#[test]
fn a_week_has_its_keys_and_its_pace_bands_can_be_read() {
    let week = json(&["week", "sessions/wrenbeck"]);
    assert_eq!(keys(&week), ["cautions", "entries", "findings", "from", "groups", "sessions", "to"]);
    let entry = &week["entries"][0];
    assert_eq!(
        keys(entry),
        ["begins", "date", "differences", "ends", "group", "load", "not_counted", "runs", "title", "track"]
    );
    assert_eq!(keys(&entry["runs"][0]), ["distances_m", "not_read", "reading", "reps", "short", "text"]);
    assert_eq!(keys(&entry["differences"][0]), ["metres", "nominal_m", "runs", "text", "why"]);
    assert_eq!(
        keys(&entry["load"]),
        ["bands", "bend_m", "bends", "metres", "nominal_m", "recoveries", "recovery_m", "recovery_s", "runs"]
    );
    let bands = list(&entry["load"]["bands"]);
    let cuts: Vec<&Value> = bands.iter().map(|band| &band["from_m_per_s"]).collect();
    assert_eq!(cuts, [&json!(0.0), &json!(4.0), &json!(5.5), &json!(7.0), &Value::Null]);
    let total: f64 = bands.iter().filter_map(|band| band["metres"].as_f64()).sum();
    assert_eq!(Some(total), entry["load"]["metres"].as_f64());
}

//! Requests and their answers.

use serde_json::{Value, json};

/// The answer to a request, which has to be given.
fn asked(operation: &str, request: &Value) -> Value {
    let reply = plan_desk::answer(operation, &request.to_string());
    let body = String::from_utf8(reply.body).expect("JSON is UTF-8");
    assert_eq!(reply.status, 200, "{body}");
    serde_json::from_str(&body).expect("it says that it is JSON")
}

fn plan(request: &Value) -> Value {
    let answer = asked("plan", request);
    assert_eq!(answer["problems"], json!([]), "{answer}");
    answer
}

/// The only problem of a request.
fn problem(request: &Value) -> Value {
    let answer = asked("plan", request);
    assert_eq!(answer["problems"].as_array().map(Vec::len), Some(1), "{answer}");
    assert_eq!(answer["plan"], Value::Null);
    answer["problems"][0].clone()
}

fn reps(answer: &Value, block: usize) -> &Vec<Value> {
    answer["plan"]["blocks"][block]["reps"].as_array().expect("a block has repetitions")
}

#[test]
fn the_plan_of_an_evening_in_three_groups() {
    let text =
        "Tuesday 18:00-19:30\nwarm-up 15 min\n\nSprinters:\n- 4 x 60, walk back\n\nMilers:\n- 3 x 600, 3 min";
    let squad = "Sprinters:\nKit, 60 7.9\nLou\nMilers:\nMax, 800 2:10, 1500 4:30\nAda";
    let answer = plan(&json!({ "text": text, "squad": squad, "ground": { "closed": [1] } }));
    let blocks = answer["plan"]["blocks"].as_array().map_or(0, Vec::len);
    let reps: Vec<&Value> = (0..blocks).flat_map(|block| reps(&answer, block)).collect();
    for name in ["Kit", "Lou", "Max", "Ada"] {
        let runs =
            |rep: &&&Value| rep["athletes"].as_array().is_some_and(|names| names.contains(&json!(name)));
        assert!(reps.iter().any(|rep| runs(&rep)), "{name} runs");
    }
    assert!(reps.iter().all(|rep| rep["lane"] != 1));
    for part in ["head", "places", "map", "walk", "care", "late"] {
        assert!(answer["parts"][part].as_str().is_some_and(|part| part.contains('<')), "{part}");
    }
    assert!(answer["parts"]["late"].as_str().is_some_and(|late| late.contains("data-name=\"Max\"")));
}

#[test]
fn a_problem_stands_under_its_word() {
    let found = problem(&json!({ "text": "warm-up 10 min\n6 x 2oo in lane 2" }));
    assert_eq!(found["field"], "text");
    assert_eq!(found["place"]["line"], 2, "{found}");
    // Scripts count a letter beyond the basic plane twice.
    let found = problem(&json!({ "text": "🏃 drills\n6 x" }));
    assert_eq!(found["place"]["line"], 2);
    assert!(found["place"]["from"].as_u64() >= Some(10), "{found}");
}

#[test]
fn the_squad_of_a_spreadsheet() {
    let squad = "Name\tGroup\tAge\t200\t800\nAda\tSprinters\tU17\t27.1\t\nBen\tMilers\t\t\t2:05\n";
    let answer = plan(&json!({ "text": "4 x 200 in lanes 2-3 @ 90%", "squad": squad }));
    let late = answer["parts"]["late"].as_str().expect("it is text");
    assert!(late.contains("<legend>Sprinters</legend>") && late.contains("<legend>Milers</legend>"));
    for (squad, words) in [
        ("Ada, 28.9", "“28.9” has no distance with its time"),
        ("Name, 200, tea\nAda, 28.9, 3", "“tea” is not a heading that is known"),
        ("Ada\nada", "two athletes are called “ada”"),
        ("name, 200\n, 28.9", "this line has no name"),
        ("name, 200\nAda, fast", "“fast” is not a time"),
        ("name, age\nAda, old", "“old” is not an age group"),
    ] {
        let found = problem(&json!({ "text": "4 x 200", "squad": squad }));
        assert_eq!((&found["field"], &found["message"]), (&json!("squad"), &json!(words)));
    }
    let found = problem(&json!({ "text": "Sprints:\n- 4 x 60\nMiles:\n- 3 x 600", "squad": "Ada" }));
    assert_eq!(found["message"], "nothing says in which group Ada is");
}

#[test]
fn late_changes_and_choices_plan_anew() {
    let squad = "Ada\nBen\nCyd";
    let base = json!({ "text": "18:00-19:30\n6 x 200 in lanes 2-4\n4 x 100", "squad": squad });
    let with = |key: &str, value: Value| {
        let mut request = base.clone();
        request[key] = value;
        plan(&request)
    };
    let answer = with("late", json!({ "without": ["ben"], "closed": [2], "start": "18:10", "skip": [2] }));
    assert_eq!(answer["plan"]["blocks"].as_array().map(Vec::len), Some(1));
    assert!(reps(&answer, 0).iter().all(|rep| rep["lane"] != 2 && rep["athletes"] != json!(["Ben"])));
    let late = answer["parts"]["late"].as_str().expect("it is text");
    assert!(late.contains("data-name=\"Ben\" aria-pressed=\"true\""), "{late}");
    assert!(
        late.contains("data-block=\"2\" aria-pressed=\"true\""),
        "what is left out can come back: {late}"
    );
    let answer = with("choices", json!([{ "block": 1, "from": "400 m start" }]));
    assert!(reps(&answer, 0).iter().all(|rep| rep["start"]["mark"] == "400 m start"));
    for (late, field) in [
        (json!({ "without": ["Zoe"] }), "without"),
        (json!({ "start": "24:61" }), "start"),
        (json!({ "closed": [12] }), "closed"),
        (json!({ "skip": [9] }), "skip"),
        (json!({ "wind": "breezy" }), "wind"),
        (json!({ "hazards": [{ "hazard": "javelin", "since": "now" }] }), "hazards"),
        (json!({ "reps": [{ "name": "Ada", "reps": 0 }] }), "reps"),
        (json!({ "groups": [{ "group": "throwers", "begins": "18:20" }] }), "late"),
    ] {
        let mut request = base.clone();
        request["late"] = late;
        assert_eq!(problem(&request)["field"], field);
    }
}

#[test]
fn a_session_file_is_read_as_the_command_line_reads_it() {
    let text = "title: Tuesday\nclosed_lanes: [1]\ngroups:\n  - name: sprinters\n    athletes: [Ada, Ben]\nblocks:\n  - 6 x 200";
    let answer = plan(&json!({ "text": text }));
    assert_eq!(answer["plan"]["title"], "Tuesday");
    assert_eq!(answer["plan"]["track"]["closed_lanes"], json!([1]));
    let found = problem(&json!({ "text": "title: Tuesday\nblock: [6 x 200]" }));
    assert_eq!((&found["message"], &found["key"]), (&json!("unknown key “block”"), &json!("block")));
    let found = problem(&json!({ "text": format!("track: far.yaml\n{text}") }));
    assert_eq!(
        (&found["field"], &found["help"]),
        (&json!("track"), &json!("open that file as your track, or choose a built-in track"))
    );
}

#[test]
fn files_have_their_media_types() {
    for (ending, content_type, begins) in [
        ("html", "text/html; charset=utf-8", "<!doctype html>"),
        ("svg", "image/svg+xml", "<svg"),
        ("csv", "text/csv; charset=utf-8", "session"),
        ("yaml", "application/yaml", "title: Tuesday"),
        ("json", "application/json", "{"),
        ("md", "text/markdown; charset=utf-8", "# Tuesday"),
    ] {
        let request = json!({ "ending": ending, "evening": { "text": "Tuesday\n6 x 200 in lane 2" } });
        let reply = plan_desk::answer("file", &request.to_string());
        let body = String::from_utf8(reply.body).expect("it is text");
        assert_eq!((reply.status, reply.content_type), (200, content_type), "{body}");
        assert!(
            body.to_lowercase().contains(&begins.to_lowercase()),
            "{ending}: {}",
            &body[..80.min(body.len())]
        );
    }
    for (ending, words) in [("docx", "unknown kind of file"), ("ics", "needs dates")] {
        let request = json!({ "ending": ending, "evening": { "text": "6 x 200 in lane 2" } });
        let reply = plan_desk::answer("file", &request.to_string());
        assert_eq!((reply.status, reply.content_type), (422, "application/problem+json"));
        assert!(String::from_utf8_lossy(&reply.body).contains(words));
    }
}

#[test]
fn the_track_answers_as_the_commands_do() {
    let lanes = asked("lanes", &json!({}));
    // 2π(36.50 + 1.22 + 0.20) + 2·84.39: lane 2 of the standard track is measured 0.20 m outside its inner line.
    let lap_m = 2.0 * std::f64::consts::PI * (36.50 + 1.22 + 0.20) + 2.0 * 84.39;
    assert!((lanes["lanes"][1]["lap_m"].as_f64().expect("a number") - lap_m).abs() < 1e-9);
    let measured = asked("measure", &json!({ "lane": 2, "from": "400 m start", "to": "200 m start" }));
    assert!((measured["distance_m"].as_f64().expect("a number") - 200.0).abs() < 0.011, "{measured}");
    assert!(asked("marks", &json!({ "lane": 2 }))["marks"].as_array().is_some_and(|marks| marks.len() > 20));
    assert!(
        asked("spots", &json!({ "text": "150 in lane 2" }))["choices"]
            .as_array()
            .is_some_and(|all| !all.is_empty())
    );
    for (operation, request) in [
        ("marks", json!({ "lane": 77 })),
        ("measure", json!({ "lane": 2, "from": "the moon", "to": "finish line" })),
        ("spots", json!({ "text": "6 x" })),
        ("lanes", json!({ "ground": { "track": "moon" } })),
    ] {
        assert_eq!(plan_desk::answer(operation, &request.to_string()).status, 422);
    }
}

#[test]
fn the_examples_of_the_page_can_be_planned() {
    let files = plan_desk::page_files(plan_desk::Carrier::Program { has_folder: true })
        .expect("the templates are sound");
    let page = files.iter().find(|file| file.path.is_empty()).expect("there is the page itself");
    let page = String::from_utf8_lossy(&page.bytes);
    let attribute = |element: &str, name: &str| {
        let value = element.split(&format!("{name}=\"")).nth(1).and_then(|rest| rest.split('"').next());
        value.expect("an example has it").replace("&#39;", "'").replace("&amp;", "&")
    };
    let examples: Vec<&str> = page.split("class=\"example\"").skip(1).collect();
    assert!(examples.len() > 3);
    for example in examples {
        let closed = attribute(example, "data-closed");
        let closed: Vec<u8> = closed.split(',').filter_map(|lane| lane.parse().ok()).collect();
        let (text, squad) = (attribute(example, "data-text"), attribute(example, "data-squad"));
        let answer = plan(&json!({ "text": text, "squad": squad, "ground": { "closed": closed } }));
        let blocks = answer["plan"]["blocks"].as_array().expect("it has blocks");
        assert!(blocks.iter().any(|block| block["reps"] != json!([])), "{text}");
        assert_eq!(answer["plan"]["not_read"], json!([]), "{text}");
    }
    assert!(page.contains("on the 200 m start line"), "a first visit shows a plan");
}

#[test]
fn a_link_carries_the_whole_evening() {
    let evening = json!({
        "text": "Tuesday\n6 x 200 in lane 2", "squad": "Ada, 200 28.9\nÉlan", "choices": [{ "block": 1, "from": "400 m start", "to": null }],
        "ground": { "track": null, "track_file": { "name": "own.yaml", "text": "name: ours" }, "closed": [1, 3] },
        "late": { "start": "18:30", "groups": [], "without": ["Ada"], "reps": [], "closed": [4], "hazards": [{ "hazard": "javelin", "since": "now" }], "wind": null, "skip": [2] },
    });
    let linked = asked("link", &json!({ "evening": evening, "page": "https://example.org/" }));
    let address = linked["address"].as_str().expect("it is text");
    let fragment = address.strip_prefix("https://example.org/#e=").expect("it stands behind the hash");
    assert!(fragment.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-_".contains(&byte)), "{fragment}");
    assert!(linked["code"].as_str().is_some_and(|code| code.starts_with("<svg")));
    assert_eq!(asked("open_link", &json!({ "fragment": fragment }))["evening"], evening);
    for fragment in ["", "x", "AAAA", &fragment[..fragment.len() / 2], "%%%"] {
        let reply = plan_desk::answer("open_link", &json!({ "fragment": fragment }).to_string());
        assert_eq!(reply.status, 422, "{fragment}");
    }
}

#[test]
fn every_place_that_is_offered_can_be_chosen() {
    for text in
        ["6 x 200 in lane 2", "150", "4 x 60 in lanes 3-6", "2 x 1000", "18:00-19:30\n3 x 300\n5 x 80"]
    {
        for block in 1..=2 {
            let evening = json!({ "text": text, "ground": { "closed": [1] } });
            let reply =
                plan_desk::answer("places", &json!({ "evening": evening, "block": block }).to_string());
            if block == 2 && !text.contains('\n') {
                assert_eq!(reply.status, 422);
                continue;
            }
            let answer: Value = serde_json::from_slice(&reply.body).expect("it is JSON");
            let html = answer["html"].as_str().expect("it is text");
            let offers: Vec<&str> = html.split("<button").skip(2).collect();
            assert!(!offers.is_empty(), "{text}: {html}");
            for offer in offers {
                let end = |name: &str| {
                    Some(offer.split(&format!("{name}=\"")).nth(1)?.split('"').next()?.to_owned())
                };
                let (from, to) = (end("data-from"), end("data-to"));
                assert!(from.is_some() != to.is_some(), "{offer}");
                let mut chosen = evening.clone();
                chosen["choices"] = json!([{ "block": block, "from": from, "to": to }]);
                let answer = asked("plan", &chosen);
                assert_eq!(answer["problems"], json!([]), "{text}: {offer}");
            }
        }
    }
}

#[test]
fn a_session_file_holds_the_whole_evening() {
    let track = include_str!("../../../sessions/wrenbeck/track.yaml");
    let evening = json!({
        "text": "Tuesday\n18:00-19:30\nwarm-up 15 min\nSprinters:\n- 4 x 60 in lanes 2-4\nMilers:\n- 3 x 600, 3 min\n- strides",
        "squad": "Sprinters:\nKit, 60 7.9\nLou\nDan\nMilers:\nMax, 800 2:10, 1500 4:30\nAda, 800 2:20",
        "ground": { "track_file": { "name": "wrenbeck.yaml", "text": track }, "closed": [2] },
        "choices": [{ "block": 2, "to": "finish line" }],
        "late": {
            "start": "18:10", "groups": [{ "group": "Milers", "begins": "18:30" }], "without": ["lou"], "closed": [4],
            "reps": [{ "name": "Ada", "reps": 2 }], "hazards": [{ "hazard": "gate", "since": "now" }],
            "wind": "3 m/s against on the home straight"
        }
    });
    let reply = plan_desk::answer("file", &json!({ "ending": "yaml", "evening": evening }).to_string());
    let yaml = String::from_utf8(reply.body).expect("it is text");
    assert_eq!(reply.status, 200, "{yaml}");
    for line in [
        "track: wrenbeck.yaml",
        "closed_lanes: [2, 4]",
        "start: 18:10",
        "    late: 18:30",
        "  gate: now",
        "  - Lou",
    ] {
        assert!(yaml.lines().any(|known| known == line), "{line} is not in\n{yaml}");
    }
    let again =
        json!({ "text": yaml, "ground": { "track_file": { "name": "wrenbeck.yaml", "text": track } } });
    let (first, again) = (plan(&evening), plan(&again));
    let blocks = first["plan"]["blocks"].as_array().map_or(0, Vec::len);
    assert_eq!(again["plan"]["blocks"].as_array().map(Vec::len), Some(blocks), "{yaml}");
    for block in 0..blocks {
        assert_eq!(reps(&again, block), reps(&first, block), "{yaml}");
    }
}

#[test]
fn the_track_stands_in_a_session_file_by_its_name() {
    let yaml = |ground: Value, text: &str| {
        let evening = json!({ "text": text, "ground": ground });
        let reply = plan_desk::answer("file", &json!({ "ending": "yaml", "evening": evening }).to_string());
        String::from_utf8(reply.body).expect("it is text")
    };
    assert!(!yaml(json!({ "track": "standard" }), "6 x 200").contains("track:"));
    assert!(yaml(json!({ "track": "indoor-200" }), "6 x 200").contains("track: indoor-200\n"));
    assert!(yaml(json!({}), "title: t\ntrack: oval-300\nblocks: [6 x 200]").contains("track: oval-300\n"));
}

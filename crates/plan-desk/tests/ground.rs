//! The form of somebody's own track, as the page asks for it.

use lane_distance::Track;
use lane_distance::spec::TrackSpec;
use serde_json::{Value, json};
use session_plan::Venue;
use workout_notation::SourceText;

const WRENBECK: &str = include_str!("../../../sessions/wrenbeck/track.yaml");

fn asked(request: &Value) -> Value {
    let reply = plan_desk::answer("ground_form", &request.to_string());
    let body = String::from_utf8(reply.body).expect("JSON is UTF-8");
    assert_eq!(reply.status, 200, "{body}");
    serde_json::from_str(&body).expect("it says that it is JSON")
}

fn of_file(text: &str) -> Value {
    asked(&json!({ "track_file": { "name": "track.yaml", "text": text } }))
}

fn text<'a>(answer: &'a Value, key: &str) -> &'a str {
    answer[key].as_str().expect("it is text")
}

fn venue(text: &str) -> Venue {
    Venue::read(&SourceText::new("track.yaml", text)).unwrap_or_else(|faults| panic!("{faults:?} in\n{text}"))
}

/// The form of a track with one value changed; `at` leads to it as JSON pointers do.
fn changed(file: &str, at: &str, value: &str) -> Value {
    let mut form = of_file(file)["form"].clone();
    *form.pointer_mut(at).unwrap_or_else(|| panic!("the form has {at}")) = json!(value);
    asked(&json!({ "track_file": { "name": "track.yaml", "text": file }, "form": form }))
}

#[test]
fn a_track_goes_through_its_form_and_stays_the_same() {
    let built_in = Track::built_in_names().map(|name| TrackSpec::built_in_text(name).expect("it has a text"));
    let more = "name: more\npath: [{ radius: 120 ft, turn: 180 }, { straight: 84.39 }, { radius: 120 ft, turn: 180 }, \
                { straight: 84.39 }]\nlanes: 2\nlane_width: [1.22, 4 ft]\nclosed_lanes: [2]\n\
                back_straight: { chute: 5 }\nhazards: [{ kind: gate, on: home straight, from: 9, to: 2, side: across, \
                hours: [18:00-19:00, 20:00-21:00] }]\nhouse_rules: { notes: ['no: spikes', '12'] }";
    for file in built_in.chain([WRENBECK, more]) {
        let answer = of_file(file);
        assert_eq!(answer["problems"], json!([]), "{answer}");
        let yaml = text(&answer, "yaml");
        assert_eq!(venue(yaml), venue(file), "{yaml}");
        assert!(text(&answer, "map").starts_with("<svg"));
        // What is made of the form alone is the same as well.
        let again =
            asked(&json!({ "track_file": { "name": "t.yaml", "text": file }, "form": answer["form"] }));
        assert_eq!((&again["form"], &again["yaml"]), (&answer["form"], &answer["yaml"]));
        assert_eq!(of_file(yaml)["form"], answer["form"]);
    }
}

#[test]
fn a_new_track_is_made_of_a_built_in_one() {
    let answer = asked(&json!({ "base": "oval-300" }));
    assert_eq!((&answer["problems"], &answer["file_name"]), (&json!([]), &json!("our-track.yaml")));
    let (own, built_in) = (venue(text(&answer, "yaml")), Track::built_in("oval-300").expect("it is one"));
    assert_eq!((own.track().name(), own.track().layout()), ("Our track", built_in.layout()));
    let reply = plan_desk::answer("ground_form", &json!({ "base": "moon" }).to_string());
    assert_eq!(reply.status, 422);
    let broken = json!({ "track_file": { "name": "t.yaml", "text": "name: [" } });
    assert_eq!(plan_desk::answer("ground_form", &broken.to_string()).status, 422);
}

#[test]
fn each_fault_stands_at_its_field() {
    for (at, value, field) in [
        ("/name", "", "name"),
        ("/timezone", "Europe/Londn", "timezone"),
        ("/radius", "short", "radius"),
        ("/radius", "-3", "radius"),
        ("/straight", "", "straight"),
        ("/inner_edge", "fence", "inner_edge"),
        ("/lanes", "six", "lanes"),
        ("/lanes", "", "lanes"),
        ("/lane_width", "1.22, x", "lane_width"),
        ("/home_straight/lanes", "99", "home_straight.lanes"),
        ("/home_straight/chute", "far", "home_straight.chute"),
        ("/bearing", "900", "bearing"),
        ("/closed_lanes/lanes", "1, 12", "closed_lanes.lanes"),
        ("/marks/worn/0/mark", "75 m strat", "marks.worn.0.mark"),
        ("/hazards/0/kind", "dragon", "hazards.0.kind"),
        ("/hazards/0/from", "", "hazards.0.from"),
        ("/hazards/0/hours", "late", "hazards.0.hours"),
        ("/hazards/1/side", "", "hazards.1.side"),
        ("/house_rules/lanes/1/up_to", "10", "house_rules.lanes.1.up_to"),
        ("/house_rules/lanes/0/lanes", "0", "house_rules.lanes.0.lanes"),
        ("/house_rules/direction", "backwards", "house_rules.direction"),
    ] {
        let answer = changed(WRENBECK, at, value);
        let problems = answer["problems"].as_array().expect("it is a list");
        let fields: Vec<&str> = problems.iter().map(|problem| text(problem, "field")).collect();
        assert!(fields.contains(&field), "{at} = {value}: {}", answer["problems"]);
        assert_eq!(answer["map"], Value::Null);
        // It is told under the field itself, which is described by it.
        let message = problems.iter().find(|problem| problem["field"] == field).expect("it was found");
        let html = text(&answer, "html");
        let told = html
            .split_once(&format!("id=\"ground-{field}-problems\""))
            .expect("the field has a place for it")
            .1;
        let told = told.split_once("</ul>").expect("it is a list").0;
        let escaped = text(message, "message").replace('\'', "&#39;").replace('"', "&#34;");
        assert!(told.contains(&escaped), "{escaped} is not in {told}");
    }
}

#[test]
fn what_no_field_holds_is_told_all_the_same() {
    let triangle = "name: t\npath: [{ radius: 40, turn: 120 }, { straight: 60 }, { radius: 40, turn: 120 }, { straight: 60 }, \
                    { radius: 40, turn: 120 }, { straight: 60 }]\nlanes: 4\nlane_width: 1.22\n";
    for (more, part) in [
        ("hazards: [{ kind: gate, on: back straight, from: 9, to: 2, side: inside }]", "hazards.0"),
        ("surveyed_lap: 100", ""),
        ("colour: blue", ""),
        ("marks: { own: [{ name: x, colour: red, form: tick }] }", "marks"),
        ("hazards: [tea]", "hazards"),
    ] {
        let answer = of_file(&format!("{triangle}{more}\n"));
        let problems = answer["problems"].as_array().expect("it is a list");
        assert!(!problems.is_empty(), "{more} is fine");
        for problem in problems {
            assert!(text(problem, "field").starts_with(part), "{problem}");
            let escaped = text(problem, "message").replace('\'', "&#39;").replace('"', "&#34;");
            assert!(text(&answer, "html").contains(&escaped), "{escaped} is not told");
        }
    }
}

#[test]
fn a_value_that_is_changed_changes_the_track() {
    let answer = changed(WRENBECK, "/lanes", "5");
    assert_eq!(answer["problems"], json!([]), "{answer}");
    assert_eq!(venue(text(&answer, "yaml")).track().layout().lanes_of(lane_distance::Course::Oval), 5);
    let answer = changed(WRENBECK, "/closed_lanes/lanes", "2 3");
    let venue = venue(text(&answer, "yaml"));
    let (closed, why) = venue.track().closed_because().expect("it is said");
    assert_eq!(
        (closed.iter().map(|lane| lane.get()).collect::<Vec<_>>(), why),
        (vec![2, 3], "kept for races")
    );
}

#[test]
fn lists_grow_and_shrink_and_shapes_change_there_and_back() {
    let file = json!({ "name": "track.yaml", "text": WRENBECK });
    let form = of_file(WRENBECK)["form"].clone();
    let edited =
        |form: &Value, edit: Value| asked(&json!({ "track_file": file, "form": form, "edit": edit }));
    for list in ["hazards", "marks.worn", "house_rules.lanes"] {
        let count = |answer: &Value| {
            let list = format!("/form/{}", list.replace('.', "/"));
            answer.pointer(&list).and_then(Value::as_array).map_or(0, Vec::len)
        };
        let before = count(&json!({ "form": form }));
        let more = edited(&form, json!({ "add": list }));
        assert_eq!(count(&more), before + 1);
        let fewer = edited(&more["form"], json!({ "remove": format!("{list}.{before}") }));
        assert_eq!(fewer["form"], form);
    }
    for nothing in
        [json!({ "add": "tea" }), json!({ "remove": "hazards.77" }), json!({ "remove": "hazards" })]
    {
        assert_eq!(edited(&form, nothing)["form"], form);
    }
    let mut pieces = form.clone();
    pieces["shape"] = json!("pieces");
    let pieces = asked(&json!({ "track_file": file, "form": pieces }));
    assert_eq!((&pieces["form"]["path"][1]["straight"], &pieces["problems"]), (&json!("84.39"), &json!([])));
    assert!(text(&pieces, "html").contains("name=\"path.3.straight\""));
    let mut oval = pieces["form"].clone();
    oval["shape"] = json!("oval");
    assert_eq!(asked(&json!({ "track_file": file, "form": oval }))["form"], form);
}

#[test]
fn keys_that_the_form_does_not_edit_are_kept() {
    let file = format!("{WRENBECK}\nsurveyed_lap: 400.02\ntolerances: {{ tape: 0.03 }}\n")
        .replace("marks:\n", "marks:\n  own: [{ name: gym door, colour: red, form: tick, to_finish: 77 }]\n");
    let answer = changed(&file, "/name", "Wrenbeck old track");
    assert_eq!(answer["problems"], json!([]), "{answer}");
    let (changed, before) = (venue(text(&answer, "yaml")), venue(&file));
    assert_eq!(changed.track().name(), "Wrenbeck old track");
    assert_eq!(changed.track().layout(), before.track().layout());
    assert_eq!(changed.track().marks(), before.track().marks());
    assert!(text(&answer, "yaml").contains("tolerances:"));
}

#[test]
fn every_field_has_its_label() {
    for answer in [of_file(WRENBECK), asked(&json!({ "base": "double-bend-1" }))] {
        let html = text(&answer, "html");
        let fields = html.split("name=\"").skip(1).map(|rest| rest.split_once('"').expect("it ends").0);
        let mut count = 0;
        for field in fields {
            let labelled = field == "marks.sets" || html.contains(&format!("<label for=\"ground-{field}\">"));
            assert!(labelled, "{field} has no label");
            count += 1;
        }
        assert!(count > 15, "{html}");
    }
}

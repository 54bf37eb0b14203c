//! `toeline schema`: what an editor accepts is what the program accepts.

use std::fs;
use std::path::{Path, PathBuf};

use crate::answer::{parsed, told};
use crate::folder::Folder;
use crate::run::toeline;
use jsonschema::Validator;
use serde_json::{Value, json};
use session_plan::Limit;
use snapbox::str;

fn schema(kind: &str) -> Validator {
    let schema = parsed(&toeline(&["schema", kind]).assert());
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    jsonschema::draft202012::new(&schema).expect("it is a schema")
}

/// A YAML text as JSON: names that are numbers become texts, as an editor reads them.
fn of_yaml(text: &str) -> Value {
    fn plain(value: serde_yaml::Value) -> Value {
        match value {
            serde_yaml::Value::Mapping(mapping) => {
                let name = |name: serde_yaml::Value| match name {
                    serde_yaml::Value::String(name) => name,
                    name => plain(name).to_string(),
                };
                Value::Object(mapping.into_iter().map(|(key, value)| (name(key), plain(value))).collect())
            }
            serde_yaml::Value::Sequence(items) => Value::Array(items.into_iter().map(plain).collect()),
            value => serde_json::to_value(value).expect("a scalar has JSON"),
        }
    }
    plain(serde_yaml::from_str(text).expect("it is YAML"))
}

fn faults(schema: &Validator, value: &Value) -> Vec<String> {
    schema.iter_errors(value).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

fn yaml_files(folder: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let entries = fs::read_dir(folder).expect("the folder is there");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("it can be read").path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    files.sort();
    files
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[test]
fn every_track_file_of_the_repository_fits() {
    let schema = schema("track");
    let mut files = yaml_files("crates/lane-distance/tracks");
    assert!(files.len() >= 8, "{files:?}");
    files.push(Path::new(env!("CARGO_MANIFEST_DIR")).join("sessions/wrenbeck/track.yaml"));
    for path in files {
        assert_eq!(faults(&schema, &of_yaml(&text(&path))), [""; 0], "{}", path.display());
    }
}

#[test]
fn every_session_file_of_the_demonstration_fits() {
    let schema = schema("session");
    let files = yaml_files("sessions/wrenbeck");
    let sessions = files.iter().filter(|path| !path.ends_with("track.yaml"));
    assert_eq!(sessions.clone().count(), 8);
    for path in sessions {
        assert_eq!(faults(&schema, &of_yaml(&text(path))), [""; 0], "{}", path.display());
    }
}

/// Files with one thing changed: the schema refuses them, and so does the program.
#[test]
fn what_the_schema_refuses_the_program_refuses_too() {
    let folder = Folder::new();
    let track = text(Path::new("sessions/wrenbeck/track.yaml"));
    let session = text(Path::new("sessions/wrenbeck/monday-two-groups.yaml"));
    let session = session.replace("track: track.yaml", "track: standard-6");
    let cases = [
        ("track", &track, "lane_width:", "lane_widht:"),
        ("track", &track, "house_rules:", "house_rule:"),
        ("track", &track, "timezone:", "time_zone:"),
        ("track", &track, "infield_crossing:", "infield:"),
        ("track", &track, "hours: 18:30-20:00", "hour: 18:30-20:00"),
        ("track", &track, "hours: 18:30-20:00", "hours: evening"),
        ("track", &track, "Europe/London", "Europe/Londn"),
        ("track", &track, "kind: gate", "kind: door"),
        ("track", &track, "inner_edge: kerb", "inner_edge: curb"),
        ("track", &track, "lane_width: 1.22", "lane_width: 4 furlongs"),
        ("track", &track, "lanes: 6\n", "lanes: six\n"),
        ("session", &session, "between_blocks:", "between_block:"),
        ("session", &session, "between_blocks: 6min", "squad: { timers: three }"),
        ("session", &session, "athletes:", "athlete:"),
        ("session", &session, "[Ada,", "[{ nam: Ada },"),
        ("session", &session, "hours: 18:00-19:30", "hours: 18 to 19:30"),
        ("session", &session, "between_blocks: 6min", "page: monday.html"),
        ("session", &session, "title: Two groups, Monday", "subtitle: Two groups, Monday"),
    ];
    for (kind, right, from, to) in cases {
        let wrong = right.replacen(from, to, 1);
        assert_ne!(&wrong, right, "{from} is in the file");
        assert_eq!(faults(&schema(kind), &of_yaml(right)), [""; 0]);
        assert!(!schema(kind).is_valid(&of_yaml(&wrong)), "the schema accepts {to}");
        folder.write("x.yaml", &wrong);
        folder.toeline(&["check", "x.yaml"]).assert().code(2);
        folder.write("x.yaml", right);
        folder.toeline(&["check", "x.yaml"]).assert().success();
    }
}

#[test]
fn keys_that_the_geometry_does_not_know_are_suggested_too() {
    let folder = Folder::new();
    let track = text(Path::new("sessions/wrenbeck/track.yaml"));
    for (right, wrong) in [("timezone", "time_zone"), ("house_rules", "house_rule"), ("hours", "hour")] {
        let track = track.replacen(&format!("{right}:"), &format!("{wrong}:"), 1);
        folder.write("x.yaml", track);
        let told = told(&folder.toeline(&["check", "x.yaml"]).assert().code(2));
        assert!(told.contains(&format!("help: did you mean `{right}`?")), "{told}");
    }
}

/// Forms that the program reads, and that none of the files above need.
#[test]
fn what_the_program_reads_the_schema_accepts() {
    let folder = Folder::new();
    let track =
        "{ name: a, path: [{ radius: 36.50 m, turn: 180 }, { straight: 84.39 }, { radius: 36.5, turn: 180 },
        { straight: 84.39 }], lanes: 2, lane_width: [1.22, 4 ft], closed_lanes: [2], timezone: Asia/Tokyo,
        hazards: [{ kind: gate, from: 30, to: 26, side: outside, hours: [08:00-09:00, 17:00-18:00] }] }";
    let session = "{ title: a, stride: 0.85, prefer: finish on the line, bests: { 400: 56.2, mile: 4:50, 5k: 17min },
        riegel_exponent: 1.07, between_blocks: 300, page: \"https://example.org/a?b=c\",
        squad: { mode: one to a lane, most: 3, timers: two, timing_gap: 10s }, groups: [{ name: b, athletes: [{ name: c, bests: { 800: 2:08 },
        target: 32, lanes: [2] }, d], lanes: [2, 3], blocks: [6 x 200] }] }";
    for (kind, text) in [("track", track), ("session", session)] {
        assert_eq!(faults(&schema(kind), &of_yaml(text)), [""; 0]);
        folder.write("x.yaml", text);
        folder.toeline(&["check", "x.yaml"]).assert().success();
    }
}

#[test]
fn each_limit_is_written_in_the_schemas() {
    for kind in ["session", "track"] {
        let schema = parsed(&toeline(&["schema", kind]).assert());
        let comment = schema["$comment"].as_str().expect("it is text");
        let limits: Vec<&str> =
            comment.trim_start_matches("At most: ").trim_end_matches('.').split("; ").collect();
        let known = Limit::ALL.map(|limit| format!("{} {}", limit.most(), limit.words()));
        assert_eq!(limits, known, "{kind}");
    }
}

/// Lists and names as long as they may be, and longer by one: schema and program agree on where the limit is.
#[test]
fn the_schema_and_the_program_have_the_same_limits() {
    let folder = Folder::new();
    let track = of_yaml(&text(Path::new("crates/lane-distance/tracks/standard.yaml")));
    let session = json!({ "title": "T", "groups": [{ "name": "g", "athletes": ["a"] }], "blocks": ["200"] });
    let numbered = |count: usize, of: &dyn Fn(usize) -> Value| Value::Array((0..count).map(of).collect());
    let name = |count: usize| Value::from("n".repeat(count));
    let list = |item: Value| move |count: usize| Value::Array(vec![item.clone(); count]);
    let own = |number| json!({ "name": format!("m{number}"), "colour": "red", "form": "tick", "for": "x", "to_finish": 50 });
    type SoMany<'a> = &'a dyn Fn(usize) -> Value;
    let cases: [(&str, &Value, &str, Limit, SoMany<'_>); 13] = [
        ("session", &session, "/title", Limit::NameLetters, &name),
        ("session", &session, "/notes", Limit::Items, &list(json!("n"))),
        ("session", &session, "/blocks", Limit::BlockLines, &list(json!("drills"))),
        ("session", &session, "/groups", Limit::Groups, &|count| {
            numbered(count, &|number| json!({ "name": format!("g{number}") }))
        }),
        ("session", &session, "/groups/0/name", Limit::NameLetters, &name),
        ("session", &session, "/groups/0/athletes", Limit::Athletes, &|count| {
            numbered(count, &|number| format!("a{number}").into())
        }),
        ("session", &session, "/groups/0/athletes/0", Limit::NameLetters, &name),
        (
            "session",
            &session,
            "/groups/0/athletes/0",
            Limit::NameLetters,
            &|count| json!({ "name": name(count) }),
        ),
        ("track", &track, "/name", Limit::NameLetters, &name),
        ("track", &track, "/path", Limit::Pieces, &list(json!({ "straight": 8 }))),
        (
            "track",
            &track,
            "/hazards",
            Limit::Hazards,
            &list(json!({ "kind": "gate", "from": 30, "to": 26, "side": "outside" })),
        ),
        ("track", &track, "/marks/own", Limit::Marks, &|count| numbered(count, &own)),
        ("track", &track, "/marks/worn", Limit::WornMarks, &list(json!({ "mark": "200 m start" }))),
    ];
    for (kind, file, at, limit, so_many) in cases {
        let refusals = |count: usize| {
            let (above, key) = at.rsplit_once('/').expect("it is a pointer");
            let mut file = file.clone();
            let above = file.pointer_mut(above).expect("it is there");
            match above {
                Value::Array(items) => items[0] = so_many(count),
                above => above[key] = so_many(count),
            }
            folder.write("x.yaml", file.to_string());
            (faults(&schema(kind), &file), told(&folder.toeline(&["check", "x.yaml"]).assert()))
        };
        let refusal = format!("error: too many {}: at most {}\n", limit.words(), limit.most());
        let (of_schema, of_program) = refusals(limit.most());
        assert_eq!(of_schema, [""; 0], "{kind} {at}");
        assert!(!of_program.contains("error: too many "), "{kind} {at}: {of_program}");
        let (of_schema, of_program) = refusals(limit.most() + 1);
        assert!(!of_schema.is_empty(), "{kind} {at}");
        assert!(of_program.contains(&refusal), "{kind} {at}: {of_program}");
    }
}

#[test]
fn another_kind_of_file_has_no_schema() {
    toeline(&["schema", "shoe"]).assert().code(2).stdout_eq(str![]);
}

//! Random evenings: every form of the notation, alone and joined, with hours, groups, athletes, squads and dates, on
//! tracks with closed lanes, hazards and rules. No plan, in any view, may panic or say what cannot be.
//!
//! `TOELINE_EVENINGS` says how many; without it they are few, and the same each time.

use std::cell::Cell;
use std::collections::BTreeMap;

use chrono::{NaiveTime, Utc};
use lane_distance::Track;
use plan_sheet::{FORMATS, RenderError, RenderSettings, View};
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;
use proptest::sample::{Index, select, subsequence};
use proptest::test_runner::{Config, RngAlgorithm, TestError, TestRng, TestRunner};
use serde_json::{Value, json};
use session_plan::{LaneClosure, LateFault, Plan, Session, SessionFile, Venue, Week};
use workout_notation::{Block, SourceText, notation};

/// An evening as it is written: a track, a session, the lanes closed on the day, and who stays away or what else
/// changes late.
#[derive(Clone, Debug)]
pub(crate) struct Evening {
    track: Value,
    session: Value,
    closed: Vec<u8>,
    absent: Option<Index>,
    /// Whether it is set on paper too, which takes long.
    is_printed: bool,
}

/// What is done to an example of the notation to make another workout of it.
#[derive(Clone, Debug)]
enum Change {
    /// The end of another example follows, from one of its words on.
    Clause(&'static str, Index),
    /// Another example follows as a further run.
    Run(&'static str),
    /// All of it is run so often.
    Sets(u8),
    /// One of its numbers is another.
    Number(Index, u16),
}

/// The workout that a change makes of another, where that can be read.
fn changed(text: String, change: &Change) -> String {
    let words = |text: &'static str| text.split(' ').collect::<Vec<_>>();
    let longer = match change {
        Change::Clause(example, from) => {
            let words = words(example);
            format!("{text} {}", words[from.index(words.len())..].join(" "))
        }
        Change::Run(example) => format!("{text} + {example}"),
        Change::Sets(count) => format!("{count} x ({text})"),
        Change::Number(which, number) => {
            let starts = text.char_indices().filter(|(at, letter)| {
                letter.is_ascii_digit() && !text[..*at].ends_with(|before: char| before.is_ascii_digit())
            });
            let starts: Vec<usize> = starts.map(|(at, _)| at).collect();
            let Some(&at) = starts.get(which.index(starts.len().max(1))) else { return text };
            format!(
                "{}{number}{}",
                &text[..at],
                text[at..].trim_start_matches(|letter: char| letter.is_ascii_digit())
            )
        }
    };
    // So many runs take no longer than an evening.
    let is_read = Block::parse(&longer).is_ok_and(|block| block.count() <= 40);
    if is_read { longer } else { text }
}

fn example() -> impl Strategy<Value = &'static str> {
    select(notation().flat_map(|form| form.examples).copied().collect::<Vec<_>>())
}

fn workout() -> impl Strategy<Value = String> {
    let number = prop_oneof![2..10u16, 10..100u16, 100..3000u16];
    let change = prop_oneof![
        4 => (example(), any::<Index>()).prop_map(|(example, from)| Change::Clause(example, from)),
        1 => example().prop_map(Change::Run),
        1 => (1..6u8).prop_map(Change::Sets),
        2 => (any::<Index>(), number).prop_map(|(which, number)| Change::Number(which, number)),
    ];
    (example(), vec(change, 0..5))
        .prop_map(|(example, changes)| changes.iter().fold(example.to_owned(), changed))
}

/// Names as they are, and as nobody should write them.
fn name() -> impl Strategy<Value = String> {
    prop_oneof![
        6 => "[A-Z][a-z]{1,9}",
        1 => "[A-Za-z ,;&<>'\"#*_|`=+@$\\\\/-]{1,60}",
        1 => "\\PC{1,30}",
        // What a terminal, a page, a table or a calendar would obey.
        1 => "([A-C=+@]|[\u{0}-\u{1f}]|[\u{7f}-\u{9f}]|[\u{200b}-\u{200f}]|[\u{2028}-\u{202e}]|[\u{2066}-\u{2069}]|\u{feff}|\u{1b}\\]0;x\u{7}){1,12}",
    ]
}

fn bests() -> impl Strategy<Value = Value> {
    let best =
        select(vec![(100, 13.2), (200, 27.5), (400, 62.0), (800, 140.5), (1500, 290.0), (5000, 1080.0)]);
    vec(best, 0..3)
        .prop_map(|bests| bests.into_iter().map(|(metres, time)| (metres.to_string(), json!(time))).collect())
}

fn lanes() -> impl Strategy<Value = Vec<u8>> {
    subsequence((1..=9).collect::<Vec<u8>>(), 0..6).prop_shuffle()
}

fn athletes() -> impl Strategy<Value = Vec<Value>> {
    let athlete = (name(), of(5.0..200.0), of(bests()), of(lanes()));
    let athlete = athlete.prop_map(|(name, target, bests, lanes)| {
        json!({ "name": name, "target": target, "bests": bests, "lanes": lanes.filter(|lanes| lanes.len() > 2) })
    });
    let many = (9..41usize).prop_map(|count| (1..=count).map(|number| json!(number)).collect());
    prop_oneof![20 => vec(athlete, 0..7), 1 => many]
}

fn squad() -> impl Strategy<Value = Value> {
    (
        of(select(vec!["one to a lane", "a group to a lane"])),
        of(1..9u8),
        of(lanes()),
        of(0.0..30.0),
        of(0.0..30.0),
        of(select(vec!["one", "two", "untimed"])),
    )
        .prop_map(|(mode, most, lanes, timing_gap, start_gap, timers)| {
            let lanes = lanes.filter(|lanes| !lanes.is_empty());
            json!({ "mode": mode, "most": most, "lanes": lanes, "timing_gap": timing_gap, "start_gap": start_gap, "timers": timers })
        })
}

fn session() -> impl Strategy<Value = Value> {
    let team = of(subsequence((0..7).collect::<Vec<usize>>(), 2..5).prop_shuffle());
    let group = (name(), athletes(), of(bests()), of(lanes()), of(vec(workout(), 1..3)), team);
    let group = group.prop_map(|(name, athletes, bests, lanes, blocks, team)| {
        let lanes = lanes.filter(|lanes| lanes.len() > 2);
        let called = |athlete: &Value| athlete.get("name").unwrap_or(athlete).clone();
        let team: Vec<Value> = (team.iter().flatten()).filter_map(|&place| athletes.get(place)).map(called).collect();
        let relay: Vec<Vec<Value>> = if team.len() > 1 { vec![team] } else { Vec::new() };
        json!({ "name": name, "athletes": athletes, "bests": bests, "lanes": lanes, "blocks": blocks, "relay": relay })
    });
    let date = (2024..2030u16, 1..13u8, 1..29u8)
        .prop_map(|(year, month, day)| format!("{year}-{month:02}-{day:02}"));
    let hours = (6..22u8, 0..60u8, 1..2u8)
        .prop_map(|(hour, minute, lasts)| format!("{hour:02}:{minute:02}-{:02}:{minute:02}", hour + lasts));
    let prefer = select(vec!["fewest tapes", "finish on the line", "ends close together"]);
    let about =
        (name(), of(date), of(hours), of(name()), of(prefer), of(0.5..1.2), of(0..1200u16), of(bests()));
    (about, of(squad()), vec(name(), 0..2), vec(group, 0..4), vec(workout(), 1..5)).prop_map(|(about, squad, notes, groups, blocks)| {
        let (title, date, hours, wind, prefer, stride, between_blocks, bests) = about;
        json!({
            "title": title, "date": date, "hours": hours, "wind": wind, "prefer": prefer, "stride": stride,
            "between_blocks": between_blocks, "bests": bests, "squad": squad, "notes": notes, "groups": groups,
            // Times out of a hat are often such as nobody has run.
            "blocks": blocks, "force": true,
        })
    })
}

/// A built-in track by its name, or a track file.
fn track() -> impl Strategy<Value = Value> {
    let kinds = [
        "javelin runway",
        "cage sector",
        "water jump",
        "long-jump pit",
        "kerb edge",
        "gate",
        "closed stretch",
    ];
    let hazard = (
        select(kinds.to_vec()),
        0..390u16,
        1..60u16,
        select(vec!["inside", "outside"]),
        of(lanes()),
        of(17..20u8),
    );
    let hazard = hazard.prop_map(|(kind, to, long, side, lanes, from_hour)| {
        let lanes = lanes.filter(|lanes| !lanes.is_empty());
        let hours = from_hour.map(|hour| format!("{hour}:00-{}:30", hour + 1));
        json!({ "kind": kind, "from": to + long, "to": to, "side": side, "lanes": lanes, "hours": hours })
    });
    let own = (
        4..10u8,
        any::<bool>(),
        vec(hazard, 0..3),
        lanes(),
        of(Just("Europe/London")),
        any::<bool>(),
        of(0..360u16),
    );
    let own = own.prop_map(|(count, has_kerb, hazards, closed, timezone, has_rules, bearing)| {
        let rules = json!({
            "lanes": [{ "from": 120, "up_to": 400, "lanes": [2, 3, 4] }, { "of": "recoveries", "lanes": [4] }],
            "direction": "straights either way", "infield_crossing": "forbidden",
        });
        let closed: Vec<u8> = closed.into_iter().filter(|lane| *lane < count).take(2).collect();
        json!({
            "name": "Ground", "lanes": count, "lane_width": 1.22, "inner_edge": if has_kerb { "kerb" } else { "line" },
            "path": [{ "radius": 36.5, "turn": 180 }, { "straight": 84.39 }, { "radius": 36.5, "turn": 180 }, { "straight": 84.39 }],
            "home_straight": { "chute": 28.61 }, "hazards": hazards, "timezone": timezone, "bearing": bearing,
            "closed_lanes": (!closed.is_empty()).then(|| json!({ "lanes": closed, "reason": "kept for races" })),
            "house_rules": has_rules.then_some(rules),
        })
    });
    let built_in = select(Track::built_in_names().map(|name| json!(name)).collect::<Vec<_>>());
    prop_oneof![built_in, own]
}

pub(crate) fn evening() -> impl Strategy<Value = Evening> {
    let closed = prop_oneof![2 => Just(Vec::new()), 1 => vec(1..4u8, 1..3)];
    let is_printed = prop::bool::weighted(0.05);
    (track(), session(), closed, of(any::<Index>()), is_printed).prop_map(
        |(track, session, closed, absent, is_printed)| Evening {
            track,
            session: given(session),
            closed,
            absent,
            is_printed,
        },
    )
}

/// Without the keys that have no value.
fn given(value: Value) -> Value {
    match value {
        Value::Object(map) => map
            .into_iter()
            .filter(|(_, value)| !value.is_null())
            .map(|(key, value)| (key, given(value)))
            .collect(),
        Value::Array(list) => list.into_iter().map(given).collect(),
        value => value,
    }
}

fn source(value: Value) -> SourceText {
    SourceText::new("evening.yaml", &given(value).to_string())
}

/// Makes some late changes, each where it can be made: who is alone cannot be left out.
fn make_late(session: &mut Session, venue: &Venue, plan: &Plan, (names, chosen): (&[String], Index)) {
    let begins = session.hours.map(|hours| hours.from + (hours.to - hours.from) / 3);
    let first = session.groups.first().map(|group| group.name.clone());
    let mut make = |number: usize, change: &dyn Fn(&mut Session) -> Result<(), LateFault>| {
        let mut changed = session.clone();
        if chosen.index(128) & (1 << number) != 0 && change(&mut changed).is_ok() {
            *session = changed;
        }
    };
    make(0, &|session| session.leave_out(&names[chosen.index(names.len())]));
    make(1, &|session| session.do_fewer(&[(names[0].clone(), 1)]));
    make(2, &|session| session.close_lanes(venue, &[3, 4]));
    make(3, &|session| session.skip_blocks(plan, &[1]));
    make(4, &|session| begins.map_or(Ok(()), |begins| session.start_at(begins)));
    make(5, &|session| match begins.zip(first.clone()) {
        Some((begins, first)) => session.come_late(&[(first, begins)]),
        None => Ok(()),
    });
    let closure = LaneClosure { lanes: vec![2, 5], from: begins, until: None };
    make(6, &|session| session.close_for(venue, std::slice::from_ref(&closure)));
}

/// The plan of an evening, without the blocks that its track refuses; nothing where all are.
pub(crate) fn planned(evening: &Evening) -> Option<Plan> {
    let venue = match evening.track.as_str() {
        Some(name) => Track::built_in(name).expect("it is built in").into(),
        None => Venue::read(&source(evening.track.clone())).map_err(|problems| problems.to_string()).ok()?,
    };
    let venue = venue.with_closed(&evening.closed).map_err(|error| error.to_string()).ok()?;
    let mut written = evening.session.clone();
    loop {
        let mut file =
            SessionFile::read(source(written.clone())).map_err(|problems| problems.to_string()).ok()?;
        match session_plan::plan(&venue, &file.session) {
            Ok(plan) => {
                let names: Vec<String> = file
                    .session
                    .groups
                    .iter()
                    .flat_map(|group| &group.athletes)
                    .map(|one| one.name.clone())
                    .collect();
                let Some(absent) = evening.absent.filter(|_| !names.is_empty()) else { return Some(plan) };
                make_late(&mut file.session, &venue, &plan, (&names, absent));
                let again = session_plan::plan(&venue, &file.session);
                return Some(again.map_err(|errors| file.locate(errors).to_string()).unwrap_or(plan));
            }
            Err(errors) => {
                let first = errors.first().expect("a refusal has a reason");
                let blocks = match first.at.group {
                    Some(group) if written["groups"][group]["blocks"].is_array() => {
                        &mut written["groups"][group]["blocks"]
                    }
                    _ => &mut written["blocks"],
                };
                let blocks = blocks.as_array_mut().expect("there are blocks");
                // Where nothing is left, a run that fits on most tracks.
                match blocks.as_mut_slice() {
                    [only] if *only == "60" => return None,
                    [only] => *only = json!("60"),
                    // An item can hold several blocks, which have the later numbers.
                    items => {
                        let item = first.at.block.min(items.len() - 1);
                        drop(blocks.remove(item));
                    }
                }
                let _ = file.locate(errors).to_string();
            }
        }
    }
}

/// Renders every view of some answers.
fn render<V: View>(answers: &[V], plans: &[Plan], is_printed: bool) -> Result<(), TestCaseError> {
    let settings = RenderSettings { now: Utc::now(), ..RenderSettings::default() };
    for format in FORMATS {
        if matches!(format.ending, "pdf" | "png") && !is_printed {
            continue;
        }
        let rendered = match format.render(answers, Some(plans), &settings) {
            Err(RenderError::Mistake(mistake)) => return Err(TestCaseError::fail(mistake)),
            Err(_) => continue,
            Ok(rendered) => rendered,
        };
        if !matches!(format.ending, "pdf" | "png") {
            let text = String::from_utf8(rendered.files.concat()).expect("it is UTF-8");
            check_text(
                format.ending,
                &if format.has_terminal_codes() { without_styles(&text) } else { text },
            )?;
        }
    }
    Ok(())
}

/// A text without its colours and bold type: of a terminal's codes no others may be there.
fn without_styles(text: &str) -> String {
    let mut parts = text.split("\u{1b}[");
    let mut plain = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let rest = part.trim_start_matches(|letter: char| letter.is_ascii_digit() || letter == ';');
        match rest.strip_prefix('m') {
            Some(rest) => plain.push_str(rest),
            None => plain.extend(["\u{1b}[", part]),
        }
    }
    plain
}

/// No number of a view is none, and no letter of a text moves the cursor or turns the direction of writing.
fn check_text(ending: &str, text: &str) -> Result<(), TestCaseError> {
    // A calendar folds its lines within words.
    let whole = text.replace("\r\n ", "");
    let none =
        whole.split(|letter: char| !letter.is_alphanumeric()).find(|word| matches!(*word, "NaN" | "inf"));
    prop_assert_eq!(none, None, "{}: {}", ending, text);
    // The ends of lines; those of a table and of a calendar are `\r\n`.
    let lines = if matches!(ending, "csv" | "ics") { text.replace("\r\n", "\n") } else { text.to_owned() };
    let turns = ['\u{61c}', '\u{200e}', '\u{200f}'];
    let hidden = lines.chars().find(|letter| {
        letter.is_control() && *letter != '\n'
            || turns.contains(letter)
            || matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    });
    prop_assert_eq!(hidden, None, "{}: {}", ending, text);
    if ending == "ics" {
        let longest = text.split("\r\n").map(str::len).max();
        prop_assert!(longest <= Some(75), "{:?} octets: {}", longest, text);
    }
    Ok(())
}

/// Nobody runs in a lane while it is closed.
fn check_closures(plan: &Plan) -> Result<(), TestCaseError> {
    let Some(begins) = plan.begins else { return Ok(()) };
    let seconds = |time: NaiveTime| (time - begins).num_seconds() as f64;
    for change in &plan.changes {
        let session_plan::Change::Closed { lanes, from, until, .. } = change else { continue };
        let from_s = from.map_or(f64::NEG_INFINITY, seconds);
        let until_s = until.map_or(f64::INFINITY, seconds);
        for rep in plan.blocks.iter().flat_map(|block| &block.reps) {
            if let (Some(go_s), Some(done_s)) = (rep.go_s, rep.done_s) {
                let is_there = lanes.contains(&rep.lane) && go_s < until_s && done_s > from_s;
                prop_assert!(!is_there, "somebody runs in {} from {} s to {} s", rep.lane, go_s, done_s);
            }
        }
    }
    Ok(())
}

/// The JSON of a plan: what must be a number is one, and nobody goes before they are done.
fn check_json(plan: &Plan) -> Result<(), TestCaseError> {
    let plan: Value = serde_json::from_str(&plan.json().expect("it can be written")).expect("it can be read");
    plan["blocks"].as_array().into_iter().flatten().try_for_each(check_ways)?;
    // For each athlete when the run before the last was done, and the last: which it is, and when it is done.
    let mut done: BTreeMap<String, (f64, (usize, &Value), f64)> = BTreeMap::new();
    let blocks = plan["blocks"].as_array().into_iter().flatten().enumerate();
    let reps = blocks.flat_map(|(block, value)| {
        value["reps"].as_array().into_iter().flatten().map(move |rep| (block, rep))
    });
    for (block, rep) in reps {
        for spot in [&rep["start"], &rep["finish"]] {
            for key in ["x_m", "y_m", "from_finish_line_m", "to_finish_line_m", "past_mark_m", "tape_m"] {
                prop_assert!(spot.is_null() || spot[key].is_number(), "{}: {}", key, rep);
            }
        }
        let (Some(go_s), Some(done_s)) = (rep["go_s"].as_f64(), rep["done_s"].as_f64()) else { continue };
        prop_assert!(go_s < done_s, "{}", rep);
        for athlete in rep["athletes"].as_array().into_iter().flatten().filter_map(Value::as_str) {
            let run = (block, &rep["rep"]);
            let before = match done.get(athlete) {
                // Whoever is not told a lane has the run in each.
                Some((before, last, _)) if *last == run => *before,
                Some((.., last_done)) => *last_done,
                None => f64::NEG_INFINITY,
            };
            prop_assert!(before <= go_s + 1e-6, "{} is still running: {} {}", athlete, before, rep);
            done.insert(athlete.to_owned(), (before, run, done_s));
        }
    }
    Ok(())
}

/// What is said of the way to the next start holds for a lane in which somebody runs. Groups that start together are all soon
/// on the inside.
fn check_ways(block: &Value) -> Result<(), TestCaseError> {
    let list = |key: &str| block[key].as_array().into_iter().flatten();
    if list("reps").next().is_none() || block["text"].as_str().is_some_and(|text| text.contains("together")) {
        return Ok(());
    }
    let kinds = ["rest too short to walk", "rest too short to go on", "walk back"];
    for finding in list("findings").filter(|finding| kinds.iter().any(|kind| finding["kind"] == *kind)) {
        let is_run_in = list("reps").any(|rep| rep["lane"] == finding["lane"]);
        prop_assert!(is_run_in, "nobody runs there: {} of {}", finding, block["text"]);
    }
    Ok(())
}

/// Plans evenings and renders every view of each: a share of those asked for, else a few from a seed.
fn check_evenings(seed: u8) {
    let asked: Option<u32> =
        std::env::var("TOELINE_EVENINGS").ok().map(|count| count.parse().expect("a count"));
    let cases = asked.map_or(USUAL, |count| count.div_ceil(SHARES));
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    let mut runner = match asked {
        Some(_) => TestRunner::new(config),
        None => TestRunner::new_with_rng(config, TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32])),
    };
    let (tried, made, printed) = (Cell::new(0), Cell::new(0), Cell::new(0));
    let result = runner.run(&evening(), |evening| {
        tried.set(tried.get() + 1);
        let Some(plan) = planned(&evening) else { return Ok(()) };
        made.set(made.get() + 1);
        printed.set(printed.get() + u32::from(evening.is_printed));
        check(plan, evening.is_printed)
    });
    if let Err(TestError::Fail(why, evening)) = result {
        panic!(
            "{why}\non the track {}\nclosed {:?}, absent {:?}\n{:#}",
            evening.track, evening.closed, evening.absent, evening.session
        );
    }
    assert!(made.get() * 2 > tried.get(), "{} of {} evenings could be planned", made.get(), tried.get());
    assert!(printed.get() > 0, "no evening was set on paper");
}

/// Checks a plan, and renders every view of it.
fn check(plan: Plan, is_printed: bool) -> Result<(), TestCaseError> {
    check_json(&plan)?;
    check_closures(&plan)?;
    let plans = [plan];
    render(&plans, &plans, is_printed)?;
    render(&[Week::of(&plans)], &plans, false)
}

/// How many tests share the evenings, so that several cores work on them.
const SHARES: u32 = 2;

/// How many evenings each of them makes where nobody asks for more.
const USUAL: u32 = 100;

#[test]
fn no_plan_in_any_view_panics() {
    check_evenings(1);
}

#[test]
fn no_plan_of_further_evenings_panics() {
    check_evenings(3);
}

#[test]
fn each_form_is_shown_in_each_view() {
    for form in notation() {
        let is_planned = |example: &&&str| {
            let athletes =
                ["Ada", "Ben", "Cleo"].map(|name| json!({ "name": name, "bests": { "1500": 280 } }));
            let session = json!({
                "title": "Evening", "hours": "18:00-20:00", "blocks": [*example], "force": true,
                "groups": [{ "name": "milers", "athletes": athletes }],
            });
            let track = json!("standard");
            let evening = Evening { track, session, closed: Vec::new(), absent: None, is_printed: false };
            let Some(plan) = planned(&evening) else { return false };
            let is_theirs = plan.blocks.iter().all(|block| example.contains(block.text().trim()));
            check(plan, false).unwrap_or_else(|error| panic!("{example}: {error}"));
            is_theirs
        };
        // Some examples ask for what this evening does not have.
        let planned = form.examples.iter().filter(is_planned).count();
        assert!(planned > 0, "none of {:?} could be planned", form.examples);
    }
}

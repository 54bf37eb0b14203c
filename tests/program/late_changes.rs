//! Late changes on the demonstration: what changed in the first line, the rest as before.

use serde_json::Value;
use snapbox::str;

use crate::answer::{json, list, number, parsed, printed, texts, told};
use crate::folder::Folder;
use crate::run::toeline;

pub(crate) const TUESDAY: &str = "sessions/wrenbeck/tuesday-sprints.yaml";
const MONDAY: &str = "sessions/wrenbeck/monday-two-groups.yaml";

/// The plan of a session after a late change, as it is printed.
fn text(session: &str, change: &[&str]) -> String {
    printed(&toeline(&[&["plan", session], change].concat()).assert().success())
}

/// The same as JSON.
pub(crate) fn plan(session: &str, change: &[&str]) -> Value {
    json(&[&["plan", session], change].concat())
}

/// The first line of a plan, however it is broken.
fn first_line(text: &str) -> String {
    text.lines().take_while(|line| !line.is_empty()).collect::<Vec<_>>().join(" ")
}

/// Each run of a plan by its block, number, athlete: its lane, start time and place.
pub(crate) fn runs(plan: &Value) -> Vec<(String, u64, String, u64, f64, String)> {
    let of_block = |block: &Value| {
        let of_rep = |rep: &Value| {
            list(&rep["athletes"])
                .iter()
                .map(|name| {
                    let number_of = |key: &str| rep[key].as_u64().expect("it is a number");
                    let start = rep["start"]["words"].to_string();
                    let (block, name) = (block["text"].to_string(), name.to_string());
                    (block, number_of("rep"), name, number_of("lane"), number(&rep["go_s"]), start)
                })
                .collect::<Vec<_>>()
        };
        list(&block["reps"]).iter().flat_map(of_rep).collect::<Vec<_>>()
    };
    list(&plan["blocks"]).iter().flat_map(of_block).collect()
}

/// Everything that is wrong with a change, on standard error.
fn refused(session: &str, change: &[&str]) -> String {
    told(&toeline(&[&["plan", session], change].concat()).assert().code(2))
}

#[test]
fn every_late_change_stands_in_the_first_line() {
    for (change, says) in [
        (["--start", "18:10"], "Changed: start at 18:10."),
        (["--start", "6.10pm"], "Changed: start at 18:10."),
        (["--late", "Sprinters=18:10"], "Changed: sprinters from 18:10."),
        (["--without", " ada "], "Changed: without Ada."),
        (["--without", "ada, BELA"], "Changed: without Ada and Bela."),
        (["--late", "ada=18:20"], "Changed: Ada from 18:20."),
        (["--reps", "BELA=3"], "Changed: Bela does 3 reps."),
        (["--closed", "4"], "Changed: lane 4 closed (4 x 150 in lanes 3-5 @ 20 rest 5min: lane 2, not 4)."),
        (["--hazard", "javelin=now"], "Changed: javelin runway in use from 18:00."),
        (["--hazard", "javelin=18:15"], "Changed: javelin runway in use from 18:15."),
        (["--skip", "4"], "Changed: block 4 left out (sprinters, 2 x 250 in lanes 3,5 @ 34 rest 8min)."),
    ] {
        let said = text(TUESDAY, &change);
        assert_eq!(first_line(&said), says, "{change:?}");
    }
    let unchanged = text(TUESDAY, &[]);
    assert!(unchanged.starts_with("Wrenbeck sprinters, Tuesday"), "{unchanged}");
    assert_eq!(plan(TUESDAY, &[])["changes"], Value::Array(Vec::new()));
}

#[test]
fn the_first_line_stands_in_every_view_in_words() {
    let folder = Folder::new();
    for (name, leads) in [("p.html", "<p class=\"changed\"><strong>"), ("p.md", ""), ("p.txt", "")] {
        toeline(&["plan", TUESDAY, "--without", "Ada", "--out", &folder.at(name)]).assert().success();
        let text = folder.read(name);
        let says = format!("{leads}Changed: without Ada.");
        if name == "p.html" {
            assert!(text.contains(&says), "{name}");
            assert!(
                text.find(&says) < text.find("<h1 class=\"title\">"),
                "{name}: it comes first in the whole plan"
            );
            assert!(
                text.contains("id=\"ticker\" role=\"timer\" aria-live=\"off\">Changed: without Ada."),
                "{name}"
            );
        } else {
            assert!(text.starts_with(&says), "{name}: {text}");
        }
    }
    let plan = plan(TUESDAY, &["--without", "Ada", "--closed", "4"]);
    let kinds: Vec<&str> =
        list(&plan["changes"]).iter().filter_map(|change| change["kind"].as_str()).collect();
    assert_eq!(kinds, ["without", "closed"]);
    assert_eq!(plan["changes"][0]["words"], "Without Ada.");
    assert_eq!(plan["changes"][1]["moved"][0]["to"], 2);
}

#[test]
fn a_later_start_moves_every_time_and_nothing_else() {
    let (before, after) = (plan(TUESDAY, &[]), plan(TUESDAY, &["--start", "18:10"]));
    assert_eq!(after["begins"], "18:10:00");
    assert_eq!(runs(&before), runs(&after), "go times count from the start");
    assert_eq!(after["booked_until"], "19:30:00");
}

#[test]
fn a_group_that_comes_late_is_alone_in_that() {
    let (before, after) = (plan(MONDAY, &[]), plan(MONDAY, &["--late", "middle distance=18:10"]));
    let of = |plan: &Value, names: &[&str]| {
        let mut runs = runs(plan);
        runs.retain(|run| names.iter().any(|name| run.2.contains(name)));
        runs
    };
    let first = |runs: &[(String, u64, String, u64, f64, String)]| {
        runs.iter().map(|run| run.4).fold(f64::INFINITY, f64::min)
    };
    let [own, others] = [["Ines", "Jory", "Kaya"], ["Ada", "Bela", "Cleo"]];
    assert!((first(&of(&after, &own)) - first(&of(&before, &own)) - 600.0).abs() < 60.0);
    assert!((first(&of(&after, &others)) - first(&of(&before, &others))).abs() < 60.0);
}

#[test]
fn a_group_that_comes_late_shares_the_watch_with_the_others_while_it_warms_up() {
    let session = "\
title: Thursday
hours: 18:00-20:00
before_groups: [4 x 80 strides walk back]
groups:
  - name: runners
    lanes: [4, 5]
    athletes: [Ada, Ben, Cleo, Dora, Emil, Finn, Gus]
    blocks: [5 x 300 jog 100, '4 x flying 30 with 20 run-in, walk back']
  - name: hurdlers
    lanes: [7, 8]
    athletes: [Hana, Ivo, Jana]
    blocks: [3 x 200 @ 32s rest 5min]
";
    let folder = Folder::with("thursday.yaml", session);
    for late in ["18:05", "18:10", "18:12", "18:15", "18:20", "18:25"] {
        let late = format!("hurdlers={late}");
        let plan =
            parsed(&folder.toeline(&["plan", "thursday.yaml", "--late", &late, "--format", "json"]).assert());
        let clashes = texts(&plan["warnings"]).into_iter().filter(|warning| warning.contains("Clash"));
        assert_eq!(clashes.collect::<Vec<_>>(), Vec::<String>::new(), "{late}");
        let blocks = list(&plan["blocks"]);
        let of_hurdlers: Vec<&Value> = blocks.iter().filter(|block| block["group"] == "hurdlers").collect();
        assert_eq!(of_hurdlers.len(), 2, "{late}");
    }
}

#[test]
fn the_others_keep_their_lanes_and_times_when_somebody_is_absent_or_does_less() {
    let before = runs(&plan(TUESDAY, &[]));
    for (change, leaves) in [(["--without", "Ada"], 0), (["--reps", "Ada=2"], 2)] {
        let mut others: Vec<_> =
            before.iter().filter(|run| !run.2.contains("Ada") || run.1 <= leaves).collect();
        let after = runs(&plan(TUESDAY, &change));
        let mut after: Vec<_> = after.iter().collect();
        if change[0] == "--without" {
            // The 250s need one wave fewer: Cleo runs in Ada's.
            others.retain(|run| !run.0.contains("250"));
            after.retain(|run| !run.0.contains("250"));
        }
        others.sort_by(|a, b| a.partial_cmp(b).expect("times are numbers"));
        after.sort_by(|a, b| a.partial_cmp(b).expect("times are numbers"));
        assert_eq!(after, others, "{change:?}");
    }
}

#[test]
fn a_closed_lane_moves_to_an_open_one_and_the_others_stay() {
    let (before, after) = (runs(&plan(TUESDAY, &[])), runs(&plan(TUESDAY, &["--closed", "4"])));
    assert_eq!(before.len(), after.len());
    for run in &before {
        // The block is headed by the lanes that it is run in.
        let (block, rep, name) = (run.0.replace("lanes 3-5", "lanes 2,3,5"), run.1, &run.2);
        let now =
            after.iter().find(|now| (&now.0, now.1, &now.2) == (&block, rep, name)).expect("it is there");
        let lane = if run.3 == 4 { 2 } else { run.3 };
        assert_eq!((now.3, now.4), (lane, run.4), "{run:?}");
    }
    let heading = "4 × 150 m @ 20 s in lanes 2, 3, 5, 5 min rest";
    assert!(printed(&toeline(&["plan", TUESDAY, "--closed", "4"]).assert()).contains(heading));
    // Where no other lane is open, those that are left serve.
    let text = "title: t\ntrack: standard-6\ngroups: [{ name: g, athletes: [A, B] }]\n\
                blocks: [2 x 200 in lanes 1-6 @ 30 rest 2min]\n";
    let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml", "--closed", "4,5"]);
    assert_eq!(
        plan["changes"][0]["words"],
        "Lanes 4 and 5 closed (2 x 200 in lanes 1-6 @ 30 rest 2min: not in lanes 4 and 5)."
    );
    assert!(list(&plan["blocks"][0]["reps"]).iter().all(|rep| rep["lane"] != 4 && rep["lane"] != 5));
}

/// The sessions of the demonstration with athletes, each with one who is absent or does less.
const DEMONSTRATION: [(&str, &str); 4] = [
    ("friday-starts", "Cleo"),
    ("monday-two-groups", "Jory"),
    ("saturday-club-evening", "Otis"),
    ("thursday-middle-distance", "Kaya"),
];

#[test]
fn every_session_of_the_demonstration_bears_every_late_change() {
    for (name, athlete) in DEMONSTRATION {
        let session = format!("sessions/wrenbeck/{name}.yaml");
        let reps = format!("{athlete}=1");
        let changes: [&[&str]; 12] = [
            &["--start", "18:05"],
            &["--without", athlete],
            &["--reps", &reps],
            &["--closed", "2"],
            &["--closed", "3"],
            &["--closed", "4"],
            &["--closed", "5"],
            &["--closed", "6"],
            &["--closed", "4,5"],
            &["--hazard", "javelin=now"],
            &["--wind", "3 m/s against on the home straight"],
            &["--skip", "1", "--force"],
        ];
        for change in changes {
            let said = text(&session, change);
            assert!(said.starts_with("Changed: "), "{name} {change:?}: {said}");
        }
        // The rest is as before: who runs what, from where, in the blocks that a closed lane leaves alone.
        let (before, after) = (plan(&session, &[]), plan(&session, &["--closed", "8"]));
        assert!(runs(&before) == runs(&after), "{name}: nobody runs in lane 8");
    }
}

#[test]
fn lanes_that_the_file_closes_and_names_move_as_well() {
    let text = |closed: &str| {
        format!(
            "title: t\nhours: 18:00-19:30\nclosed_lanes: {closed}\n\
             groups: [{{ name: g, lanes: [3, 4], athletes: [Ada, Bela] }}]\n\
             blocks: [2 x 200 @ 30 rest 2min, 2 x 400 in lane 2 @ 70 rest 3min]\n"
        )
    };
    let plan = |closed: &str| {
        let run = Folder::with("s.yaml", text(closed)).toeline(&["plan", "--full", "s.yaml"]).assert();
        (first_line(&printed(&run)), told(&run))
    };
    assert_eq!(plan("[1, 4]").0, "Changed: lane 4 closed (2 x 200 @ 30 rest 2min: lane 5, not 4).");
    assert_eq!(plan("[2]").0, "Changed: lane 2 closed (2 x 400 in lane 2 @ 70 rest 3min: lane 3, not 2).");
    // What no block names is closed without a word.
    assert!(plan("[1, 8]").0.starts_with("t Track: standard, lanes 1 and 8 closed"));
    let (_, said) = plan("[1, 2, 3, 4, 5, 6, 7, 8]");
    assert!(said.contains("no lane would be left open") && said.contains("s.yaml:3:"), "{said}");
    let (_, said) = plan("[9]");
    assert!(said.contains("there is no lane 9") && said.contains("s.yaml:3:"), "{said}");
}

#[test]
fn of_the_lanes_that_everybody_has_those_stay_that_are_open() {
    let plan = |session: &str, closed: &str| {
        let run = Folder::with("s.yaml", session)
            .toeline(&["plan", "--full", "s.yaml", "--closed", closed])
            .assert();
        printed(&run)
    };
    let given = "title: t\nhours: 18:00-19:30\nsquad: { lanes: [3, 4, 5, 6] }\n\
                 groups: [{ name: g, athletes: [Ada, Bela, Cy, Di, Em] }]\n\
                 blocks: [4 x 200 @ 30 rest 3min";
    let all = plan(&format!("{given}]\n"), "4");
    assert_eq!(first_line(&all), "Changed: lane 4 closed.");
    assert!(all.contains("lanes 3, 5 and 6"), "{all}");
    // A block that names the lane moves to another of them.
    let named = plan(&format!("{given}, 2 x 100 in lane 3 @ 15 rest 3min]\n"), "3");
    assert_eq!(
        first_line(&named),
        "Changed: lane 3 closed (2 x 100 in lane 3 @ 15 rest 3min: lane 4, not 3)."
    );
    // Where none of them is open, others are taken.
    let none = plan(&format!("{given}]\n"), "3-6");
    assert!(first_line(&none).contains("not 3"), "{none}");
}

#[test]
fn lanes_of_an_athlete_move_where_blocks_name_none() {
    let text = "title: t\ngroups: [{ name: g, athletes: [Ada, { name: Bela, lanes: [4] }] }]\n\
                blocks: [2 x 200 @ 30 rest 2min]\n";
    let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml", "--closed", "4"]);
    assert_eq!(plan["changes"][0]["words"], "Lane 4 closed (2 x 200 @ 30 rest 2min: lane 3, not 4).");
    let of_bela = list(&plan["blocks"][0]["reps"]).iter().filter(|rep| rep["athletes"][0] == "Bela");
    assert!(of_bela.clone().count() == 2 && of_bela.clone().all(|rep| rep["lane"] == 3));
}

#[test]
fn a_guide_pair_moves_to_two_lanes_side_by_side() {
    let text = "title: t\nclosed_lanes: [1]\ngroups: [{ name: g, athletes: [{ name: Ada, guide: Ben }, Cy] }]\n\
                blocks: [2 x 200 @ 36 rest 2min in lanes 3-4]\n";
    for (closed, says) in [
        ("3", "Lane 3 closed (2 x 200 @ 36 rest 2min in lanes 3-4: lane 5, not 3)."),
        ("3,4", "Lanes 3 and 4 closed (2 x 200 @ 36 rest 2min in lanes 3-4: lanes 5 and 6, not 3 and 4)."),
    ] {
        let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml", "--closed", closed]);
        assert_eq!(plan["changes"][0]["words"], says);
    }
}

#[test]
fn lanes_closed_late_are_not_closed_for_the_reason_of_the_track() {
    let plan = plan(TUESDAY, &["--closed", "4"]);
    let closed: Vec<&str> =
        texts(&plan["cautions"]).into_iter().filter(|caution| caution.starts_with("Closed")).collect();
    assert_eq!(
        closed,
        [
            "Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.",
            "Closed lane 4 stays closed: do not run, walk or wait in it."
        ]
    );
}

#[test]
fn an_absent_guide_leaves_an_athlete_without_one() {
    let evening = "sessions/wrenbeck/saturday-club-evening.yaml";
    let said = text(evening, &["--without", "bruno"]);
    assert_eq!(first_line(&said), "Changed: without Bruno, so Finn has no guide.");
    let plan = plan(evening, &["--without", "Bruno"]);
    let says = "Finn has no guide, as Bruno is absent: find another guide before the first run, or plan without Finn.";
    assert!(texts(&plan["warnings"]).contains(&says), "{}", plan["warnings"]);
    assert_eq!(plan["changes"][0]["kind"], "without guide");
    let blocks = list(&plan["blocks"]).iter().flat_map(|block| list(&block["reps"]));
    assert!(blocks.clone().all(|rep| list(&rep["guides"]).is_empty()), "nobody runs beside Finn");
    assert!(blocks.clone().any(|rep| rep["athletes"][0] == "Finn"), "Finn still has runs");
    // Who is absent needs no guide.
    let both = text(evening, &["--without", "Bruno", "--without", "Finn"]);
    assert_eq!(first_line(&both), "Changed: without Finn.");
}

#[test]
fn a_closed_lane_that_a_workout_names_stays_an_error() {
    let said = refused("4 x 150 in lanes 3-5", &["--closed", "4"]);
    assert!(said.contains("lane 4 is closed; open on the oval"), "{said}");
}

#[test]
fn a_hazard_that_begins_is_passed_with_care() {
    let session = "sessions/wrenbeck/wednesday-hurdles-and-relay.yaml";
    let text = "
title: early
hours: 16:00-17:30
track: track.yaml
blocks: [4 x 300 in lane 2 @ 50 rest 3min]
";
    let folder = Folder::with("early.yaml", text);
    folder.write("track.yaml", include_str!("../../sessions/wrenbeck/track.yaml"));
    let cautions = |change: &[&str]| {
        let plan = folder.json(&[&["plan", "early.yaml"], change].concat());
        plan["blocks"][0]["reps"][0]["cautions"].to_string()
    };
    assert!(!cautions(&[]).contains("javelin"), "it is in use from 18:30");
    assert!(cautions(&["--hazard", "javelin=now"]).contains("javelin"));
    assert!(cautions(&["--hazard", "Javelin Runway=16:05"]).contains("javelin"));
    toeline(&["plan", session, "--hazard", "gate=now"]).assert().success();
}

#[test]
fn a_skipped_block_takes_the_number_of_the_plan_that_has_it() {
    let (before, after) = (plan(MONDAY, &[]), plan(MONDAY, &["--skip", "3"]));
    let texts_of = |plan: &Value| {
        list(&plan["blocks"]).iter().map(|block| block["text"].to_string()).collect::<Vec<_>>()
    };
    let mut rest = texts_of(&before);
    let skipped = rest.remove(2);
    assert_eq!(after["changes"][0]["number"], 3);
    assert!(skipped.contains(after["changes"][0]["block"].as_str().expect("it is text")));
    let (mut left, mut rest) = (texts_of(&after), rest);
    left.sort();
    rest.sort();
    assert_eq!(left, rest);
}

#[test]
fn keys_of_the_file_make_the_same_changes_and_flags_win() {
    let text = "
title: keys
hours: 18:00-19:30
start: 18:05
track: track.yaml
without: [ada]
hazards: { javelin: now }
groups:
  - { name: sprinters, late: 18:20, athletes: [Ada, { name: Bela, reps: 1 }] }
blocks: [2 x 150 in lane 3 @ 20 rest 3min]
";
    let folder = Folder::with("keys.yaml", text);
    folder.write("track.yaml", include_str!("../../sessions/wrenbeck/track.yaml"));
    let said = printed(&folder.toeline(&["plan", "--full", "keys.yaml"]).assert().success());
    assert_eq!(
        first_line(&said),
        "Changed: start at 18:05; sprinters from 18:20; without Ada; Bela does 1 rep; javelin runway in use from 18:05."
    );
    let flags = [
        "plan",
        "--full",
        "keys.yaml",
        "--start",
        "18:10",
        "--late",
        "sprinters=18:30",
        "--hazard",
        "javelin=18:15",
    ];
    let said = printed(&folder.toeline(&flags).assert().success());
    assert_eq!(
        first_line(&said),
        "Changed: start at 18:10; sprinters from 18:30; without Ada; Bela does 1 rep; javelin runway in use from 18:15."
    );
}

#[test]
fn past_the_booking_the_plan_says_what_would_bring_it_in() {
    let plan = plan(TUESDAY, &["--late", "sprinters=18:20"]);
    let overrun = &plan["overrun"];
    assert_eq!(overrun["words"], "Ends at 19:31, 1 min after the booking, which ends at 19:30.");
    let remedies = list(&overrun["remedies"]);
    let said: Vec<&str> = remedies.iter().filter_map(|remedy| remedy["words"].as_str()).collect();
    assert_eq!(
        said,
        [
            "Drop block 4 (2 x 250 in lanes 3,5 @ 34 rest 8min): ends 19:13.",
            "Rest 4:35, not 5:00, in block 3 (4 x 150 in lanes 3-5 @ 20 rest 5min): ends 19:29."
        ]
    );
    assert!(texts(&plan["warnings"]).iter().any(|warning| warning.starts_with("Ends at 19:31")));
    // What a remedy promises is what the plan then does.
    let dropped = json(&["plan", TUESDAY, "--late", "sprinters=18:20", "--skip", "4"]);
    assert_eq!(dropped["ends"], remedies[0]["ends"]);
    assert_eq!(dropped["overrun"], Value::Null);
    let shorter =
        include_str!("../../sessions/wrenbeck/tuesday-sprints.yaml").replace("rest 5min", "rest 4:35");
    let folder = Folder::with("s.yaml", shorter);
    folder.write("track.yaml", include_str!("../../sessions/wrenbeck/track.yaml"));
    assert_eq!(folder.json(&["plan", "s.yaml", "--late", "sprinters=18:20"])["ends"], remedies[1]["ends"]);
    let top = text(TUESDAY, &["--late", "sprinters=18:20"]);
    assert!(
        top.lines().take(8).any(|line| line.starts_with("! Ends at 19:31"))
            && top.matches("Ends at").count() == 1,
        "{top}"
    );
}

#[test]
fn more_lanes_bring_a_squad_in_that_runs_in_waves() {
    let text = "
title: waves
hours: 18:00-18:18
track: standard
closed_lanes: [8]
groups: [{ name: all, athletes: [A, B, C, D, E, F, G, H] }]
blocks: [3 x 400 in lanes 5-7 @ 70 rest 6min]
squad: { start_gap: 2min }
";
    let plan = Folder::with("s.yaml", text).json(&["plan", "s.yaml"]);
    let remedies = list(&plan["overrun"]["remedies"]);
    let lanes =
        remedies.iter().find(|remedy| remedy["kind"] == "open lanes").expect("fewer waves are quicker");
    assert_eq!(
        lanes["words"],
        "Use lanes 1 to 7 for block 1 (3 x 400 in lanes 5-7 @ 70 rest 6min): ends 18:17."
    );
    assert!(number(&lanes["spare_s"]) >= 0.0);
}

#[test]
fn changes_that_cannot_be_made_are_refused_in_a_sentence() {
    for (change, says) in [
        (
            ["--without", "Zoe"].as_slice(),
            "--without: no athlete is called `Zoe`; the session has Ada, Bela, Cleo",
        ),
        (&["--without", "Ada", "--without", "Bela", "--without", "Cleo"], "--without: nobody would be left"),
        (&["--reps", "Zoe=2"], "--reps: no athlete is called `Zoe`; the session has Ada, Bela, Cleo"),
        (
            &["--reps", "Ada=9"],
            "--reps: `Ada` does no more than 4 reps in any block; write fewer than 4, not 9",
        ),
        (&["--reps", "Ada=2", "--reps", "ada=3"], "--reps: `Ada` has two values; keep one of them"),
        (&["--reps", "Ada"], "write for example Ben=4"),
        (&["--reps", "Ada=0"], "`0` is no number of repetitions; write for example Ada=4"),
        (&["--late", "throwers=18:20"], "--late: no group is called `throwers`; the session has `sprinters`"),
        (&["--late", "sprinters=18:20", "--late", "Sprinters=18:25"], "--late: `sprinters` has two values"),
        (
            &["--late", "sprinters=17:20"],
            "--late: `sprinters` cannot begin at 17:20, before the session starts at 18:00",
        ),
        (&["--late", "sprinters=20:20"], "--late: 20:20 is outside the booking, 18:00-19:30"),
        (
            &["--late", "hurdle group=7.15"],
            "`7.15` is no time of day; write for example \"hurdle group=18:20\"",
        ),
        (&["--start", "17:00"], "--start: 17:00 is outside the booking, 18:00-19:30"),
        (&["--start", "half six"], "write for example 18:30"),
        (&["--start", "18:10", "--start", "18:20"], "cannot be used multiple times"),
        (&["--closed", "1,2,3,4,5,6,7,8"], "--closed: no lane would be left open; leave at least one open"),
        (&["--closed", "9"], "--closed: there is no lane 9"),
        (
            &["--hazard", "hammer=now"],
            "--hazard: no hazard is called `hammer`; the track has `javelin runway`, `gate`",
        ),
        (&["--hazard", "gate=now", "--hazard", "gate=18:30"], "--hazard: `gate` has two values"),
        (&["--hazard", "gate=soon"], "`soon` is no time of day such as 18:30; write for example gate=now"),
        (
            &["--skip", "9"],
            "--skip: there is no block 9; the plan has 1: warm-up 20 min; 2: 4 x 60 in lanes 5-7",
        ),
        (
            &["--page-address", "monday.html"],
            "not the address of a page; write for example https://example.org/",
        ),
        (&["--skip", "0"], "--skip: there is no block 0"),
        (&["--skip", "1", "--skip", "2", "--skip", "3", "--skip", "4"], "--skip: no block would be left"),
    ] {
        let said = refused(TUESDAY, change);
        assert!(said.contains(says), "{change:?}: {said}");
    }
}

#[test]
fn keys_that_cannot_be_are_refused_at_their_place() {
    for (keys, group, says) in [
        ("start: 20:00", "", "20:00 is outside the booking, 18:00-19:30"),
        ("start: soon", "", "`soon` is not a time of day"),
        ("page: monday.html", "", "`monday.html` is not the address of a page"),
        (
            "page: 'https://example.org/two groups'",
            "",
            "write for example `https://example.org/tuesday.html`",
        ),
        ("without: [Zoe]", "", "no athlete is called `Zoe`; the session has Ada"),
        (
            "hazards: { javelin: now }",
            "",
            "no hazard is called `javelin`: the track has none. A track file lists them",
        ),
        ("hazards: { javelin: soon }", "", "write `now`, or for example `18:30`"),
        ("", ", late: 17:00", "`sprinters` cannot begin at 17:00, before the session starts at 18:00"),
        ("", ", late: 18:10, late: 18:20", "the key `late` is written twice"),
    ] {
        let text = format!(
            "title: t\nhours: 18:00-19:30\n{keys}\ngroups: [{{ name: sprinters, athletes: [Ada]{group} }}]\nblocks: [100]\n"
        );
        let said = told(&Folder::with("s.yaml", text).toeline(&["plan", "s.yaml"]).assert().code(2));
        assert!(said.contains(says) && said.contains("s.yaml:"), "{keys}{group}: {said}");
    }
}

#[test]
fn a_plan_with_two_late_changes_reads_as_a_whole() {
    let said = text(TUESDAY, &["--without", "Cleo", "--closed", "4", "--skip", "2"]);
    let top: String = said.lines().take(9).map(|line| format!("{line}\n")).collect();
    snapbox::Assert::new().action_env(snapbox::assert::DEFAULT_ACTION_ENV).eq(
        top,
        str![[r#"
Changed: without Cleo; lane 4 closed (4 x 150 in lanes 3-5 @ 20 rest 5min: lane
2, not 4); block 2 left out (sprinters, 4 x 60 in lanes 5-7 @ 8.2 rest 3min).

Wrenbeck sprinters, Tuesday, 13 April 2027
Track: Wrenbeck, lanes 1 and 4 closed. 18:00 to 18:53. Wind: 1 m/s against on
the home straight. Distances assume the measure line.

Block 1, sprinters: warm-up 20 min, from 18:00
Block 2, sprinters: 4 × 150 m @ 20 s in lanes 2, 3, 5, 5 min rest

"#]],
    );
}

//! Texts written out as session files: read back, they are the same sessions.

use chrono::NaiveTime;
use lane_distance::{Course, Track};
use plan_sheet::{SessionGround, session_yaml};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;
use session_plan::{
    AgeGroup, Athlete, Bests, Cones, Group, Prefer, RIEGEL_EXPONENT, Session, SessionFile, SquadRules,
    TrackName, Venue, Wind, WindFrom,
};
use wave_plan::{Mode, Timers, TimingRules};
use workout_notation::{Block, SourceText, Workout, visible};

/// What a session does, without how it was written.
fn essence(session: &Session) -> impl PartialEq + std::fmt::Debug + use<> {
    let blocks = |blocks: &[Block]| -> Vec<_> {
        let rest = |block: &Block| block.rest_after.as_ref().map(|rest| rest.seconds);
        blocks.iter().map(|block| (block.body.clone(), rest(block), block.label.clone())).collect()
    };
    let group = |group: &Group| (group.name.clone(), blocks(group.blocks.as_deref().unwrap_or_default()));
    let parts = (session.before_groups, session.after_groups);
    let parts = if session.groups.is_empty() { (0, 0) } else { parts };
    (
        session.title.clone(),
        session.date,
        blocks(&session.blocks),
        parts,
        session.groups.iter().map(group).collect::<Vec<_>>(),
    )
}

fn yaml_of(session: &Session) -> String {
    session_yaml(session, &SessionGround::default())
}

fn read_back(session: &Session) -> Session {
    let yaml = yaml_of(session);
    let source = SourceText::new("session.yaml", &yaml);
    SessionFile::read(source).unwrap_or_else(|faults| panic!("{faults:?} in\n{yaml}")).session
}

/// A line of a text.
fn line() -> impl Strategy<Value = String> {
    let blocks = select(&[
        "6 x 200 @ 32 rest 2min",
        "4x60, walk back",
        "12 x 400m, 75s",
        "2 x (300 + 150 rest 90s) rest 8min",
        "warm up 15 min",
        "drills",
        "cool down",
        "3 x 1000 @ 3:20/km jog 200",
        "200-400-600 rest 3'",
        "flying 30 with 20 run-in",
        "110h to hurdle 5",
        "20 min steady",
        "6 x 150 relaxed, keep tall",
        "4 x exchange zone 2",
        "8 x 100 strides",
        "2 laps easy",
        "core: 10 min",
        "talk about \"relays\" #1",
        "5 x 300 in lanes 2-4 from the 400 m start + 5",
    ]);
    let before = select(&["", "", "- ", "main set: ", "U13s: ", "1. "]);
    let after = select(&["", "", "", "; 5 min rest", "\n90s rest"]);
    (before, blocks, after).prop_map(|(before, block, after)| format!("{before}{block}{after}"))
}

fn text() -> impl Strategy<Value = String> {
    let title = select(&["", "Tuesday\n", "Club night 13 April 2027\n", "Track: # 1 [x], {y}\n"]);
    let several = || prop::collection::vec(line(), 1..4).prop_map(|lines| lines.join("\n"));
    let groups = prop_oneof![
        Just(String::new()),
        (several(), several())
            .prop_map(|(first, second)| format!("\nSprinters:\n{first}\nMiddle distance:\n{second}")),
    ];
    (title, several(), groups).prop_map(|(title, blocks, groups)| format!("{title}{blocks}{groups}"))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, rng_seed: RngSeed::Fixed(2027), ..ProptestConfig::default() })]

    #[test]
    fn a_session_file_made_of_a_text_is_the_same_session(text in text()) {
        // What is refused makes no file.
        if let Ok(workout) = Workout::parse(&text) {
            let session = Session::of_workout("notes", workout);
            let again = read_back(&session);
            prop_assert_eq!(essence(&again), essence(&session), "{}\n{}", text, yaml_of(&session));
        }
    }
}

#[test]
fn the_plans_of_a_text_and_of_its_session_file_put_every_run_at_the_same_place_and_time() {
    let text = "Tuesday\nwarm up 10 min\nSprints:\n4 x 60 @ 8.5 rest 3min\n5 min rest\n2 x 150 @ 20 rest 4min\n\
                Distance:\n3 x 400, 75s\ncool down";
    let session = Session::of_workout("notes", Workout::parse(text).expect("it is well formed"));
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let runs = |session: &Session| {
        let plan = session_plan::plan(&venue, session).expect("it fits");
        let runs =
            plan.blocks.iter().map(|block| (block.group.clone(), block.note.clone(), block.reps.clone()));
        runs.collect::<Vec<_>>()
    };
    let planned = runs(&session);
    assert_eq!(planned.len(), 5, "everybody's warm-up stands once");
    assert_eq!(runs(&read_back(&session)), planned);
}

#[test]
fn what_yaml_reads_in_another_way_is_quoted() {
    for title in [
        "yes",
        "12",
        "1e3",
        "2027-04-13",
        "a: b",
        "# a",
        "- a",
        "a #b",
        "tab\there",
        "\u{2028}\u{7f}\\\"",
        "1:30",
    ] {
        let session = Session::of_workout(title, Workout::parse("200").expect("it is well formed"));
        // A tab is read as a space, and what cannot be seen as a sign for it.
        assert_eq!(read_back(&session).title, visible(title).replace('\t', " "));
    }
}

#[test]
fn the_address_of_the_page_is_kept() {
    let block = Block::parse("6 x 200").expect("it is well formed");
    let page = "https://example.org/a?b=c&d=%20#e";
    let page = Some(page.parse().expect("it is an address"));
    let session = Session { page, ..Session::of_block("Tuesday", block) };
    assert_eq!(read_back(&session).page, session.page);
}

/// A name that YAML could take for something else.
fn name(place: usize) -> String {
    ["Ada", "12", "yes", "Bea, the second", "it's", "{x}: y", "Cyd #1", "null", "- Dan"]
        .get(place)
        .map_or_else(|| format!("athlete {place}"), |name| (*name).to_owned())
}

fn at(text: &str) -> NaiveTime {
    NaiveTime::parse_from_str(text, "%H:%M").expect("it is a time")
}

fn lanes() -> impl Strategy<Value = Option<Vec<u8>>> {
    prop::option::of(prop::collection::vec(1u8..=8, 1..4))
}

/// Times over distances, to the hundredth of a second.
fn times() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let distances = [60.0, 100.0, 200.0, 400.0, 800.0, 1609.344, 5000.0];
    let kept = prop::collection::vec(prop::option::of(900u32..1500), distances.len());
    kept.prop_map(move |kept| {
        let one = |(metres, part): (f64, Option<u32>)| {
            Some((metres, (metres * f64::from(part?) / 80.0).round() / 100.0))
        };
        distances.into_iter().zip(kept).filter_map(one).collect()
    })
}

fn blocks(least: usize) -> impl Strategy<Value = Vec<Block>> {
    let lines = prop::collection::vec(line(), least..4);
    lines.prop_filter_map("it is not a workout", |lines| Workout::parse_blocks(&lines.join("\n")).ok())
}

fn any_athlete() -> impl Strategy<Value = Athlete> {
    let age = select(&[None, Some(AgeGroup::Under(13)), Some(AgeGroup::Senior), Some(AgeGroup::Masters(50))]);
    let target = prop::option::of((100u32..9000).prop_map(|tenths| f64::from(tenths) / 10.0));
    let reps = prop::option::of(1u32..20);
    (age, times(), target, times(), lanes(), reps, any::<bool>()).prop_map(
        |(age, bests, target_s, targets, lanes, reps, has_guide)| Athlete {
            name: String::new(),
            age,
            bests: Bests::new(bests, RIEGEL_EXPONENT),
            target_s,
            targets,
            lanes,
            reps,
            guide: has_guide.then(String::new),
        },
    )
}

fn any_group() -> impl Strategy<Value = Group> {
    let athletes = prop_oneof![
        prop::collection::vec(any_athlete(), 0..4),
        prop::collection::vec(Just(Athlete::default()), 0..4)
    ];
    let time = || select(&[None, Some("18:20"), Some("18:45")]);
    (athletes, times(), lanes(), prop::option::of(blocks(0)), time(), time(), any::<bool>()).prop_map(
        |(athletes, bests, lanes, blocks, start, late, has_relay)| Group {
            athletes,
            bests: Bests::new(bests, RIEGEL_EXPONENT),
            lanes,
            blocks,
            start: start.map(at),
            late: late.map(at),
            relay: if has_relay { vec![Vec::new()] } else { Vec::new() },
            ..Group::default()
        },
    )
}

fn any_squad() -> impl Strategy<Value = SquadRules> {
    let most = || prop::option::of(1usize..9);
    let mode = prop_oneof![
        Just(None),
        most().prop_map(|most| Some(Mode::OneToALane { most })),
        (1usize..9).prop_map(|most| Some(Mode::GroupToALane { most })),
    ];
    let timers = select(&[Timers::One, Timers::Two, Timers::EachGroup, Timers::Untimed]);
    let gap = || select(&[5.0, 10.0, 7.5, 90.0]);
    (mode, lanes(), prop::option::of(any::<bool>()), gap(), gap(), timers).prop_map(
        |(mode, lanes, keeps_lanes, timing_gap_s, start_gap_s, timers)| SquadRules {
            mode,
            keeps_lanes: keeps_lanes.filter(|_| lanes.is_none()),
            lanes,
            timing: TimingRules { timing_gap_s, start_gap_s, timers },
        },
    )
}

/// Any session that a session file can describe.
fn any_session() -> impl Strategy<Value = Session> {
    let wind = prop_oneof![
        Just(None),
        select(&["3 m/s against on the home straight", "gusts: #1"])
            .prop_map(|text| Some(Wind::from_text(text))),
        (any::<bool>(), prop::option::of(0u8..20)).prop_map(|(is_home, m_s)| Some(Wind {
            words: None,
            on: Some(if is_home { Course::HomeStraight } else { Course::BackStraight }),
            from: Some(if is_home { WindFrom::Ahead } else { WindFrom::Behind }),
            m_s: m_s.map(f64::from),
        })),
    ];
    let prefer =
        select(&[None, Some(Prefer::FewestTapes), Some(Prefer::FinishLine), Some(Prefer::EndsClose)]);
    let numbers = (
        prop::option::of((30u32..200).prop_map(|cm| f64::from(cm) / 100.0)),
        prop::option::of((0u32..9000).prop_map(|tenths| f64::from(tenths) / 10.0)),
        select(&[RIEGEL_EXPONENT, 1.08]),
    );
    let choices = (any::<bool>(), any::<bool>(), any::<bool>(), any::<bool>());
    let notes = prop::collection::vec(select(&["talk: about relays", "12", "# no", "batons"]), 0..3);
    let who = (prop::collection::vec(any_group(), 0..4), any_squad(), any::<bool>());
    let texts = (blocks(0), blocks(1), blocks(0));
    (who, texts, (wind, prefer, notes, times()), numbers, choices).prop_map(
        |(
            (groups, squad, is_one_absent),
            (before, shared, after),
            (wind, prefer, notes, bests),
            numbers,
            choices,
        )| {
            let (stride_m, between_blocks_s, exponent) = numbers;
            let (has_hours, is_late, force, every_spot) = choices;
            let hours = has_hours.then(|| "18:00-19:30".parse().expect("they are hours"));
            let (before_groups, after_groups) =
                if groups.is_empty() { (0, 0) } else { (before.len(), after.len()) };
            let mut session = Session {
                hours,
                starts: (!has_hours && is_late).then(|| at("18:10")),
                before_groups,
                after_groups,
                groups,
                squad,
                force,
                bests: Bests::new(bests, exponent),
                prefer,
                cones: if every_spot { Cones::EverySpot } else { Cones::OffPaint },
                stride_m,
                between_blocks_s,
                wind,
                notes: notes.into_iter().map(str::to_owned).collect(),
                ..Session::of_blocks("Tuesday: # 1", [before, shared, after].concat())
            };
            session.late.start = (has_hours && is_late).then(|| at("18:10"));
            let mut names = (0..).map(name);
            let mut number = 1..;
            for group in &mut session.groups {
                group.name = format!("group {}", number.next().unwrap_or_default());
                group.late = group.late.filter(|_| has_hours);
                group.start = group.start.filter(|_| has_hours);
                group.bests.exponent = exponent;
                for athlete in &mut group.athletes {
                    athlete.name = names.next().unwrap_or_default();
                    athlete.bests.exponent = exponent;
                    athlete.guide = athlete.guide.as_ref().map(|_| format!("guide, of {}", athlete.name));
                }
                let team: Vec<String> = group.athletes.iter().map(|athlete| athlete.name.clone()).collect();
                group.relay = group.relay.iter().filter(|_| team.len() > 1).map(|_| team.clone()).collect();
            }
            let absent =
                session.groups.iter().flat_map(|group| &group.athletes).map(|athlete| athlete.name.clone());
            if let (true, [first, _, ..]) = (is_one_absent, absent.collect::<Vec<_>>().as_slice()) {
                session.late.without.push(first.clone());
            }
            session
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, failure_persistence: None, rng_seed: RngSeed::Fixed(2027), ..ProptestConfig::default() })]

    #[test]
    fn a_session_file_made_of_any_session_is_the_same_session(session in any_session()) {
        let again = read_back(&session);
        prop_assert_eq!(essence(&again), essence(&session), "{}", yaml_of(&session));
        prop_assert_eq!(again, session);
    }
}

#[test]
fn every_session_of_the_demonstration_is_written_out_whole() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../sessions/wrenbeck");
    let mut files = 0;
    for entry in std::fs::read_dir(folder).expect("the folder is there") {
        let path = entry.expect("it can be read").path();
        let text = std::fs::read_to_string(&path).expect("it is a text");
        if !text.contains("title:") {
            continue;
        }
        let file = SessionFile::read(SourceText::new("session.yaml", &text)).expect("it is a session file");
        let track = file.track.as_ref().map(|track| match track {
            TrackName::BuiltIn(name) | TrackName::File(name) => name.as_str(),
        });
        let ground = SessionGround {
            track,
            closed_lanes: &file.closed_lanes,
            closures: &file.closures,
            hazards: &file.hazards,
        };
        let yaml = session_yaml(&file.session, &ground);
        let again = SessionFile::read(SourceText::new("again.yaml", &yaml));
        let again = again.unwrap_or_else(|faults| panic!("{}: {faults:?} in\n{yaml}", path.display()));
        assert_eq!(essence(&again.session), essence(&file.session), "{yaml}");
        assert_eq!(again.session, file.session, "{yaml}");
        assert_eq!(
            (&again.track, &again.closed_lanes, &again.closures, &again.hazards),
            (&file.track, &file.closed_lanes, &file.closures, &file.hazards)
        );
        files += 1;
    }
    assert_eq!(files, 8, "the week has eight sessions");
}

#[test]
fn late_changes_are_written_under_their_keys_or_made() {
    let text = "title: t\nhours: 18:00-19:30\nwind: 1 m/s behind on the home straight\ngroups:\n  \
                - { name: a, late: 18:05, athletes: [Ada] }\n  - { name: b, athletes: [Bea] }\nblocks:\n  - 4 x 60\n  - 6 x 200";
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let mut session =
        SessionFile::read(SourceText::new("t.yaml", text)).expect("it is a session file").session;
    let plan = session_plan::plan(&venue, &session).expect("it fits");
    let number = |group: &str| {
        let place = plan.blocks.iter().position(|block| block.group.as_deref() == Some(group));
        place.expect("the group has blocks") + 1
    };
    session.skip_blocks(&plan, &[number("a")]).expect("others are left");
    session.start_at(at("18:30")).expect("it is within the booking");
    session.turn_wind(Wind::from_text("2 m/s against on the home straight"));
    let yaml = yaml_of(&session);
    for line in ["start: 18:30", "wind: 2 m/s against on the home straight", "  # left out by a:"] {
        assert!(yaml.lines().any(|known| known == line), "{line} is not in\n{yaml}");
    }
    assert!(!yaml.contains("late:"), "group a comes no later than the others now:\n{yaml}");
    // Now nobody does the block.
    session.skip_blocks(&plan, &[number("b")]).expect("others are left");
    let yaml = yaml_of(&session);
    assert!(yaml.lines().any(|line| line == "  # left out: 4 x 60"), "{yaml}");
    assert_eq!(read_back(&session).blocks.len(), 1);
}

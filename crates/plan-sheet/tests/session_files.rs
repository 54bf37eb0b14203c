//! Texts written out as session files: read back, they are the same sessions.

use lane_distance::Track;
use plan_sheet::session_yaml;
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;
use session_plan::{Group, Session, SessionFile, Venue};
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

fn read_back(session: &Session) -> Session {
    let yaml = session_yaml(session, &[]);
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
            prop_assert_eq!(essence(&again), essence(&session), "{}\n{}", text, session_yaml(&session, &[]));
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

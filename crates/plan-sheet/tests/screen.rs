//! One block fits a screen of 24 lines and 80 columns, whatever it is; `--full` has the rest.

use lane_distance::Track;
use plan_sheet::{InFull, View};
use session_plan::{Plan, Session, Venue};
use workout_notation::{Block, Workout};

/// Workouts in the words of coaches.
const COACHES: &str = include_str!("../../workout-notation/tests/coaches.txt");

/// Workouts of every form.
const FORMS: &str = include_str!("../../session-plan/tests/workouts.txt");

/// The lines of a screen, without the one on which the next command is typed.
const SCREEN: usize = 23;

/// The columns of a screen.
const WIDTH: usize = 80;

/// The fewest workouts that the tables must hold.
const FEWEST: usize = 400;

/// Every block of the tables, of those that are read as one.
fn blocks() -> Vec<Block> {
    let texts = COACHES.lines().filter_map(|line| Some(line.split_once(" => ")?.0));
    let texts = texts.chain(FORMS.lines().filter_map(|line| Some(line.split_once(" | ")?.0)));
    let read = |text: &str| match Workout::parse(text).map(Workout::into_blocks).as_deref() {
        Ok([block]) => Some(block.clone()),
        _ => None,
    };
    texts.filter(|text| !text.starts_with('#')).filter_map(read).collect()
}

/// A block alone, or with so many athletes, where the track has room for it.
fn plan(track: &str, block: &Block, athletes: usize) -> Option<Plan> {
    let venue = Venue::from(Track::built_in(track).expect("it comes with the crate"));
    let mut session = Session::of_blocks(block.text.clone(), vec![block.clone()]);
    session.force = true;
    if athletes > 0 {
        session.add_athletes(athletes);
    }
    session_plan::plan(&venue, &session).ok()
}

/// What a terminal shows, without the codes for bold.
fn shown(view: &impl View) -> String {
    view.text().replace("\u{1b}[1m", "").replace("\u{1b}[0m", "")
}

fn check(plan: &Plan, case: &str) {
    let text = shown(plan);
    let lines: Vec<&str> = text.lines().collect();
    assert!(lines.len() <= SCREEN, "{case} takes {} lines:\n{text}", lines.len());
    assert!(lines.iter().all(|line| line.chars().count() <= WIDTH), "{case} is too wide:\n{text}");
    assert!(text.ends_with(" More: --full\n"), "{case} does not say where the rest is:\n{text}");
    let [block] = plan.blocks.as_slice() else { panic!("{case} is one block") };
    if !block.reps.is_empty() {
        assert!(text.contains("Stand ") && text.contains("Finish"), "{case} does not say where:\n{text}");
        assert!(text.contains("Setting out") || text.contains("No cones"), "{case} has no walk:\n{text}");
    }
}

#[test]
fn every_workout_of_the_tables_fits_a_screen_alone() {
    let blocks = blocks();
    for track in ["standard", "double-bend-2"] {
        let planned = blocks.iter().filter_map(|block| Some((block, plan(track, block, 0)?)));
        let checked =
            planned.inspect(|(block, plan)| check(plan, &format!("`{}` on {track}", block.text))).count();
        assert!(checked >= FEWEST, "only {checked} workouts were planned on {track}");
    }
}

#[test]
fn every_workout_of_the_tables_fits_a_screen_for_a_squad() {
    // To share a squad out takes longer, so it is every third.
    let blocks = blocks().into_iter().step_by(3);
    let planned = blocks.filter_map(|block| Some((plan("standard", &block, 14)?, block)));
    let checked = planned.inspect(|(plan, block)| check(plan, &format!("`{}` for 14", block.text))).count();
    assert!(checked >= FEWEST / 3, "only {checked} workouts were planned");
}

#[test]
fn everything_that_is_left_out_stands_in_the_full_text() {
    let block = Block::parse("2 laps in-and-out 50s in lane 3").expect("it is well formed");
    let plan = plan("standard", &block, 0).expect("it can be laid out");
    let (brief, full) = (shown(&plan), shown(&InFull(&plan)));
    assert!(brief.contains("more: --full\n"), "no cones are left out: {brief}");
    for cone in &plan.setup {
        let row = format!(" {}   3 ", cone.label);
        assert!(full.contains(&row), "cone {} is missing: {full}", cone.label);
    }
    assert!(full.contains("Take care"), "{full}");
}

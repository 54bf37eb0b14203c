//! Targets, splits, and the clock of a session.

use lane_distance::Track;
use session_plan::{
    Bests, BlockAt, Direction, Plan, Remark, SessionFile, TargetError, Venue, Warning, riegel,
};
use workout_notation::Pace;
use workout_notation::SourceText;

fn plan(text: &str) -> Plan {
    plan_at(&standard(), text)
}

fn standard() -> Venue {
    Track::built_in("standard").expect("it comes with the crate").into()
}

fn plan_at(venue: &Venue, text: &str) -> Plan {
    let source = SourceText { name: "session.yaml".to_owned(), text: text.to_owned() };
    let file = SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}"));
    session_plan::plan(venue, &file.session).unwrap_or_else(|errors| panic!("{errors:?}"))
}

/// Riegel's law, P. S. Riegel, "Athletic Records and Human Endurance", American Scientist 69 (1981),
/// t₂ = t₁·(d₂ / d₁)^1.06. The values were computed apart from this program, in decimal arithmetic of
/// 30 digits by the `decimal` module of Python 3.11.
#[test]
fn riegels_law_gives_the_values_of_an_independent_computation() {
    for (time_s, from_m, to_m, carried_s) in [
        (1200.0, 5000.0, 10_000.0, 2_501.917_826_018_691),
        (240.0, 1500.0, 5000.0, 859.929_230_656_702),
        (128.0, 800.0, 1500.0, 249.224_835_511_197),
        (5400.0, 21_097.5, 42_195.0, 11_258.630_217_084_111),
    ] {
        let ours = riegel(time_s, from_m, to_m, 1.06).unwrap_or_else(|error| panic!("{error:?}"));
        assert!((ours - carried_s).abs() < 1e-6, "{from_m} m to {to_m} m: {ours}");
    }
}

#[test]
fn riegels_law_is_refused_outside_1_30_to_4_h() {
    // 400 m in 52 s is below 1:30; a marathon in 3:30 h carried to 50 km is above 4 h.
    assert!(matches!(riegel(52.0, 400.0, 800.0, 1.06), Err(TargetError::OutsideRiegel { .. })));
    assert!(matches!(riegel(12_600.0, 42_195.0, 50_000.0, 1.06), Err(TargetError::OutsideRiegel { .. })));
    assert!(riegel(90.0, 600.0, 800.0, 1.06).is_ok());
}

#[test]
fn the_exponent_can_be_set() {
    let bests = Bests::new(vec![(1500.0, 240.0)], 1.08);
    let time_s = bests.over(3000.0).unwrap_or_else(|error| panic!("{error:?}"));
    assert!((time_s - 240.0 * 2.0_f64.powf(1.08)).abs() < 1e-9);
}

#[test]
fn a_race_pace_over_a_known_distance_needs_no_law() {
    let bests = Bests::new(vec![(400.0, 52.0)], 1.06);
    assert_eq!(bests.target(&Pace::Race(400.0), 100.0), Ok((13.0, None)));
    assert!(bests.target(&Pace::Race(800.0), 100.0).is_err());
}

#[test]
fn a_target_that_cannot_be_had_is_said_and_left_out() {
    let plan = plan("title: t\nblocks: [4 x 200 in lane 2 @ 800 pace]\n");
    assert_eq!(plan.blocks[0].reps[0].target_s, None);
    let no_target =
        Remark::NoTarget { pace: "800 pace".to_owned(), why: TargetError::NoBest { metres: 800.0 } };
    assert_eq!(plan.blocks[0].remarks, [no_target]);
}

#[test]
fn splits_fall_on_each_100_m_and_on_the_paint_that_is_passed() {
    let plan = plan("title: t\nblocks: [400 in lane 4 @ 60]\n");
    let splits = &plan.blocks[0].reps[0].splits;
    let round: Vec<_> =
        splits.iter().filter(|split| split.round).map(|split| (split.from_start_m, split.time_s)).collect();
    assert_eq!(round, [(100.0, 15.0), (200.0, 30.0), (300.0, 45.0)]);
    // 200 m from the 400 m start stands the 200 m start; the 1st green tick is 45 m from it.
    let at = |name: &str| {
        splits.iter().find(|split| split.mark.as_deref() == Some(name)).map(|split| split.time_s)
    };
    assert!((at("200 m start").expect("it is passed") - 30.0).abs() < 1e-9);
    assert!((at("400 m hurdle tick 1").expect("it is passed") - 60.0 * 45.0 / 400.0).abs() < 1e-9);
    assert!(splits.is_sorted_by(|a, b| a.from_start_m <= b.from_start_m));
}

#[test]
fn the_clock_counts_runs_rests_sets_notes_and_breaks() {
    let text = "
title: t
between_blocks: 4min
blocks:
  - warm-up 15 min
  - 2 x 2 x 200 in lane 2 @ 30 changing ends rest 1min / 5min
  - 2 x 400 in lane 2 @ 70 off 4:00
";
    let plan = plan(text);
    let goes: Vec<f64> =
        plan.blocks.iter().flat_map(|block| &block.reps).filter_map(|rep| rep.go_s).collect();
    // 15:00 warm-up; 30 s and 60 s, 30 s and 5 min, 30 s and 60 s, 30 s; 4 min; 4 min from start to start.
    assert_eq!(goes, [900.0, 990.0, 1320.0, 1410.0, 1680.0, 1920.0]);
    assert_eq!(plan.lasts_s, Some(1990.0));
}

#[test]
fn the_end_is_checked_against_the_booking() {
    let text = "
title: t
date: 2027-04-13
hours: 18:00-18:10
blocks: [4 x 400 in lane 2 @ 80 rest 3min]
";
    let plan = plan(text);
    // 4 × 80 s and 3 × 180 s are 14:20.
    assert_eq!(plan.ends.map(|ends| ends.to_string()), Some("18:14:20".to_owned()));
    let over_s = plan.warnings.iter().find_map(|warning| match warning {
        Warning::PastBooking { over_s, .. } => Some(*over_s),
        _ => None,
    });
    assert_eq!(over_s, Some(260.0), "{:?}", plan.warnings);
}

#[test]
fn strides_stand_beside_the_tape() {
    let plan = plan("title: t\nstride: 0.85\nblocks: [300 in lane 2]\n");
    // 10 m behind the zone exit are 9.947 m on the inner line of lane 2: 11.7 steps of 0.85 m.
    let strides = plan.blocks[0].reps[0].start.strides.expect("the start is off the paint");
    assert!((strides - 9.947 / 0.85).abs() < 0.001, "{strides}");
}

#[test]
fn a_preference_for_the_finish_line_goes_before_fewer_tapes() {
    let start = |prefer: &str| {
        let plan = plan(&format!("title: t\nprefer: {prefer}\nblocks: [150 in lane 2]\n"));
        plan.blocks[0].reps[0].finish.mark.clone()
    };
    assert_eq!(start("fewest tapes").as_deref(), Some("400 m hurdle tick 4"));
    assert_eq!(start("finish on the line").as_deref(), Some("finish line"));
}

#[test]
fn groups_run_with_their_own_bests_blocks_and_lanes() {
    let text = "
title: t
bests: { 800: 2:20 }
groups:
  - { name: fast, athletes: [Ada, Ben], bests: { 800: 2:08 }, lanes: [3] }
  - { name: young, athletes: [Cy], blocks: [3 x 100 in lane 5 @ 17 walk back rest 2min] }
blocks: [2 x 400 @ 800 pace rest 3min]
";
    let plan = plan(text);
    let first = &plan.blocks[0].reps[0];
    assert_eq!((first.group.as_deref(), first.lane.get(), first.target_s), (Some("fast"), 3, Some(64.0)));
    // One lane for two: they run one after the other, each as often.
    let runs = |name: &str| plan.blocks[0].reps.iter().filter(|rep| rep.athletes == [name]).count();
    assert_eq!((runs("Ada"), runs("Ben")), (2, 2));
    let second = &plan.blocks[1].reps[0];
    assert_eq!((second.group.as_deref(), second.lane.get(), second.distance_m), (Some("young"), 5, 100.0));
}

#[test]
fn running_clockwise_is_said_of_a_group_with_lanes_of_its_own_as_well() {
    let mut venue = standard();
    venue.rules.direction = Direction::Anticlockwise;
    let block = "blocks: [4 x 60 on the home straight the other way rest 3min]\n";
    for athletes in ["", ", athletes: [Ada]"] {
        let text = format!("title: t\ngroups: [{{ name: sprinters, lanes: [3]{athletes} }}]\n{block}");
        let plan = plan_at(&venue, &text);
        let at = BlockAt { group: None, block: 0 };
        assert!(plan.warnings.contains(&Warning::Clockwise { at }), "{:?}", plan.warnings);
    }
}

#[test]
fn a_squad_over_hurdles_has_every_lane_of_their_straight() {
    let venue = Venue::from(Track::built_in("standard-6").expect("it comes with the crate"));
    let text = "title: t\ngroups: [{ name: hurdlers, athletes: [1, 2, 3, 4, 5, 6, 7, 8] }]\nblocks: [110h]\n";
    let plan = plan_at(&venue, text);
    let lanes: Vec<u8> = plan.blocks[0].reps.iter().map(|rep| rep.lane.get()).collect();
    assert_eq!(lanes, [1, 2, 3, 4, 5, 6, 7, 8]);
}

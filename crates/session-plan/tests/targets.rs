//! Targets, splits, and the clock of a session.

use lane_distance::Track;
use session_plan::{
    Bests, BlockAt, Direction, Plan, PlanFault, Remark, SessionFile, TargetError, Venue, Warning, riegel,
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
    let source = SourceText::new("session.yaml", text);
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
    let no_target = Remark::NoTarget {
        pace: "800 pace".to_owned(),
        why: TargetError::NoBest { metres: 800.0 },
        to_m: vec![800.0],
        athletes: Vec::new(),
    };
    assert_eq!(plan.blocks[0].remarks, [no_target]);
}

#[test]
fn who_lacks_the_same_targets_is_named_once() {
    let plan = plan(
        "title: t\ngroups:\n  - name: g\n    athletes:\n      - { name: Ada, bests: { 400: 58 } }\n      - { name: Ben, reps: 2, \
         bests: { 400: 56 } }\n      - { name: Cy, bests: { 400: 61 } }\nblocks: [300 + 200 + 100 @ 90% rest 3min]\n",
    );
    let remarks = plan.blocks[0].remarks.iter();
    let found: Vec<_> = remarks
        .filter_map(|remark| match remark {
            Remark::NoTarget { to_m, athletes, .. } => Some((to_m.as_slice(), athletes.join(", "))),
            _ => None,
        })
        .collect();
    assert_eq!(
        found,
        [([300.0, 200.0, 100.0].as_slice(), "Ada, Cy".into()), (&[300.0, 200.0], "Ben".into())]
    );
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

fn faults(text: &str) -> Vec<PlanFault> {
    let source = SourceText::new("session.yaml", text);
    let file = SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}"));
    let planned = session_plan::plan(&standard(), &file.session);
    planned.err().into_iter().flatten().map(|error| error.fault.value).collect()
}

/// The target of each athlete in each block.
fn targets(text: &str) -> Vec<Vec<(String, f64, Option<f64>)>> {
    let of_block = |block: &session_plan::PlanBlock| {
        let reps = block.reps.iter();
        let of = reps.map(|rep| (rep.athletes.join(", "), rep.distance_m, rep.target_s));
        let mut of: Vec<_> = of.collect();
        of.sort_by(|a, b| a.partial_cmp(b).expect("they are numbers"));
        of.dedup();
        of
    };
    plan(text).blocks.iter().map(of_block).collect()
}

#[test]
fn a_target_belongs_to_a_distance_and_what_the_block_writes_goes_first() {
    let text = "
title: t
groups:
  - name: g
    athletes: [{ name: Ada, targets: { 200: 30, 400: 66 }, target: 20 }]
blocks:
  - 2 x 200 rest 2min
  - 2 x 200 @ 33 rest 2min
  - 400 easy
  - 200, 400, 300 rest 3min
  - 2 x 150 rest 3min
  - 2 x flying 200 with 20 run-in rest 3min
";
    let ada = |distance_m: f64, target_s| ("Ada".to_owned(), distance_m, target_s);
    assert_eq!(
        targets(text),
        [
            vec![ada(200.0, Some(30.0))],
            vec![ada(200.0, Some(33.0))],
            // Easy is what the block writes.
            vec![ada(400.0, None)],
            // A target alone has no distance in a ladder.
            vec![ada(200.0, Some(30.0)), ada(300.0, None), ada(400.0, Some(66.0))],
            vec![ada(150.0, Some(20.0))],
            // From a standing start it would be another time.
            vec![ada(200.0, Some(20.0))],
        ]
    );
}

/// The values were computed apart from this program: `math.exp` and `math.log` of Python 3.11.
#[test]
fn a_best_between_two_known_ones_lies_on_the_power_law_through_both() {
    let bests = Bests::new(vec![(400.0, 56.0), (100.0, 12.4), (800.0, 128.0)], 1.06);
    for (metres, seconds) in [(200.0, 26.351_470_547_200_97), (600.0, 90.824_371_319_742_53), (400.0, 56.0)] {
        let ours = bests.over(metres).unwrap_or_else(|error| panic!("{error:?}"));
        assert!((ours - seconds).abs() < 1e-9, "{metres} m: {ours}");
    }
    // Beyond the longest, Riegel's law.
    assert_eq!(bests.over(1500.0).ok(), riegel(128.0, 800.0, 1500.0, 1.06).ok());
    assert!(bests.over(60.0).is_err());
}

#[test]
fn own_bests_serve_every_form_of_block() {
    for block in [
        "3 x 1000 @ 5k pace rest 3min in lane 2",
        "4 x 300 @ 5k pace rest 60s jog 100 in lane 2",
        "400, 600, 800 @ 5k pace rest 2min in lane 2",
        "2 x (2 x 400 @ 5k pace rest 60s) rest 3min in lane 2",
        "800 in-and-out 100s @ 5k pace in lane 2",
    ] {
        let text = format!(
            "title: t\ngroups: [{{ name: g, athletes: [{{ name: Ada, bests: {{ 3k: 10:00, 10k: 37:00 }} }}, \
             {{ name: Ben, bests: {{ 5k: 16:40 }} }}] }}]\nblocks: [\"{block}\"]\n"
        );
        let plan = plan(&text);
        for rep in &plan.blocks[0].reps {
            assert!(rep.target_s.is_some(), "{block}: {rep:?}");
        }
        // Ben's pace is 20 s for each 100 m.
        let bens = plan.blocks[0].reps.iter().flat_map(|rep| {
            let own = rep.own_times.iter().find(|own| own.athlete == "Ben").map(|own| own.target_s);
            own.or(rep.target_s.filter(|_| rep.athletes == ["Ben"]))
                .map(|target_s| (target_s, rep.distance_m))
        });
        let bens: Vec<(f64, f64)> = bens.collect();
        assert!(!bens.is_empty(), "{block}");
        assert!(
            bens.iter().all(|(target_s, metres)| (target_s - metres / 5.0).abs() < 1e-9),
            "{block}: {bens:?}"
        );
    }
}

#[test]
fn a_pack_that_is_not_of_one_speed_has_splits_for_each() {
    let own_splits = |ben: &str| {
        let text = format!(
            "title: t\nsquad: {{ mode: a group to a lane }}\ngroups: [{{ name: g, athletes: [{{ name: Ben, targets: \
             {{ 1000: {ben} }} }}, {{ name: Ada, targets: {{ 1000: 3:20 }} }}] }}]\nblocks: [1000 in lane 2]\n"
        );
        let plan = plan(&text);
        let own = plan.blocks[0].reps[0].own_times.iter();
        let of = own.map(|own| {
            let round = own.splits.iter().filter(|split| split.round).map(|split| split.time_s);
            (own.athlete.clone(), own.target_s, round.take(2).collect::<Vec<_>>())
        });
        of.collect::<Vec<_>>()
    };
    assert_eq!(
        own_splits("3:30"),
        [("Ada".to_owned(), 200.0, vec![20.0, 40.0]), ("Ben".to_owned(), 210.0, vec![21.0, 42.0])]
    );
    // 2.4 s in 1000 m are 0.96 s a lap, 2.6 s are 1.04 s.
    assert!(own_splits("3:22.4").is_empty());
    assert_eq!(own_splits("3:22.6").len(), 2);
}

#[test]
fn a_target_that_nobody_has_run_is_questioned_and_can_be_forced() {
    for (block, is_questioned) in [
        ("200 @ 18.6", false),
        ("200 @ 18.4", true),
        ("1000 @ 2:00", true),
        ("200 in 18-30s", true),
        ("400 @ 41/400", true),
        ("flying 30 @ 2.4", false),
        ("flying 30 @ 2.3", true),
        ("110h to hurdle 5 @ 3", true),
    ] {
        let text = format!("title: t\nblocks: [{block}]\n");
        assert_eq!(!faults(&text).is_empty(), is_questioned, "{block}");
        assert!(faults(&format!("{text}force: true\n")).is_empty(), "{block}");
    }
    let own = "title: t\ngroups: [{ name: g, athletes: [{ name: Ada, target: 30 }] }]\nblocks: [2 x 400 rest 3min]\n";
    let fault = PlanFault::TooFast { who: Some("Ada".to_owned()), distance_m: 400.0, target_s: 30.0 };
    assert_eq!(faults(own), [fault]);
}

#[test]
fn a_cycle_shorter_than_its_run_is_questioned_and_can_be_forced() {
    for (block, is_questioned) in [
        ("4 x 400 @ 80 every 1:20", false),
        ("4 x 400 @ 80 every 1:19", true),
        ("4 x 400 in 76-82s every 1:20", true),
        // Without a target only what nobody has ever run is known to be too short.
        ("4 x 400 every 60s", false),
        ("4 x 400 every 40s", true),
        // The cycle behind the last run counts for nothing.
        ("400 @ 80 off 60s", false),
    ] {
        let text = format!("title: t\nblocks: [{block}]\n");
        assert_eq!(!faults(&text).is_empty(), is_questioned, "{block}");
        assert!(faults(&format!("{text}force: true\n")).is_empty(), "{block}");
    }
}

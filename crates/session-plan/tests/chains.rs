//! Runs one after the other: where each starts, given how the runners get there.

use lane_distance::Track;
use session_plan::{Plan, Recovery, Remark, Rep, Session, SessionFile, Venue};
use workout_notation::{Block, SourceText};

fn plan(text: &str) -> Plan {
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let block = Block::parse(text).unwrap_or_else(|problems| panic!("{text}: {problems:?}"));
    session_plan::plan(&venue, &Session::of_block(text, block))
        .unwrap_or_else(|errors| panic!("{text}: {errors:?}"))
}

fn reps(plan: &Plan) -> &[Rep] {
    &plan.blocks[0].reps
}

/// How far each start lies past the one before, in metres, the shorter way round a lap.
fn creeps_m(reps: &[Rep], lap_m: f64) -> Vec<f64> {
    let on = |pair: &[Rep]| pair[1].start.from_finish_line_m - pair[0].start.from_finish_line_m;
    reps.windows(2).map(|pair| (on(pair) + lap_m / 2.0).rem_euclid(lap_m) - lap_m / 2.0).collect()
}

// By hand: lane 2 of the standard track is measured 36.50 + 1.22 + 0.20 = 37.92 m out, so its lap is
// 2 × 84.39 + 2π × 37.92 = 407.038 m. A run of 300 m and a jog of 100 m are 400 m: 7.038 m short of it.
const LAP_2_M: f64 = 407.038;

#[test]
fn six_300s_with_a_jog_of_exactly_100_creep_back_by_the_stagger_of_a_lap() {
    let plan = plan("6 x 300 jog exactly 100 in lane 2");
    let creeps = creeps_m(reps(&plan), LAP_2_M);
    assert_eq!(creeps.len(), 5);
    assert!(creeps.iter().all(|creep| (creep + 7.038).abs() < 0.001), "{creeps:?}");
    let [Remark::StartsMove { lane, moves_m, recovery: Recovery::Jog, cancelled_by_m: Some(by_m) }] =
        plan.blocks[0].remarks.as_slice()
    else {
        panic!("{:?}", plan.blocks[0].remarks)
    };
    assert_eq!(lane.get(), 2);
    assert!((moves_m + 7.038).abs() < 0.001 && (by_m - 107.038).abs() < 0.001, "{moves_m} {by_m}");
    assert!(reps(&plan)[..5].iter().all(|rep| rep.recovery_m == Some(100.0)));
}

#[test]
fn a_jog_of_100_after_300_goes_on_to_the_same_start() {
    for text in ["4 x 300 jog 100 in lane 2", "4 x 300 walk 100 in lane 2"] {
        let plan = plan(text);
        assert!(creeps_m(reps(&plan), LAP_2_M).iter().all(|creep| creep.abs() < 1e-9));
        for rep in &reps(&plan)[..3] {
            assert!((rep.recovery_m.expect("they go on") - 107.038).abs() < 0.001, "{rep:?}");
        }
        assert_eq!(reps(&plan)[3].recovery_m, None);
        let [Remark::RecoveryBends { lanes, asked_m: 100.0, least_m, most_m, starts: 1, .. }] =
            plan.blocks[0].remarks.as_slice()
        else {
            panic!("{:?}", plan.blocks[0].remarks)
        };
        assert!(lanes.len() == 1 && (least_m - 107.038).abs() < 0.001 && least_m == most_m);
    }
}

// By hand: lane 8 is measured 36.50 + 7 × 1.22 + 0.20 = 45.24 m out: a lap of 2 × 84.39 + 2π × 45.24 = 453.03 m, of
// which a run of 300 m leaves 153.03 m.
#[test]
fn a_jog_that_closes_a_lap_in_the_first_lane_closes_it_in_every_lane() {
    let plan = plan("4 x 300 jog 100 in lane 8");
    assert!(creeps_m(reps(&plan), 453.03).iter().all(|creep| creep.abs() < 1e-9));
    assert!(
        reps(&plan)[..3].iter().all(|rep| rep.recovery_m.is_some_and(|on_m| (on_m - 153.03).abs() < 0.01))
    );
}

#[test]
fn the_time_for_a_jog_is_that_of_the_way_that_is_really_jogged() {
    let text = "title: Tuesday\nhours: 18:00-19:00\nblocks: [2 x 300 @ 50s jog 100 in lane 2]\n".to_owned();
    let source = SourceText::new("tuesday.yaml", &text);
    let file = SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}"));
    let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
    let plan = session_plan::plan(&venue, &file.session).unwrap_or_else(|errors| panic!("{errors:?}"));
    // By hand: 107 m at 2.5 m/s are 43 s; 100 m would be 40 s.
    let goes_s: Vec<Option<f64>> = reps(&plan).iter().map(|rep| rep.go_s).collect();
    assert_eq!(goes_s, [Some(0.0), Some(93.0)]);
}

#[test]
fn all_lanes_go_on_to_one_start() {
    let plan = plan("3 x 300 in lanes 1-8 jog 100");
    let starts = |rep: &Rep| rep.start.from_finish_line_m;
    for lane in 1..=8 {
        let of_lane: Vec<&Rep> = reps(&plan).iter().filter(|rep| rep.lane == lane).collect();
        assert!(of_lane.iter().all(|rep| (starts(rep) - starts(of_lane[0])).abs() < 1e-9), "lane {lane}");
    }
}

#[test]
fn twelve_laps_with_jogs_need_few_places() {
    for text in ["12 x 400 jog 100 in lane 2", "12 x 400 jog 200 in lane 2", "10 x 200 jog 200 in lane 4"] {
        let plan = plan(text);
        for pair in reps(&plan).windows(2) {
            let on_m = pair[0].recovery_m.expect("they jog on");
            let asked_m = if text.contains("jog 100") { 100.0 } else { 200.0 };
            assert!((0.95 * asked_m..=1.25 * asked_m).contains(&on_m), "{text}: {on_m}");
            let lap_m = plan.track.lanes[usize::from(pair[0].lane.get()) - 1].lap_m;
            let way_m = pair[1].start.from_finish_line_m - pair[0].finish.from_finish_line_m;
            let off_m = (way_m - on_m).rem_euclid(lap_m);
            assert!(off_m.min(lap_m - off_m) < 1e-6, "{text}: {way_m} {on_m}");
        }
        let mut starts: Vec<i64> =
            reps(&plan).iter().map(|rep| (rep.start.from_finish_line_m * 1e3).round() as i64).collect();
        starts.sort_unstable();
        starts.dedup();
        assert!(starts.len() <= 4, "{text}: {starts:?}");
    }
}

#[test]
fn a_recovery_that_cannot_be_done_in_its_rest_is_said_once_and_first() {
    let plan = plan("6 x 300 in lanes 2-4 jog 100 in 20s");
    let too_short = |remark: &&Remark| matches!(remark, Remark::RestTooShortToGoOn { .. });
    assert_eq!(plan.blocks[0].remarks.iter().filter(too_short).count(), 1);
    let Remark::RestTooShortToGoOn { lane, recovery: Recovery::Jog, way_m, needs_s, has_s: 20.0, enough_m } =
        &plan.blocks[0].remarks[0]
    else {
        panic!("{:?}", plan.blocks[0].remarks)
    };
    // 400 m less 300 m and three laps' stagger of 7.04, 7.67 and 7.67 m, at 4 m/s.
    assert!(*lane == 4 && (way_m - 122.37).abs() < 0.01, "{way_m}");
    assert_eq!((*needs_s, *enough_m), (31.0, 80.0));
    assert_eq!(
        self::plan("6 x 300 in lanes 2-4 jog 100 in 60s").blocks[0].remarks.iter().find(too_short),
        None
    );
}

#[test]
fn the_jog_that_is_said_to_cancel_the_creep_does() {
    let plan = plan("6 x 300 jog 107.038 in lane 2");
    assert!(creeps_m(reps(&plan), LAP_2_M).iter().all(|creep| creep.abs() < 0.001));
}

#[test]
fn each_run_of_a_chain_is_as_far_as_asked() {
    let plan = plan("5 x 500 jog 150 in lane 3");
    let lap_m = plan.track.lanes[2].lap_m;
    for rep in reps(&plan) {
        let way_m = (rep.start.to_finish_line_m - rep.finish.to_finish_line_m).rem_euclid(lap_m);
        assert!((way_m - 500.0_f64.rem_euclid(lap_m)).abs() < 1e-6, "{rep:?}");
    }
}

#[test]
fn a_standing_rest_starts_where_the_last_run_ended() {
    let plan = plan("4 x 150 in lane 4 standing rest 2min");
    for pair in reps(&plan).windows(2) {
        assert!((pair[1].start.from_finish_line_m - pair[0].finish.from_finish_line_m).abs() < 1e-9);
    }
}

#[test]
fn runners_who_change_ends_alternate_between_the_two_starts_of_the_200() {
    let plan = plan("4 x 200 in lane 2 changing ends rest 90s");
    let ends: Vec<_> =
        reps(&plan).iter().map(|rep| (rep.start.mark.as_deref(), rep.finish.mark.as_deref())).collect();
    let home = (Some("200 m start"), Some("finish line"));
    let away = (Some("400 m start"), Some("200 m start"));
    assert_eq!(ends, [home, away, home, away]);
    assert_eq!(plan.blocks[0].remarks, []);
}

#[test]
fn a_walk_back_that_takes_longer_than_the_rest_is_remarked_on() {
    let short = plan("8 x 100 in lane 2 walk back rest 45s");
    // 100 m at 1.4 m/s are 71.4 s.
    let [
        Remark::RestTooShortToWalk { needs_s, has_s, .. },
        Remark::WalkBack { lane, walk_m, takes_s, jogging: false },
    ] = short.blocks[0].remarks.as_slice()
    else {
        panic!("{:?}", short.blocks[0].remarks)
    };
    assert!(*lane == 2 && (walk_m - 100.0).abs() < 1e-9);
    assert_eq!((*takes_s, *needs_s, *has_s), (72.0, 72.0, 45.0));
    let long = plan("8 x 100 in lane 2 walk back rest 90s");
    assert!(
        matches!(long.blocks[0].remarks.as_slice(), [Remark::WalkBack { .. }]),
        "{:?}",
        long.blocks[0].remarks
    );
}

#[test]
fn between_starts_that_are_far_apart_the_shorter_way_is_walked() {
    // From the finish line on to the start of a 300 in lane 2 it is 107 m, back it is 300 m.
    let plan = plan("3 x 300 in lane 2 walk back rest 60s");
    let [Remark::RestTooShortToWalk { .. }, Remark::WalkBack { walk_m, .. }] =
        plan.blocks[0].remarks.as_slice()
    else {
        panic!("{:?}", plan.blocks[0].remarks)
    };
    assert!((walk_m - 107.038).abs() < 0.001, "{walk_m}");
}

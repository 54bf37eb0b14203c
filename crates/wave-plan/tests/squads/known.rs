//! Squads that a coach knows the answer for, and squads that make no sense.

use wave_plan::{Ground, Mode, SquadError, TimingRules};

use crate::planned::faults;
use crate::sets::{Runner, SquadPlan, SquadSet, plan_squads};

fn laps(shortest_m: f64, longest_m: f64) -> Ground {
    Ground::Laps { shortest_m, longest_m }
}

/// 6 × 200 m on the oval of six lanes with lane 1 closed.
fn oval_200(runners: Vec<Runner>) -> SquadSet {
    SquadSet {
        reps: 6,
        distance_m: 200.0,
        ground: laps(407.0, 437.7),
        lanes: vec![2, 3, 4, 5, 6],
        runners,
        ..SquadSet::default()
    }
}

fn alike(count: usize, target_s: f64, rest_s: f64) -> Vec<Runner> {
    (0..count).map(|n| Runner::new(n.to_string(), target_s, rest_s)).collect()
}

fn planned(set: SquadSet) -> SquadPlan {
    let (sets, rules) = ([set], TimingRules::default());
    let plan = plan_squads(&sets, &rules, &[]).expect("the squad can run");
    assert_eq!(faults(&sets, &rules, &plan), [""; 0]);
    plan
}

fn refused(change: impl FnOnce(&mut SquadSet)) -> SquadError {
    let mut set = oval_200(alike(4, 34.0, 180.0));
    change(&mut set);
    plan_squads(&[set], &TimingRules::default(), &[]).expect_err("it makes no sense")
}

#[test]
fn fourteen_in_lanes_2_to_6_run_in_three_waves_without_a_wait() {
    let plan = planned(oval_200(alike(14, 34.0, 180.0)));
    let waves = &plan.sets[0];
    assert_eq!(waves.len(), 3);
    assert!(waves.iter().flat_map(|wave| wave.lanes.iter().flatten()).all(|lane| (2..=6).contains(lane)));
    let rests = waves.iter().flat_map(|wave| wave.go_s.windows(2).map(|pair| pair[1] - pair[0] - 34.0));
    assert!(rests.into_iter().all(|rest_s| (rest_s - 180.0).abs() < 1e-6));
    assert!((plan.end_s - (6.0 * 34.0 + 5.0 * 180.0 + 2.0 * 10.0)).abs() < 1e-6, "{}", plan.end_s);
    assert!(plan.is_proven);
}

#[test]
fn windows_spread_the_waves_of_unequal_runners() {
    let targets_s = [30.0, 36.0, 30.0, 36.0];
    let runners = targets_s.iter().map(|&target_s| Runner::new("", target_s, 60.0)).collect();
    let mut set = oval_200(runners);
    (set.lanes, set.reps) = (vec![2, 3], 1);
    // The slow first: the others finish 5 s later, at 41 s. The fast first: 10 s behind them 36 s more.
    assert!((planned(set.clone()).end_s - 41.0).abs() < 1e-6);
    set.runners[1].target_s = 33.0;
    set.runners[2].target_s = 33.0;
    // The slow first again: their last finishes at 36 s, so the first of the others at 41 s, and the last
    // of these 3 s later.
    assert!((planned(set).end_s - 44.0).abs() < 1e-6);
}

#[test]
fn a_wave_does_not_go_while_somebody_finishes_on_its_start() {
    // Two run one lap in the only lane, in 60 s with 8 s of rest. Were the second 10 s behind the first, it
    // would come home 2 s after the first went again: within 10 m. So it is 11 s behind.
    let mut set = oval_200(alike(2, 60.0, 8.0));
    (set.lanes, set.ground, set.reps) = (vec![1], laps(200.0, 200.0), 2);
    let plan = planned(set);
    assert!((plan.end_s - (60.0 + 8.0 + 60.0 + 11.0)).abs() < 1e-6, "{}", plan.end_s);
    assert!(plan.is_proven);
}

#[test]
fn pins_are_kept_by_the_way_the_squad_is_cut() {
    // Two of three who all run alike may only have lane 3: they must be cut into two waves.
    let mut set = oval_200(alike(3, 34.0, 180.0));
    set.lanes = vec![2, 3];
    set.runners[0].lanes = Some(vec![3]);
    set.runners[2].lanes = Some(vec![3]);
    let plan = planned(set);
    assert_eq!(plan.sets[0].len(), 2);
}

#[test]
fn groups_go_to_lanes_that_all_of_them_may_use() {
    let mut set = oval_200(alike(4, 34.0, 180.0));
    (set.mode, set.lanes) = (Mode::GroupToALane { most: 2 }, vec![2, 3]);
    set.runners.iter_mut().enumerate().for_each(|(n, runner)| runner.target_s += 2.0 * n as f64);
    set.runners[0].lanes = Some(vec![3]);
    set.runners[3].lanes = Some(vec![2]);
    let plan = planned(set);
    assert!(
        plan.sets[0].iter().all(|wave| wave.lanes[0][0] == if wave.members.contains(&0) { 3 } else { 2 })
    );
}

#[test]
fn numbers_that_make_no_sense_are_named() {
    for target_s in [0.0, -1.0, f64::NAN, f64::INFINITY, 30_000.0] {
        let error = refused(|set| set.runners[1].target_s = target_s);
        assert!(matches!(error, SquadError::Time { what: "target", .. }), "{error}");
    }
    for rest_s in [-1.0, f64::NAN, f64::INFINITY] {
        let error = refused(|set| set.runners[1].rest_s = rest_s);
        assert!(matches!(error, SquadError::Time { what: "rest", .. }), "{error}");
    }
    for (what, error) in [
        ("number of runs", refused(|set| set.reps = 0)),
        ("distance", refused(|set| set.distance_m = f64::NAN)),
        ("distance", refused(|set| set.distance_m = 0.0)),
        ("shortest lap", refused(|set| set.ground = laps(0.0, 400.0))),
        ("longest lap", refused(|set| set.ground = laps(400.0, 300.0))),
    ] {
        assert!(error.to_string().contains(what), "{error}");
    }
    let rules = TimingRules { start_gap_s: f64::NAN, ..TimingRules::default() };
    let error = plan_squads(&[oval_200(alike(4, 34.0, 180.0))], &rules, &[]).expect_err("a gap is a number");
    assert!(error.to_string().contains("start gap"), "{error}");
}

#[test]
fn nobody_and_no_lane_are_refused() {
    assert_eq!(refused(|set| set.runners.clear()), SquadError::Nobody);
    assert_eq!(refused(|set| set.lanes.clear()), SquadError::NoLanes);
    assert_eq!(plan_squads(&[], &TimingRules::default(), &[]), Err(SquadError::Nobody));
}

#[test]
fn more_pins_than_lanes_are_refused_with_the_names() {
    let error = refused(|set| set.runners[..2].iter_mut().for_each(|runner| runner.lanes = Some(vec![3])));
    let SquadError::Pins { names } = &error else { panic!("{error}") };
    assert!(names.contains(&"0".to_owned()) && names.contains(&"1".to_owned()));
    let error = refused(|set| set.runners[0].lanes = Some(vec![1]));
    assert!(matches!(error, SquadError::Pins { .. }), "{error}");
}

#[test]
fn forty_one_in_one_lane_take_as_long_as_they_take() {
    let mut set = oval_200(alike(41, 34.0, 180.0));
    set.lanes = vec![2];
    let plan = planned(set);
    assert_eq!(plan.sets[0].len(), 41);
    // 246 starts, 10 s apart, and the last run.
    assert!((plan.end_s - (245.0 * 10.0 + 34.0)).abs() < 1e-6, "{}", plan.end_s);
    assert!(plan.is_proven && (plan.bound_s - plan.end_s).abs() < 1e-6);
}

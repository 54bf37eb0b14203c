//! Squads that a coach knows the answer for, and squads that make no sense.

use wave_plan::{
    EveningPlan, Ground, Itinerary, Mode, Party, RunTimes, Runner, SquadError, Stretch, Timers, TimingRules,
    WavePlan, plan_evening,
};

use crate::planned::faults;

fn laps(shortest_m: f64, longest_m: f64) -> Ground {
    Ground::Laps { shortest_m, longest_m }
}

/// 200 m on the oval of six lanes with lane 1 closed.
fn oval_200(reps: usize, runners: Vec<Runner>) -> Itinerary {
    let stretch = Stretch { distance_m: 200.0, ground: laps(407.0, 437.7), ..Stretch::default() };
    Itinerary::repetitions(reps, stretch, vec![2, 3, 4, 5, 6], runners)
}

fn alike(count: usize, reps: usize, target_s: f64, rest_s: f64) -> Vec<Runner> {
    (0..count).map(|n| Runner::new(n.to_string(), reps, target_s, rest_s)).collect()
}

fn alone(itinerary: Itinerary) -> [Party; 1] {
    [Party { begins_s: 0.0, itineraries: vec![itinerary] }]
}

fn planned(parties: &[Party]) -> EveningPlan {
    let rules = TimingRules::default();
    let plan = plan_evening(parties, &rules, &[]).expect("the squad can run");
    assert_eq!(faults(parties, &rules, &plan), [""; 0]);
    plan
}

fn waves(plan: &EveningPlan) -> &[WavePlan] {
    &plan.parties[0][0].waves
}

fn refused(change: impl FnOnce(&mut Itinerary)) -> SquadError {
    let mut block = oval_200(6, alike(4, 6, 34.0, 180.0));
    change(&mut block);
    plan_evening(&alone(block), &TimingRules::default(), &[]).expect_err("it makes no sense")
}

fn each_run(block: &mut Itinerary, change: impl Fn(&mut Stretch)) {
    block.runs.iter_mut().flatten().for_each(change);
}

#[test]
fn fourteen_in_lanes_2_to_6_run_in_three_waves_without_a_wait() {
    let plan = planned(&alone(oval_200(6, alike(14, 6, 34.0, 180.0))));
    let waves = waves(&plan);
    assert_eq!(waves.len(), 3);
    assert!(waves.iter().flat_map(|wave| wave.lanes.iter().flatten()).all(|lane| (2..=6).contains(lane)));
    let rests = waves.iter().flat_map(|wave| wave.go_s.windows(2).map(|pair| pair[1] - pair[0] - 34.0));
    assert!(rests.into_iter().all(|rest_s| (rest_s - 180.0).abs() < 1e-6));
    assert!((plan.end_s - (6.0 * 34.0 + 5.0 * 180.0 + 2.0 * 10.0)).abs() < 1e-6, "{}", plan.end_s);
    assert!(plan.is_proven);
}

#[test]
fn windows_spread_the_waves_of_unequal_runners() {
    let block = |targets_s: [f64; 4]| {
        let runners = targets_s.iter().map(|&target_s| Runner::new("", 1, target_s, 60.0)).collect();
        alone(Itinerary { lanes: vec![2, 3], ..oval_200(1, runners) })
    };
    // The slow first: the others finish 5 s later, at 41 s. The fast first: 10 s behind them 36 s more.
    assert!((planned(&block([30.0, 36.0, 30.0, 36.0])).end_s - 41.0).abs() < 1e-6);
    // The slow first again: their last finishes at 36 s, so the first of the others at 41 s, and the last
    // of these 3 s later.
    assert!((planned(&block([30.0, 33.0, 33.0, 36.0])).end_s - 44.0).abs() < 1e-6);
}

#[test]
fn a_wave_does_not_go_while_somebody_finishes_on_its_start() {
    // Two run one lap in the only lane, in 60 s with 8 s of rest. Were the second 10 s behind the first, it
    // would come home 2 s after the first went again: within 10 m. So it is 11 s behind.
    let mut block = oval_200(2, alike(2, 2, 60.0, 8.0));
    block.lanes = vec![1];
    each_run(&mut block, |stretch| stretch.ground = laps(200.0, 200.0));
    let plan = planned(&alone(block));
    assert!((plan.end_s - (60.0 + 8.0 + 60.0 + 11.0)).abs() < 1e-6, "{}", plan.end_s);
    assert!(plan.is_proven);
}

#[test]
fn pins_are_kept_by_the_way_the_squad_is_cut() {
    // Two of three who all run alike may only have lane 3: they must be cut into two waves.
    let mut block = oval_200(6, alike(3, 6, 34.0, 180.0));
    block.lanes = vec![2, 3];
    block.runners[0].lanes = Some(vec![3]);
    block.runners[2].lanes = Some(vec![3]);
    assert_eq!(waves(&planned(&alone(block))).len(), 2);
}

#[test]
fn groups_go_to_lanes_that_all_of_them_may_use() {
    let runners = (0..4).map(|n| Runner::new("", 6, 34.0 + 2.0 * f64::from(n), 180.0)).collect();
    let mut block = oval_200(6, runners);
    (block.mode, block.lanes) = (Mode::GroupToALane { most: 2 }, vec![2, 3]);
    block.runners[0].lanes = Some(vec![3]);
    block.runners[3].lanes = Some(vec![2]);
    let plan = planned(&alone(block));
    assert!(
        waves(&plan).iter().all(|wave| wave.lanes[0][0] == if wave.members.contains(&0) { 3 } else { 2 })
    );
}

#[test]
fn nobody_goes_again_while_one_of_the_wave_is_still_out() {
    // Ada stops after the first run, which takes her 60 s. Ben could go again after 30 s, when lanes have turned, and
    // the next block could begin while she still runs.
    let mut block = oval_200(2, alike(2, 2, 20.0, 10.0));
    block.runners[0] = Runner::new("Ada", 1, 60.0, 10.0);
    let next = Itinerary { after_s: 30.0, ..oval_200(1, alike(2, 1, 30.0, 0.0)) };
    let plan = planned(&[Party { begins_s: 0.0, itineraries: vec![block.clone(), next.clone()] }]);
    assert!((plan.end_s - (60.0 + 20.0 + 30.0 + 30.0)).abs() < 1e-6, "{}", plan.end_s);
    // The same where another party runs at once.
    let other = Party { begins_s: 0.0, itineraries: vec![Itinerary { lanes: vec![1], ..next.clone() }] };
    planned(&[Party { begins_s: 0.0, itineraries: vec![block, next] }, other]);
}

#[test]
fn a_wave_has_time_to_stand_on_its_start_after_the_block_before() {
    // The first block ends on the start of the second, which goes the other way.
    let mut back = oval_200(1, alike(2, 1, 20.0, 0.0));
    each_run(&mut back, |stretch| stretch.is_reversed = true);
    let blocks = vec![oval_200(1, alike(2, 1, 20.0, 0.0)), back];
    let plan = planned(&[Party { begins_s: 0.0, itineraries: blocks }]);
    assert!((plan.end_s - 50.0).abs() < 1e-6, "{}", plan.end_s);
}

#[test]
fn starts_keep_their_gap_with_a_short_run_by_time_between() {
    // A run of 4 s, 2 s by time, and 4 s again: the two that start on a line are 10 s apart.
    let times = |target_s| RunTimes { target_s, rest_s: 0.0 };
    let mut block =
        oval_200(3, vec![Runner { times: vec![times(4.0), times(2.0), times(4.0)], ..Runner::default() }]);
    block.runs[1] = None;
    assert!((planned(&alone(block)).end_s - 14.0).abs() < 1e-6);
}

#[test]
fn numbers_that_make_no_sense_are_named() {
    for target_s in [0.0, -1.0, f64::NAN, f64::INFINITY, 30_000.0] {
        let error = refused(|block| block.runners[1].times[0].target_s = target_s);
        assert!(matches!(error, SquadError::Time { what: "target", .. }), "{error}");
    }
    for rest_s in [-1.0, f64::NAN, f64::INFINITY] {
        let error = refused(|block| block.runners[1].times[0].rest_s = rest_s);
        assert!(matches!(error, SquadError::Time { what: "rest", .. }), "{error}");
    }
    for (what, error) in [
        ("number of runs", refused(|block| block.runs.clear())),
        ("distance", refused(|block| each_run(block, |run| run.distance_m = f64::NAN))),
        ("distance", refused(|block| each_run(block, |run| run.distance_m = 0.0))),
        ("shortest lap", refused(|block| each_run(block, |run| run.ground = laps(0.0, 400.0)))),
        ("longest lap", refused(|block| each_run(block, |run| run.ground = laps(400.0, 300.0)))),
    ] {
        assert!(matches!(error, SquadError::Number { what: named, .. } if named == what), "{error}");
    }
    let rules = TimingRules { start_gap_s: f64::NAN, ..TimingRules::default() };
    let error = plan_evening(&alone(oval_200(6, alike(4, 6, 34.0, 180.0))), &rules, &[])
        .expect_err("a gap is a number");
    assert!(matches!(error, SquadError::Number { what: "start gap", .. }), "{error}");
}

#[test]
fn nobody_and_no_lane_are_refused() {
    assert_eq!(refused(|block| block.runners.clear()), SquadError::Nobody);
    assert_eq!(refused(|block| block.lanes.clear()), SquadError::NoLanes);
    assert_eq!(plan_evening(&[], &TimingRules::default(), &[]), Err(SquadError::Nobody));
}

#[test]
fn more_pins_than_lanes_are_refused_with_the_names() {
    let error =
        refused(|block| block.runners[..2].iter_mut().for_each(|runner| runner.lanes = Some(vec![3])));
    let SquadError::Pins { names } = &error else { panic!("{error}") };
    assert!(names.contains(&"0".to_owned()) && names.contains(&"1".to_owned()));
    let error = refused(|block| block.runners[0].lanes = Some(vec![1]));
    assert!(matches!(error, SquadError::Pins { .. }), "{error}");
}

#[test]
fn forty_one_in_one_lane_take_as_long_as_they_take() {
    let block = Itinerary { lanes: vec![2], ..oval_200(6, alike(41, 6, 34.0, 180.0)) };
    let plan = planned(&alone(block));
    assert_eq!(waves(&plan).len(), 41);
    // 246 starts, 10 s apart, and the last run.
    assert!((plan.end_s - (245.0 * 10.0 + 34.0)).abs() < 1e-6, "{}", plan.end_s);
    assert!(plan.is_proven && (plan.bound_s - plan.end_s).abs() < 1e-6);
}

#[test]
fn groups_take_the_lanes_in_turn() {
    let runners = (0..7).map(|n| Runner::new("", 1, 200.0 + f64::from(n), 60.0)).collect();
    let mut block = oval_200(1, runners);
    (block.mode, block.lanes) = (Mode::GroupToALane { most: 1 }, vec![2, 3, 4]);
    let plan = planned(&alone(block));
    let lanes: Vec<u8> = waves(&plan).iter().map(|wave| wave.lanes[0][0]).collect();
    assert_eq!(lanes, [2, 3, 4, 2, 3, 4, 2]);
}

#[test]
fn each_block_of_several_parties_has_its_own_bound() {
    // Each is alone in its lanes, and each party has its own watch: every block takes as long as it must.
    let party = |first: u8, begins_s| {
        let block = Itinerary { lanes: vec![first, first + 1], ..oval_200(3, alike(4, 3, 34.0, 180.0)) };
        Party { begins_s, itineraries: vec![block.clone(), Itinerary { after_s: 120.0, ..block }] }
    };
    let parties = [party(2, 0.0), party(5, 3.0)];
    let rules = TimingRules { timers: Timers::EachGroup, start_gap_s: 3.0, ..TimingRules::default() };
    let plan = plan_evening(&parties, &rules, &[]).expect("the squad can run");
    assert_eq!(faults(&parties, &rules, &plan), [""; 0]);
    // Three runs with two rests; the second wave's finish is 5 s behind the first's, its start 3 s or more.
    let lasts_s = 3.0 * 34.0 + 2.0 * 180.0 + 5.0;
    for (planned, begins_s) in plan.parties.iter().zip([0.0, 3.0]) {
        for (block, begins_s) in planned.iter().zip([begins_s, begins_s + lasts_s + 120.0]) {
            assert!((block.begins_s - begins_s).abs() < 3.0 + 1e-6, "{block:?}");
            // A start gap of 3 s behind the first wave is all that no plan of it can do without.
            assert!((block.bound_s - (lasts_s - 2.0)).abs() < 1e-6, "{block:?}");
            assert!(block.end_s - block.begins_s > lasts_s - 1e-6, "{block:?}");
            assert!(!block.is_proven, "it takes 2 s longer than its bound");
        }
    }
}

#[test]
fn of_plans_that_end_at_once_nobody_waits_who_need_not() {
    // Three in two lanes, one of whom rests longer: whoever shares their wave waits.
    for (rests_s, apart) in [([60.0, 60.0, 90.0], [2].as_slice()), ([60.0, 90.0, 90.0], &[0])] {
        let runners = rests_s.iter().map(|&rest_s| Runner::new("", 4, 30.0, rest_s)).collect();
        let plan = planned(&alone(Itinerary { lanes: vec![2, 3], ..oval_200(4, runners) }));
        let alone = waves(&plan).iter().find(|wave| wave.members.len() == 1).expect("one runs alone");
        assert_eq!(alone.members, apart, "{rests_s:?}");
    }
}

#[test]
fn after_a_late_change_runners_stay_in_their_waves() {
    let block = Itinerary { lanes: vec![2, 3], ..oval_200(3, alike(6, 3, 34.0, 180.0)) };
    let parties = alone(block);
    let rules = TimingRules::default();
    for before in [[2, 0, 1, 1, 0, 2], [0, 0, 1, 1, 2, 2], [2, 2, 1, 1, 0, 0]] {
        let waves_before = before.map(Some).to_vec();
        let plan = plan_evening(&parties, &rules, &[vec![waves_before]]).expect("the squad can run");
        assert_eq!(faults(&parties, &rules, &plan), [""; 0]);
        let kept = (waves(&plan).iter().enumerate())
            .flat_map(|(wave, planned)| planned.members.iter().filter(move |&&member| before[member] == wave))
            .count();
        // Like runners are cut in their order: where that is how they ran, all stay.
        let most = if before[0] == before[1] { 6 } else { 2 };
        assert!(kept >= most, "{before:?}: {kept} stay");
    }
    // A runner who is new has no wave to stay in.
    let plan = plan_evening(&parties, &rules, &[vec![vec![Some(1), Some(1), Some(0), Some(0), None]]]);
    let plan = plan.expect("the squad can run");
    assert_eq!(waves(&plan)[..2].iter().map(|wave| &wave.members).collect::<Vec<_>>(), [&[2, 3], &[0, 1]]);
}

#[test]
fn two_timers_take_two_finishes_at_once_all_evening() {
    // Eighty pairs, each in its own lanes, run eight times in 30 s and 34 s: 640 starts, a second apart at least. A
    // timer who has taken a finish of 4 s is free after 10 s more, so that two finish in 14 s. A pair goes again 554 s
    // later, when the others have gone.
    let party = |number: u8| {
        let runners = [30.0, 34.0].map(|target_s| Runner::new("", 8, target_s, 520.0)).to_vec();
        let lanes = vec![2 * number + 1, 2 * number + 2];
        Party { begins_s: 0.0, itineraries: vec![Itinerary { lanes, ..oval_200(8, runners) }] }
    };
    let parties: Vec<Party> = (0..80).map(party).collect();
    let rules = TimingRules { timing_gap_s: 10.0, start_gap_s: 1.0, timers: Timers::Two };
    let plan = plan_evening(&parties, &rules, &[]).expect("the squad can run");
    assert_eq!(faults(&parties, &rules, &plan), [""; 0]);
    let end_s = 319.0 * 14.0 + 1.0 + 34.0;
    assert!((plan.end_s - end_s).abs() < 1e-6, "{}", plan.end_s);
    // So many starts get one quick plan, of which nothing is proven.
    assert!(!plan.is_proven && plan.bound_s < plan.end_s, "{}", plan.bound_s);
}

#[test]
fn a_party_begins_when_it_can_and_has_done_what_comes_first() {
    // It can begin after 45 s, and does something else for 60 s; between its blocks it does so for 20 s.
    let first = Itinerary { after_s: 60.0, ..oval_200(2, alike(2, 2, 34.0, 180.0)) };
    let second = Itinerary { after_s: 20.0, ..oval_200(1, alike(2, 1, 34.0, 180.0)) };
    let party = Party { begins_s: 45.0, itineraries: vec![first, second] };
    let other = Party { begins_s: 0.0, itineraries: vec![oval_200(1, alike(1, 1, 34.0, 0.0))] };
    let ends_s = 45.0 + 60.0 + 34.0 + 180.0 + 34.0;
    for parties in [vec![party.clone()], vec![party, other]] {
        let plan = planned(&parties);
        let begins: Vec<f64> = plan.parties[0].iter().map(|block| block.begins_s).collect();
        assert_eq!(begins, [105.0, ends_s + 20.0]);
        assert_eq!(plan.parties[0][0].waves[0].go_s, [105.0, 105.0 + 214.0]);
        assert!((plan.end_s - (ends_s + 20.0 + 34.0)).abs() < 1e-6, "{}", plan.end_s);
    }
}

#[test]
fn the_bound_of_a_party_is_that_of_its_blocks_in_turn() {
    // Twenty-four of many speeds at one watch: too many orders for every one to be looked at.
    let block = |rest_s: f64, after_s: f64| {
        let target_s = |n: u32| 30.0 + f64::from(n * 7 % 24);
        let runners = (0..24).map(|n| Runner::new(n.to_string(), 4, target_s(n), rest_s)).collect();
        Itinerary { lanes: vec![2, 3], after_s, ..oval_200(4, runners) }
    };
    let party = Party { begins_s: 7.0, itineraries: vec![block(30.0, 0.0), block(60.0, 100.0)] };
    let plan = planned(&[party]);
    assert!(!plan.is_proven, "{} s", plan.end_s);
    let blocks_s: f64 = plan.parties[0].iter().map(|block| block.bound_s).sum();
    assert!((plan.bound_s - (7.0 + 100.0 + blocks_s)).abs() < 1e-6, "{} s", plan.bound_s);
}

//! Squads that make no sense: an error or a plan that keeps its promises, never a panic.

use std::collections::BTreeMap;

use proptest::prelude::*;
use wave_plan::{Ground, Mode, Timers, TimingRules};

use crate::planned::faults;
use crate::sets::{Runner, SquadSet, plan_squads};

/// Numbers that a set can have, and numbers that it cannot.
fn number() -> impl Strategy<Value = f64> {
    let odd =
        [0.0, -0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MIN_POSITIVE, f64::MAX, 1e-9, 1e9];
    prop_oneof![6 => 5.0..2_000.0, 1 => prop::sample::select(odd.to_vec())]
}

fn whole() -> impl Strategy<Value = usize> {
    prop_oneof![4 => 0..9_usize, 1 => prop::sample::select(vec![usize::MAX, 1_000_000, 255])]
}

fn ground() -> impl Strategy<Value = Ground> {
    prop_oneof![
        Just(Ground::Straight),
        (number(), number()).prop_map(|(shortest_m, longest_m)| Ground::Laps { shortest_m, longest_m }),
        Just(Ground::Laps { shortest_m: 400.0, longest_m: 428.0 }),
    ]
}

fn mode() -> impl Strategy<Value = Mode> {
    prop_oneof![
        prop::option::of(whole()).prop_map(|most| Mode::OneToALane { most }),
        whole().prop_map(|most| Mode::GroupToALane { most }),
    ]
}

fn lanes() -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        3 => prop::sample::subsequence((1..=8).collect::<Vec<u8>>(), 0..=8),
        1 => prop::collection::vec(any::<u8>(), 0..30),
    ]
}

fn runner() -> impl Strategy<Value = Runner> {
    let time = || prop_oneof![9 => 8.0..400.0, 1 => number()];
    let lanes = prop::option::weighted(0.2, lanes());
    (time(), time(), lanes).prop_map(|(target_s, rest_s, lanes)| Runner {
        name: "Ada".to_owned(),
        target_s,
        rest_s,
        lanes,
    })
}

fn set() -> impl Strategy<Value = SquadSet> {
    let reps = prop_oneof![8 => 0..7_u32, 1 => Just(u32::MAX)];
    let finish_m = prop::collection::btree_map(1..9_u8, number(), 0..3);
    let runners = prop::collection::vec(runner(), 0..9);
    (reps, number(), ground(), lanes(), finish_m, any::<bool>(), mode(), runners).prop_map(
        |(reps, distance_m, ground, lanes, finish_m, is_reversed, mode, runners)| SquadSet {
            reps,
            distance_m,
            ground,
            lanes,
            finish_m,
            is_reversed,
            mode,
            runners,
        },
    )
}

fn rules() -> impl Strategy<Value = TimingRules> {
    let gap = || prop_oneof![8 => 0.0..30.0, 1 => number()];
    let timers = prop::sample::select(vec![Timers::One, Timers::Two, Timers::Untimed]);
    (gap(), gap(), timers).prop_map(|(timing_gap_s, start_gap_s, timers)| TimingRules {
        timing_gap_s,
        start_gap_s,
        timers,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_squad_makes_the_planner_panic(
        sets in prop::collection::vec(set(), 0..3),
        rules in rules(),
        before in prop::collection::vec(prop::collection::vec(prop::option::of(whole()), 0..9), 0..4),
    ) {
        match plan_squads(&sets, &rules, &before) {
            Ok(plan) => prop_assert!(plan.end_s.is_finite() && plan.bound_s <= plan.end_s),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
    }
}

/// Everybody is planned, in any lane, from any finish, whichever way they run.
#[test]
fn finishes_apart_and_runs_the_other_way_keep_every_promise() {
    let set = |reps, distance_m, finish_m: f64, is_reversed, target_s| SquadSet {
        reps,
        distance_m,
        ground: if is_reversed { Ground::Straight } else { Ground::from_laps([414.7]) },
        lanes: vec![3],
        finish_m: BTreeMap::from([(3, finish_m)]),
        is_reversed,
        mode: Mode::GroupToALane { most: 8 },
        runners: vec![Runner::new("Ada", target_s, 30.0), Runner::new("Ben", target_s + 1.0, 45.0)],
    };
    let rules = TimingRules::default();
    for finish_m in [0.0, -60.0, 120.0, 300.0, 900.0] {
        for (distance_m, target_s, is_reversed) in
            [(60.0, 8.0, false), (60.0, 8.0, true), (300.0, 50.0, false)]
        {
            let sets =
                [set(4, distance_m, finish_m, is_reversed, target_s), set(2, 1_000.0, 0.0, false, 200.0)];
            let plan = plan_squads(&sets, &rules, &[]).expect("everybody can run: nobody is pinned");
            assert_eq!(faults(&sets, &rules, &plan), [""; 0], "{finish_m} {distance_m} {is_reversed}");
        }
    }
}

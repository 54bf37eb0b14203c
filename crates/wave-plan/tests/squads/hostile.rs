//! Squads that make no sense: an error or a plan that keeps its promises, never a panic.

use std::collections::BTreeMap;

use proptest::prelude::*;
use wave_plan::{
    Ground, Itinerary, Mode, Party, RunTimes, Runner, Stretch, Timers, TimingRules, plan_evening,
};

use crate::planned::faults;

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
        Just(Mode::Together),
    ]
}

fn lanes() -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        3 => prop::sample::subsequence((1..=8).collect::<Vec<u8>>(), 0..=8),
        1 => prop::collection::vec(any::<u8>(), 0..30),
    ]
}

fn times(runs: usize) -> impl Strategy<Value = Vec<RunTimes>> {
    let time = || prop_oneof![30 => 8.0..400.0, 1 => number()];
    let one = (time(), time()).prop_map(|(target_s, rest_s)| RunTimes { target_s, rest_s });
    let like = one.prop_map(move |times| vec![times; runs]);
    let each = (time(), time()).prop_map(|(target_s, rest_s)| RunTimes { target_s, rest_s });
    prop_oneof![3 => like, 1 => prop::collection::vec(each, 0..=runs.min(9) + 1)]
}

fn runner(runs: usize) -> impl Strategy<Value = Runner> {
    let lanes = prop::option::weighted(0.2, lanes());
    (times(runs), lanes).prop_map(|(times, lanes)| Runner {
        name: "Ada".to_owned(),
        times,
        lanes,
        ..Runner::default()
    })
}

fn stretch() -> impl Strategy<Value = Option<Stretch>> {
    let finish_m = prop::collection::btree_map(1..9_u8, number(), 0..3);
    let stretch = (number(), ground(), finish_m, any::<bool>()).prop_map(
        |(distance_m, ground, finish_m, is_reversed)| Stretch { distance_m, ground, finish_m, is_reversed },
    );
    prop::option::weighted(0.9, stretch)
}

fn runs() -> impl Strategy<Value = Vec<Option<Stretch>>> {
    let many = prop_oneof![8 => 0..7_usize, 1 => Just(30_000)];
    prop_oneof![
        2 => (stretch(), many).prop_map(|(stretch, count)| vec![stretch; count]),
        1 => prop::collection::vec(stretch(), 0..5),
    ]
}

fn itinerary() -> impl Strategy<Value = Itinerary> {
    let itinerary = |runs: Vec<Option<Stretch>>| {
        let runners = prop::collection::vec(runner(runs.len()), 0..9);
        (prop_oneof![4 => 0.0..600.0, 1 => number()], lanes(), mode(), any::<bool>(), runners).prop_map(
            move |(after_s, lanes, mode, keeps_lanes, runners)| Itinerary {
                after_s,
                runs: runs.clone(),
                lanes,
                mode,
                keeps_lanes,
                runners,
            },
        )
    };
    runs().prop_flat_map(itinerary)
}

fn party() -> impl Strategy<Value = Party> {
    let itineraries = prop::collection::vec(itinerary(), 0..3);
    (prop_oneof![9 => 0.0..600.0, 1 => number()], itineraries)
        .prop_map(|(begins_s, itineraries)| Party { begins_s, itineraries })
}

fn rules() -> impl Strategy<Value = TimingRules> {
    let gap = || prop_oneof![8 => 0.0..30.0, 1 => number()];
    let timers = prop::sample::select(vec![Timers::One, Timers::EachGroup, Timers::Two, Timers::Untimed]);
    (gap(), gap(), timers).prop_map(|(timing_gap_s, start_gap_s, timers)| TimingRules {
        timing_gap_s,
        start_gap_s,
        timers,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_evening_makes_the_planner_panic(
        parties in prop::collection::vec(party(), 0..3),
        rules in rules(),
        before in prop::collection::vec(
            prop::collection::vec(prop::collection::vec(prop::option::of(whole()), 0..9), 0..4), 0..4),
    ) {
        match plan_evening(&parties, &rules, &before) {
            Ok(plan) => prop_assert!(plan.end_s.is_finite() && plan.bound_s <= plan.end_s),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
    }
}

/// Everybody is planned, in any lane, from any finish, whichever way they run.
#[test]
fn finishes_apart_and_runs_the_other_way_keep_every_promise() {
    let party = |reps, distance_m, finish_m: f64, is_reversed, target_s| {
        let stretch = Stretch {
            distance_m,
            ground: if is_reversed { Ground::Straight } else { Ground::from_laps([414.7]) },
            finish_m: BTreeMap::from([(3, finish_m)]),
            is_reversed,
        };
        let runners =
            vec![Runner::new("Ada", reps, target_s, 30.0), Runner::new("Ben", reps, target_s + 1.0, 45.0)];
        let itinerary = Itinerary::repetitions(reps, stretch, vec![3], runners);
        let itineraries = vec![Itinerary { mode: Mode::GroupToALane { most: 8 }, ..itinerary }];
        Party { begins_s: 0.0, itineraries }
    };
    let rules = TimingRules::default();
    for finish_m in [0.0, -60.0, 120.0, 300.0, 900.0] {
        for (distance_m, target_s, is_reversed) in
            [(60.0, 8.0, false), (60.0, 8.0, true), (300.0, 50.0, false)]
        {
            let parties =
                [party(4, distance_m, finish_m, is_reversed, target_s), party(2, 1_000.0, 0.0, false, 200.0)];
            let plan = plan_evening(&parties, &rules, &[]).expect("everybody can run: nobody is pinned");
            assert_eq!(faults(&parties, &rules, &plan), [""; 0], "{finish_m} {distance_m} {is_reversed}");
        }
    }
}

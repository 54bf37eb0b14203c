//! Runners who take a lane beside their own, such as one for a guide.

use std::collections::BTreeSet;

use wave_plan::{Ground, Itinerary, Mode, Party, Runner, SquadError, Stretch, TimingRules, plan_evening};

use crate::dice::Dice;

fn itinerary(dice: &mut Dice, runners: u64) -> Itinerary {
    let lanes: Vec<u8> = (1..=dice.whole(2, 8) as u8).collect();
    let distance_m = dice.pick(&[200.0, 400.0, 800.0]);
    let longest_m = 400.0 + 7.0 * (lanes.len() as f64 - 1.0);
    let ground = Ground::Laps { shortest_m: 400.0, longest_m };
    let stretch = Stretch { distance_m, ground, ..Stretch::default() };
    let reps = dice.whole(1, 4) as usize;
    let runner = |n: u64| {
        let target_s = distance_m / 100.0 * dice.pick(&[15.0, 16.0, 18.0]);
        let lanes_beside = dice.pick(&[0, 0, 1]);
        Runner { lanes_beside, ..Runner::new(n.to_string(), reps, target_s, 90.0) }
    };
    let runners = (0..runners).map(runner).collect();
    Itinerary::repetitions(reps, stretch, lanes, runners)
}

/// The lanes of one run that are taken, each as often as it is.
fn taken(itinerary: &Itinerary, members: &[usize], lanes: &[u8]) -> Vec<u8> {
    let of = |(&member, &lane): (&usize, &u8)| lane..=lane + itinerary.runners[member].lanes_beside;
    members.iter().zip(lanes).flat_map(of).collect()
}

/// The fewest waves by trying all: each is a stretch of the order by target whose lanes do not exceed those open.
fn fewest(widths: &[usize], lanes: usize) -> usize {
    if widths.is_empty() {
        return 0;
    }
    let fits = (1..=widths.len()).filter(|&count| widths[..count].iter().sum::<usize>() <= lanes);
    fits.map(|count| 1 + fewest(&widths[count..], lanes)).min().expect("two lanes suffice for anybody")
}

#[test]
fn no_two_of_a_wave_take_a_lane_and_the_waves_are_the_fewest() {
    let mut dice = Dice(17);
    for _ in 0..200 {
        let runners = dice.whole(1, 9);
        let itinerary = itinerary(&mut dice, runners);
        let party = Party { begins_s: 0.0, itineraries: vec![itinerary.clone()] };
        let plan =
            plan_evening(&[party], &TimingRules::default(), &[]).expect("two lanes suffice for anybody");
        let waves = &plan.parties[0][0].waves;
        for wave in waves {
            for lanes in &wave.lanes {
                let taken = taken(&itinerary, &wave.members, lanes);
                let once: BTreeSet<u8> = taken.iter().copied().collect();
                assert_eq!(once.len(), taken.len(), "{lanes:?} of {itinerary:?}");
                assert!(once.iter().all(|lane| itinerary.lanes.contains(lane)), "{lanes:?} of {itinerary:?}");
            }
        }
        let mut everybody: Vec<usize> = waves.iter().flat_map(|wave| wave.members.clone()).collect();
        everybody.sort_unstable();
        assert_eq!(everybody, (0..itinerary.runners.len()).collect::<Vec<_>>());
        let mut order: Vec<&Runner> = itinerary.runners.iter().collect();
        order.sort_by(|a, b| a.times[0].target_s.total_cmp(&b.times[0].target_s));
        let widths: Vec<usize> = order.iter().map(|runner| 1 + usize::from(runner.lanes_beside)).collect();
        assert_eq!(waves.len(), fewest(&widths, itinerary.lanes.len()), "{itinerary:?}");
        assert!(plan.bound_s <= plan.end_s + 1e-6, "{plan:?}");
    }
}

#[test]
fn a_group_leaves_the_lane_beside_it_to_its_guides() {
    let stretch = Stretch { distance_m: 1000.0, ..Stretch::default() };
    let mut runners: Vec<Runner> = (0..4).map(|n| Runner::new(n.to_string(), 2, 200.0, 120.0)).collect();
    runners[0].lanes_beside = 1;
    let mode = Mode::GroupToALane { most: 2 };
    let itinerary = Itinerary { mode, ..Itinerary::repetitions(2, stretch, vec![2, 3, 5], runners) };
    let party = Party { begins_s: 0.0, itineraries: vec![itinerary] };
    let plan = plan_evening(&[party], &TimingRules::default(), &[]).expect("lanes 2 and 3 adjoin");
    let of_pair = plan.parties[0][0].waves.iter().find(|wave| wave.members.contains(&0)).expect("all run");
    assert!(of_pair.lanes.iter().flatten().all(|lane| *lane == 2), "{of_pair:?}");
}

#[test]
fn who_finds_no_adjoining_lanes_is_named() {
    let stretch = Stretch { distance_m: 200.0, ..Stretch::default() };
    let ada = Runner { lanes_beside: 1, ..Runner::new("Ada", 1, 30.0, 60.0) };
    for mode in [Mode::OneToALane { most: None }, Mode::GroupToALane { most: 4 }] {
        let runners = vec![ada.clone(), Runner::new("Ben", 1, 31.0, 60.0)];
        let itinerary =
            Itinerary { mode, ..Itinerary::repetitions(1, stretch.clone(), vec![2, 4, 6], runners) };
        let party = Party { begins_s: 0.0, itineraries: vec![itinerary] };
        let error = plan_evening(&[party], &TimingRules::default(), &[]).expect_err("no two lanes adjoin");
        assert_eq!(error, SquadError::Beside { name: "Ada".to_owned(), lanes: 2 });
    }
}

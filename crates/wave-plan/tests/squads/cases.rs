//! Squads made by chance, the same ones each time.

use wave_plan::{Ground, Mode, Timers, TimingRules};

use crate::dice::Dice;
use crate::sets::{Runner, SquadSet};

/// How large squads may be.
pub(crate) struct Size {
    pub(crate) sets: u64,
    pub(crate) runners: u64,
    pub(crate) reps: u64,
    pub(crate) lanes: u64,
}

/// Sets at once, with the lanes shared out or, one time in four, the same for all.
pub(crate) fn squads(dice: &mut Dice, size: &Size) -> (Vec<SquadSet>, TimingRules) {
    let count = dice.whole(1, size.sets);
    let lanes_each = dice.whole(1, (size.lanes / count).max(1));
    let shared_out = dice.whole(1, 4) > 1;
    let shortest_m = dice.pick(&[200.0, 300.0, 400.0, 407.0]);
    let mut left = size.runners;
    let sets = (0..count)
        .map(|set| {
            let first = if shared_out { set * lanes_each } else { 0 };
            let lanes: Vec<u8> = (1..=lanes_each).map(|lane| (first + lane) as u8).collect();
            let most_here = (left - (count - set - 1)).min(size.runners);
            let runners = dice.whole(1, most_here);
            left -= runners;
            one_set(dice, size, lanes, runners, shortest_m)
        })
        .collect();
    let rules = TimingRules {
        timing_gap_s: dice.pick(&[0.0, 3.0, 5.0, 5.0, 8.0]),
        start_gap_s: dice.pick(&[5.0, 10.0, 10.0, 15.0]),
        timers: dice.pick(&[Timers::One, Timers::Two, Timers::Untimed]),
    };
    (sets, rules)
}

fn one_set(dice: &mut Dice, size: &Size, lanes: Vec<u8>, runners: u64, shortest_m: f64) -> SquadSet {
    let distance_m = dice.pick(&[60.0, 100.0, 200.0, 300.0, 400.0, 600.0, 800.0, 1000.0, 1500.0, 3000.0]);
    let mode = if dice.whole(0, 1) == 0 {
        Mode::OneToALane { most: (dice.whole(0, 2) == 0).then(|| dice.whole(1, 6) as usize) }
    } else {
        Mode::GroupToALane { most: dice.whole(2, 8) as usize }
    };
    // From 12 s to 25 s for 100 m, and in some squads everybody alike.
    let spread = dice.pick(&[0, 2, 6]);
    let slow = dice.whole(12, 18);
    let rest_s = dice.pick(&[0.0, 30.0, 60.0, 90.0, 180.0]);
    let runners = (0..runners)
        .map(|n| {
            let per_100_m = (slow + dice.whole(0, spread)) as f64;
            let extra_s = dice.pick(&[0.0, 0.0, 15.0]);
            Runner::new(n.to_string(), (distance_m * per_100_m / 100.0).round(), rest_s + extra_s)
        })
        .collect();
    // Short runs may be on the straight.
    let is_straight = distance_m <= 100.0 && dice.whole(0, 1) == 0;
    let longest_m = shortest_m + 6.0 * (lanes.len() as f64 - 1.0);
    let ground = if is_straight { Ground::Straight } else { Ground::Laps { shortest_m, longest_m } };
    let reps = dice.whole(1, size.reps) as u32;
    SquadSet { reps, distance_m, ground, lanes, mode, runners, ..SquadSet::default() }
}

//! Evenings made by chance, the same ones each time: parties with blocks of every form.

use std::collections::BTreeMap;

use wave_plan::{Ground, Itinerary, Mode, Party, RunTimes, Runner, Stretch, Timers, TimingRules};

use crate::dice::Dice;

/// How large evenings may be.
pub(crate) struct Size {
    pub(crate) parties: u64,
    pub(crate) blocks: u64,
    pub(crate) runners: u64,
    pub(crate) runs: u64,
    pub(crate) lanes: u64,
}

pub(crate) const SMALL: Size = Size { parties: 3, blocks: 2, runners: 8, runs: 4, lanes: 6 };
pub(crate) const MIDDLING: Size = Size { parties: 3, blocks: 3, runners: 16, runs: 6, lanes: 8 };
pub(crate) const LARGE: Size = Size { parties: 3, blocks: 4, runners: 40, runs: 12, lanes: 8 };

/// Parties with the lanes shared out or, one time in four, the same for all.
pub(crate) fn evening(dice: &mut Dice, size: &Size) -> (Vec<Party>, TimingRules) {
    let count = dice.whole(1, size.parties);
    let lanes_each = dice.whole(1, (size.lanes / count).max(1));
    let shared_out = dice.whole(1, 4) > 1;
    let shortest_m = dice.pick(&[200.0, 300.0, 400.0, 407.0]);
    let mut left = size.runners;
    let parties = (0..count)
        .map(|party| {
            let first = if shared_out { party * lanes_each } else { 0 };
            let lanes: Vec<u8> = (1..=lanes_each).map(|lane| (first + lane) as u8).collect();
            let runners = dice.whole(1, left - (count - party - 1));
            left -= runners;
            let many = dice.whole(1, size.blocks);
            Party {
                begins_s: dice.pick(&[0.0, 0.0, 45.0, 300.0]),
                itineraries: (0..many).map(|_| block(dice, size, &lanes, runners, shortest_m)).collect(),
            }
        })
        .collect();
    let rules = TimingRules {
        timing_gap_s: dice.pick(&[0.0, 3.0, 5.0, 5.0, 8.0]),
        start_gap_s: dice.pick(&[5.0, 10.0, 10.0, 15.0]),
        timers: dice.pick(&[Timers::One, Timers::EachGroup, Timers::Two, Timers::Untimed]),
    };
    (parties, rules)
}

const RUNS_M: [f64; 10] = [60.0, 100.0, 200.0, 300.0, 400.0, 600.0, 800.0, 1000.0, 1500.0, 3000.0];

/// The runs of a block: repetitions, a ladder, changing ends, or runs by time among others.
fn runs(dice: &mut Dice, size: &Size, lanes: &[u8], shortest_m: f64) -> Vec<Option<Stretch>> {
    let count = dice.whole(1, size.runs);
    let longest_m = shortest_m + 6.0 * (lanes.len() as f64 - 1.0);
    let laps = Ground::Laps { shortest_m, longest_m };
    let finish_m =
        |finish_m: f64| -> BTreeMap<u8, f64> { lanes.iter().map(|lane| (*lane, finish_m)).collect() };
    let distance_m = dice.pick(&RUNS_M);
    let on_laps = |distance_m: f64, ends_m: f64| Stretch {
        distance_m,
        ground: laps,
        finish_m: finish_m(ends_m),
        is_reversed: false,
    };
    match dice.whole(0, 6) {
        // Changing ends on the straight, out against the direction of running and back, or the other way about.
        0 => {
            let (distance_m, first) = (dice.pick(&[40.0, 60.0, 100.0]), dice.whole(0, 1));
            let straight = |run: u64| {
                let is_reversed = (run + first).is_multiple_of(2);
                let ends_m = if is_reversed { distance_m } else { 0.0 };
                Stretch { distance_m, ground: Ground::Straight, finish_m: finish_m(ends_m), is_reversed }
            };
            (0..count).map(|run| Some(straight(run))).collect()
        }
        // A ladder: one finish, several starts.
        1 | 2 => {
            let longest = if distance_m > 1_000.0 { 1_000.0 } else { distance_m };
            let ladder: Vec<f64> = RUNS_M.into_iter().filter(|run_m| *run_m <= longest).collect();
            (0..count).map(|_| Some(on_laps(dice.pick(&ladder), 0.0))).collect()
        }
        // Runs by time between others, or alone.
        3 => (0..count)
            .map(|_| (dice.whole(0, 1) == 0).then(|| on_laps(distance_m.min(1_000.0), 0.0)))
            .collect(),
        // A chain: each run ends where the next begins.
        4 => {
            let distance_m = distance_m.min(400.0);
            (0..count).map(|run| Some(on_laps(distance_m, (run as f64 * distance_m) % shortest_m))).collect()
        }
        // Repetitions. Short ones may be on the straight, and may finish anywhere.
        _ => {
            let is_straight = distance_m <= 100.0 && dice.whole(0, 1) == 0;
            let ends_m = dice.pick(&[0.0, 0.0, 0.0, -60.0, 120.0]);
            let ground = if is_straight { Ground::Straight } else { laps };
            vec![Some(Stretch { ground, ..on_laps(distance_m, ends_m) }); count as usize]
        }
    }
}

fn block(dice: &mut Dice, size: &Size, lanes: &[u8], runners: u64, shortest_m: f64) -> Itinerary {
    let runs = runs(dice, size, lanes, shortest_m);
    let mode = match dice.whole(0, 8) {
        0 => Mode::Together,
        1..5 => Mode::OneToALane { most: (dice.whole(0, 2) == 0).then(|| dice.whole(1, 6) as usize) },
        _ => Mode::GroupToALane { most: dice.whole(2, 8) as usize },
    };
    // From 12 s to 25 s for 100 m, and in some blocks everybody alike.
    let spread = dice.pick(&[0, 2, 6]);
    let slow = dice.whole(12, 18);
    let rest_s = dice.pick(&[0.0, 30.0, 60.0, 90.0, 180.0]);
    let by_time_s = dice.pick(&[20.0, 60.0, 120.0]);
    // In one block of three somebody may stop early.
    let some_stop = dice.whole(0, 2) == 0;
    let runner = |n: u64| {
        let s_per_100_m = (slow + dice.whole(0, spread)) as f64;
        let rest_s = rest_s + dice.pick(&[0.0, 0.0, 15.0]);
        let times = |run: &Option<Stretch>| RunTimes {
            target_s: run.as_ref().map_or(by_time_s, |run| (run.distance_m * s_per_100_m / 100.0).round()),
            rest_s,
        };
        let mut times: Vec<RunTimes> = runs.iter().map(times).collect();
        if some_stop {
            times.truncate(dice.whole(1, times.len() as u64 + 2) as usize);
        }
        Runner { name: n.to_string(), times, ..Runner::default() }
    };
    let runners = (0..runners).map(runner).collect();
    Itinerary {
        after_s: dice.pick(&[0.0, 10.0, 60.0, 300.0]),
        lanes: lanes.to_vec(),
        mode,
        keeps_lanes: dice.whole(0, 2) == 0,
        runners,
        runs,
    }
}

//! What may not lie between two starts, found by trying: two runs are laid out and looked at.

use std::collections::HashMap;

use wave_plan::{Mode, SquadSet, Timers, TimingRules};

use super::Start;
use crate::squad_checker::pair::{Run, clash, laps_m};

/// Differences are tried so far apart, in seconds; what is narrower goes unseen.
const STEP_S: f64 = 0.29;

/// What was found for two runners of two sets.
#[derive(Default)]
pub(super) struct Apart {
    clashes: HashMap<[usize; 4], Vec<(f64, f64)>>,
}

impl Apart {
    /// Open intervals that the start of `b` may not lie in, counted from the start of `a`.
    pub(super) fn forbidden(
        &mut self,
        sets: &[SquadSet],
        rules: &TimingRules,
        a: &Start,
        b: &Start,
    ) -> Vec<(f64, f64)> {
        let mut forbidden = vec![(-rules.start_gap_s, rules.start_gap_s)];
        if rules.timers == Timers::One {
            forbidden.push(together(sets, rules, a, b));
        }
        if lanes(sets, a).iter().any(|lane| lanes(sets, b).contains(lane)) {
            for &one in &a.members {
                for &other in &b.members {
                    let found = (self.clashes.entry([a.set, one, b.set, other]))
                        .or_insert_with(|| clashes(sets, (a.set, one), (b.set, other)));
                    forbidden.extend_from_slice(found);
                }
            }
        }
        joined(forbidden)
    }
}

fn lanes(sets: &[SquadSet], start: &Start) -> Vec<u8> {
    let lanes = &sets[start.set].lanes;
    match sets[start.set].mode {
        Mode::OneToALane { .. } => lanes.clone(),
        Mode::GroupToALane { .. } => vec![lanes[start.wave % lanes.len()]],
    }
}

/// Where the finish windows come closer than the timing gap.
pub(super) fn together(sets: &[SquadSet], rules: &TimingRules, a: &Start, b: &Start) -> (f64, f64) {
    let targets = |start: &Start| -> Vec<f64> {
        start.members.iter().map(|&member| sets[start.set].runners[member].target_s).collect()
    };
    let least = |targets: &[f64]| targets.iter().copied().fold(f64::INFINITY, f64::min);
    let most = |targets: &[f64]| targets.iter().copied().fold(0.0, f64::max);
    let (a, b) = (targets(a), targets(b));
    (least(&a) - most(&b) - rules.timing_gap_s, most(&a) - least(&b) + rules.timing_gap_s)
}

fn clashes(sets: &[SquadSet], a: (usize, usize), b: (usize, usize)) -> Vec<(f64, f64)> {
    let run = |(set, member): (usize, usize), go_s: f64| Run {
        go_s,
        target_s: sets[set].runners[member].target_s,
        distance_m: sets[set].distance_m,
    };
    let lap_m = laps_m(&sets[a.0], &sets[b.0])[0];
    let does = |apart_s: f64| clash(&run(a, 0.0), &run(b, apart_s), lap_m).is_some();
    // Where the answer changes, to a hundred-thousandth of a second.
    let edge = |mut before_s: f64, mut after_s: f64| {
        let answer = does(before_s);
        while after_s - before_s > 1e-6 {
            let middle_s = f64::midpoint(before_s, after_s);
            if does(middle_s) == answer {
                before_s = middle_s;
            } else {
                after_s = middle_s;
            }
        }
        f64::midpoint(before_s, after_s)
    };
    let from_s = -run(b, 0.0).done_s() - 20.0;
    let to_s = run(a, 0.0).done_s() + 20.0;
    let mut intervals = Vec::new();
    let mut at_s = from_s;
    let mut begun_s = None;
    while at_s < to_s {
        let next_s = at_s + STEP_S;
        match (does(at_s), does(next_s)) {
            (false, true) => begun_s = Some(edge(at_s, next_s)),
            (true, false) => intervals.extend(begun_s.take().map(|begun_s| (begun_s, edge(at_s, next_s)))),
            _ => {}
        }
        at_s = next_s;
    }
    intervals
}

fn joined(mut intervals: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    intervals.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (low_s, high_s) in intervals.into_iter().filter(|(low_s, high_s)| low_s < high_s) {
        match joined.last_mut() {
            // Between two that touch nobody can start.
            Some(last) if low_s < last.1 + 1e-3 => last.1 = last.1.max(high_s),
            _ => joined.push((low_s, high_s)),
        }
    }
    joined
}

//! What may not lie between two starts, found by trying: two runs are laid out and looked at.

use std::collections::HashMap;

use wave_plan::{Ground, Mode, Timers, TimingRules};

use super::Start;
use crate::checker::{Run, clash};
use crate::search::set::SquadSet;

/// Differences are tried so far apart, in seconds; what is narrower goes unseen.
const STEP_S: f64 = 0.29;

/// The set of a runner, the runner, and the lanes that it may be in.
type Member = (usize, usize, Vec<u8>);

/// What was found for two runners of two sets.
#[derive(Default)]
pub(super) struct Apart {
    clashes: HashMap<(Member, Member), Vec<(f64, f64)>>,
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
                    let lanes = (lanes(sets, a), lanes(sets, b));
                    let runs =
                        (run(&sets[a.set], one, lanes.0.clone()), run(&sets[b.set], other, lanes.1.clone()));
                    let key = ((a.set, one, lanes.0), (b.set, other, lanes.1));
                    let found = self.clashes.entry(key).or_insert_with(|| clashes(runs.0, runs.1));
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
        Mode::OneToALane { .. } | Mode::Together => lanes.clone(),
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

/// The shortest lap of a ground and the longest; none on a straight.
pub(crate) fn laps_m(ground: Ground) -> Vec<f64> {
    match ground {
        Ground::Straight => Vec::new(),
        Ground::Laps { shortest_m, longest_m } => vec![shortest_m, longest_m],
    }
}

/// A run of a member of a set that starts at 0.
fn run(set: &SquadSet, member: usize, lanes: Vec<u8>) -> Run {
    let finish_m = |lane: u8| set.finish_m.get(&lane).copied().unwrap_or(0.0);
    Run {
        who: member.to_string(),
        go_s: 0.0,
        target_s: set.runners[member].target_s,
        cycle_s: 0.0,
        distance_m: set.distance_m,
        lanes: lanes.into_iter().map(|lane| (lane, finish_m(lane))).collect(),
        laps_m: laps_m(set.ground),
        is_reversed: set.is_reversed,
    }
}

fn clashes(a: Run, b: Run) -> Vec<(f64, f64)> {
    let does = |apart_s: f64| clash(&a, &Run { go_s: apart_s, ..b.clone() }).is_some();
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
    let from_s = -b.target_s - 20.0;
    let to_s = a.target_s + 20.0;
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

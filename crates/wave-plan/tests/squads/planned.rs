//! What the solver planned, as the checker reads it.

use std::collections::BTreeSet;

use wave_plan::{Mode, TimingRules, WavePlan};

use crate::checker::{self, Run, Start, TOLERANCE_S, end_s};
use crate::search::{apart::laps_m, orders::most};
use crate::sets::{SquadPlan, SquadSet};

/// Everything that is wrong with a plan, one sentence each.
pub(crate) fn faults(sets: &[SquadSet], rules: &TimingRules, plan: &SquadPlan) -> Vec<String> {
    let mut faults = Vec::new();
    if plan.sets.len() != sets.len() {
        return vec![format!("{} sets were planned of {}", plan.sets.len(), sets.len())];
    }
    for (set, waves) in sets.iter().zip(&plan.sets) {
        members(set, waves, &mut faults);
        lanes(set, waves, &mut faults);
    }
    if !faults.is_empty() {
        return faults;
    }
    let starts = starts(sets, plan);
    faults = checker::faults(&starts, rules);
    let end_s = end_s(&starts);
    if (end_s - plan.end_s).abs() > TOLERANCE_S {
        faults.push(format!("the end is {end_s}, not {}", plan.end_s));
    }
    if plan.bound_s > end_s + TOLERANCE_S || plan.is_proven && plan.bound_s < end_s - TOLERANCE_S {
        faults.push(format!("bound {} for end {end_s}, proven: {}", plan.bound_s, plan.is_proven));
    }
    faults
}

fn starts(sets: &[SquadSet], plan: &SquadPlan) -> Vec<Start> {
    let mut starts = Vec::new();
    for (number, (planned, set)) in plan.sets.iter().zip(sets).enumerate() {
        for rep in 0..set.reps as usize {
            for (wave, planned) in planned.iter().enumerate() {
                let go_s = planned.go_s[rep];
                // Who is alone in a lane may have any of them: lanes turn.
                let lanes = match set.mode {
                    Mode::OneToALane { .. } => &set.lanes,
                    Mode::GroupToALane { .. } | Mode::Together => &planned.lanes[rep][..1].to_vec(),
                };
                let finish_m = |lane: &u8| set.finish_m.get(lane).copied().unwrap_or(0.0);
                let run = |&member: &usize| Run {
                    who: format!("runner {member} of set {number}"),
                    go_s,
                    target_s: set.runners[member].target_s,
                    cycle_s: set.runners[member].target_s + set.runners[member].rest_s,
                    distance_m: set.distance_m,
                    lanes: lanes.iter().map(|lane| (*lane, finish_m(lane))).collect(),
                    laps_m: laps_m(set.ground),
                    is_reversed: set.is_reversed,
                };
                let runs = planned.members.iter().map(run).collect();
                starts.push(Start { set: number, wave, rep, go_s, runs });
            }
        }
    }
    starts
}

/// Everybody runs once, in the fewest waves, and each wave is a stretch of the order by target.
fn members(set: &SquadSet, waves: &[WavePlan], faults: &mut Vec<String>) {
    let mut everybody: Vec<usize> = waves.iter().flat_map(|wave| wave.members.clone()).collect();
    everybody.sort_unstable();
    if everybody != (0..set.runners.len()).collect::<Vec<_>>() {
        faults.push(format!("not everybody runs in just one wave: {everybody:?}"));
        return;
    }
    if waves.len() != set.runners.len().div_ceil(most(set)) {
        faults.push(format!("{} waves are not the fewest", waves.len()));
    }
    for wave in waves {
        if wave.members.is_empty() || wave.members.len() > most(set) {
            faults.push(format!("a wave of {}", wave.members.len()));
        }
        if wave.go_s.len() != set.reps as usize || wave.lanes.len() != set.reps as usize {
            faults.push(format!("{} starts and {} lots of lanes", wave.go_s.len(), wave.lanes.len()));
        }
        if wave.lanes.iter().any(|lanes| lanes.len() != wave.members.len()) {
            faults.push("a wave has another number of lanes than of members".to_owned());
        }
    }
    let target = |&member: &usize| set.runners[member].target_s;
    let mut ranges: Vec<(f64, f64)> = (waves.iter())
        .map(|wave| {
            let fastest = wave.members.iter().map(target).fold(f64::INFINITY, f64::min);
            (fastest, wave.members.iter().map(target).fold(0.0, f64::max))
        })
        .collect();
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    for pair in ranges.windows(2) {
        if pair[0].1 > pair[1].0 {
            faults.push(format!("waves of targets {pair:?} mix"));
        }
    }
}

/// Lanes are those of the set, nobody leaves the lanes allowed, and turns are fair.
fn lanes(set: &SquadSet, waves: &[WavePlan], faults: &mut Vec<String>) {
    for wave in waves {
        for lanes in &wave.lanes {
            if lanes.iter().any(|lane| !set.lanes.contains(lane)) {
                faults.push(format!("lanes {lanes:?} are not all of the set"));
            }
            for (&member, lane) in wave.members.iter().zip(lanes) {
                let own = set.runners[member].lanes.as_ref();
                if own.is_some_and(|own| !own.contains(lane)) {
                    faults.push(format!("runner {member} is put in lane {lane}, not one of {own:?}"));
                }
            }
        }
        match set.mode {
            Mode::OneToALane { .. } => one_to_a_lane(set, wave, faults),
            Mode::Together => {}
            Mode::GroupToALane { .. } => {
                let lanes: BTreeSet<u8> = wave.lanes.iter().flatten().copied().collect();
                if lanes.len() != 1 {
                    faults.push(format!("a group runs in lanes {lanes:?}"));
                }
            }
        }
    }
}

fn one_to_a_lane(set: &SquadSet, wave: &WavePlan, faults: &mut Vec<String>) {
    for lanes in &wave.lanes {
        if lanes.iter().collect::<BTreeSet<_>>().len() != lanes.len() {
            faults.push(format!("two of a wave in one of the lanes {lanes:?}"));
        }
    }
    if wave.members.iter().any(|&member| set.runners[member].lanes.is_some()) {
        return;
    }
    for place in 0..wave.members.len() {
        let count = |lane: &u8| wave.lanes.iter().filter(|lanes| lanes[place] == *lane).count();
        let counts: Vec<usize> = set.lanes.iter().map(count).collect();
        if counts.iter().max() > counts.iter().min().map(|least| least + 1).as_ref() {
            faults.push(format!("uneven use of the lanes: {counts:?}"));
        }
    }
}

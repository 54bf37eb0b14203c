//! Who is where when.

use wave_plan::{Mode, SquadPlan, SquadSet, Timers, TimingRules};

use super::TOLERANCE_S;
use super::pair::{Run, clash, laps_m};

/// One repetition of one wave.
struct Start {
    set: usize,
    wave: usize,
    rep: usize,
    go_s: f64,
    lanes: Vec<u8>,
    runs: Vec<Run>,
}

impl Start {
    fn window_s(&self) -> (f64, f64) {
        let done = self.runs.iter().map(Run::done_s);
        (done.clone().fold(f64::INFINITY, f64::min), done.fold(0.0, f64::max))
    }

    fn name(&self) -> String {
        format!("set {} wave {} rep {} at {:.3}", self.set, self.wave, self.rep, self.go_s)
    }
}

/// Rests, the order of the starts, the finishes and the ways that cross.
pub(super) fn check(sets: &[SquadSet], rules: &TimingRules, plan: &SquadPlan, faults: &mut Vec<String>) {
    let starts = starts(sets, plan);
    rests(sets, plan, faults);
    order(&starts, rules, faults);
    finishes(&starts, rules, faults);
    for (index, a) in starts.iter().enumerate() {
        for b in starts[index + 1..].iter().filter(|b| (b.set, b.wave) != (a.set, a.wave)) {
            crossings(sets, a, b, faults);
        }
    }
    let end_s = starts.iter().map(|start| start.window_s().1).fold(0.0, f64::max);
    if (end_s - plan.end_s).abs() > TOLERANCE_S {
        faults.push(format!("the end is {end_s}, not {}", plan.end_s));
    }
    if plan.bound_s > end_s + TOLERANCE_S || plan.is_proven && plan.bound_s < end_s - TOLERANCE_S {
        faults.push(format!("bound {} for end {end_s}, proven: {}", plan.bound_s, plan.is_proven));
    }
}

fn starts(sets: &[SquadSet], plan: &SquadPlan) -> Vec<Start> {
    let mut starts = Vec::new();
    for (index, (planned, set)) in plan.sets.iter().zip(sets).enumerate() {
        for rep in 0..set.reps as usize {
            for (wave, planned) in planned.waves.iter().enumerate() {
                let go_s = planned.go_s[rep];
                let run = |&member: &usize| Run {
                    go_s,
                    target_s: set.runners[member].target_s,
                    distance_m: set.distance_m,
                };
                let runs = planned.members.iter().map(run).collect();
                // Who is alone in a lane may have any of them: lanes turn.
                let lanes = match set.mode {
                    Mode::OneToALane { .. } => set.lanes.clone(),
                    Mode::GroupToALane { .. } => planned.lanes[rep].clone(),
                };
                starts.push(Start { set: index, wave, rep, go_s, lanes, runs });
            }
        }
    }
    starts
}

fn rests(sets: &[SquadSet], plan: &SquadPlan, faults: &mut Vec<String>) {
    let mut spare_s = 0.0;
    for (planned, set) in plan.sets.iter().zip(sets) {
        for wave in &planned.waves {
            for &member in &wave.members {
                let runner = &set.runners[member];
                for pair in wave.go_s.windows(2) {
                    let rest_s = pair[1] - pair[0] - runner.target_s;
                    spare_s += rest_s - runner.rest_s;
                    if rest_s < runner.rest_s - TOLERANCE_S {
                        faults.push(format!("{} rests {rest_s}", runner.name));
                    }
                }
            }
        }
    }
    if (spare_s - plan.spare_rest_s).abs() > 1e-3 {
        faults.push(format!("the spare rest is {spare_s}, not {}", plan.spare_rest_s));
    }
}

/// Of one set all waves start in their order, then all again; and any two starts keep the start gap.
fn order(starts: &[Start], rules: &TimingRules, faults: &mut Vec<String>) {
    for (index, a) in starts.iter().enumerate() {
        if a.go_s < -TOLERANCE_S {
            faults.push(format!("{} is before the beginning", a.name()));
        }
        for b in &starts[index + 1..] {
            let apart_s = b.go_s - a.go_s;
            if apart_s.abs() < rules.start_gap_s - TOLERANCE_S {
                faults.push(format!("{} and {} start together", a.name(), b.name()));
            }
            if a.set == b.set && apart_s < -TOLERANCE_S {
                faults.push(format!("{} and {} change their order", a.name(), b.name()));
            }
        }
    }
}

fn finishes(starts: &[Start], rules: &TimingRules, faults: &mut Vec<String>) {
    let gap_s = rules.timing_gap_s - TOLERANCE_S;
    match rules.timers {
        Timers::Untimed => {}
        Timers::One => {
            for (index, a) in starts.iter().enumerate() {
                let (a_first, a_last) = a.window_s();
                for b in starts[index + 1..].iter().filter(|b| (b.set, b.wave) != (a.set, a.wave)) {
                    let (b_first, b_last) = b.window_s();
                    if b_first - a_last < gap_s && a_first - b_last < gap_s {
                        faults.push(format!("{} and {} finish together", a.name(), b.name()));
                    }
                }
            }
        }
        Timers::Two => {
            // One timer takes a finish and is free for another the gap after its last.
            let mut free_s = [f64::NEG_INFINITY; 2];
            let mut in_turn: Vec<&Start> = starts.iter().collect();
            in_turn.sort_by(|a, b| a.window_s().0.total_cmp(&b.window_s().0));
            for start in in_turn {
                let (first_s, last_s) = start.window_s();
                match free_s.iter_mut().find(|free_s| **free_s <= first_s) {
                    Some(free_s) => *free_s = last_s + gap_s,
                    None => faults.push(format!("{} finishes with two others", start.name())),
                }
            }
        }
    }
}

/// Any runner of one start against any of another, in lanes of three lengths.
fn crossings(sets: &[SquadSet], a: &Start, b: &Start, faults: &mut Vec<String>) {
    if !a.lanes.iter().any(|lane| b.lanes.contains(lane)) {
        return;
    }
    for lap_m in laps_m(&sets[a.set], &sets[b.set]) {
        for one in &a.runs {
            for other in &b.runs {
                if let Some(does) = clash(one, other, lap_m) {
                    faults.push(format!(
                        "{}: {one:?} {does} {other:?} of {}, lap {lap_m:?}",
                        a.name(),
                        b.name()
                    ));
                    return;
                }
            }
        }
    }
}

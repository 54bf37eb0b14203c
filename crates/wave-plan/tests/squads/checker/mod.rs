//! Says what is wrong with a plan, from who runs where and when alone: every run is followed metre by metre,
//! with nothing of the planner's reasoning.

mod run;

use std::collections::BTreeMap;

use wave_plan::{Timers, TimingRules};

pub(crate) use run::{Run, clash};

/// Closer than this two times are one, in seconds.
pub(crate) const TOLERANCE_S: f64 = 1e-5;

/// Those who start together.
pub(crate) struct Start {
    pub(crate) set: usize,
    pub(crate) wave: usize,
    pub(crate) rep: usize,
    pub(crate) go_s: f64,
    pub(crate) runs: Vec<Run>,
}

impl Start {
    fn window_s(&self) -> (f64, f64) {
        let done = self.runs.iter().map(Run::done_s);
        (done.clone().fold(f64::INFINITY, f64::min), done.fold(0.0, f64::max))
    }

    fn name(&self) -> String {
        format!("set {} wave {} rep {} at {:.3}", self.set, self.wave, self.rep, self.go_s)
    }

    fn is_of_wave(&self, other: &Self) -> bool {
        (self.set, self.wave) == (other.set, other.wave)
    }
}

/// When the last of all is done, in seconds.
pub(crate) fn end_s(starts: &[Start]) -> f64 {
    starts.iter().map(|start| start.window_s().1).fold(0.0, f64::max)
}

/// Everything that is wrong, one sentence each: rests and cycles, the order of the starts, the finishes, and
/// runs that get in each other's way.
pub(crate) fn faults(starts: &[Start], rules: &TimingRules) -> Vec<String> {
    let mut faults = Vec::new();
    rests(starts, &mut faults);
    order(starts, rules, &mut faults);
    finishes(starts, rules, &mut faults);
    for (index, a) in starts.iter().enumerate() {
        for b in starts[index + 1..].iter().filter(|b| !b.is_of_wave(a)) {
            let pairs = a.runs.iter().flat_map(|one| b.runs.iter().map(move |other| (one, other)));
            let found = pairs.filter_map(|(one, other)| Some((one, clash(one, other)?, other))).next();
            if let Some((one, does, other)) = found {
                faults.push(format!("{}: {one:?} {does} {other:?} of {}", a.name(), b.name()));
            }
        }
    }
    faults
}

/// Nobody goes again before the rest is over, or the cycle; nor runs twice at once.
fn rests(starts: &[Start], faults: &mut Vec<String>) {
    let mut runs: BTreeMap<&str, Vec<(usize, &Run)>> = BTreeMap::new();
    for start in starts {
        for run in &start.runs {
            runs.entry(&run.who).or_default().push((start.set, run));
        }
    }
    for (who, runs) in &mut runs {
        runs.sort_by(|a, b| a.1.go_s.total_cmp(&b.1.go_s));
        for pair in runs.windows(2) {
            let ((set, run), (next_set, next)) = (pair[0], pair[1]);
            let least_s = if set == next_set { run.cycle_s } else { run.target_s };
            if next.go_s - run.go_s < least_s - TOLERANCE_S {
                faults.push(format!("{who} goes again {} s after {run:?}", next.go_s - run.go_s));
            }
        }
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
        Timers::Untimed | Timers::EachGroup => {}
        Timers::One => {
            for (index, a) in starts.iter().enumerate() {
                let (a_first, a_last) = a.window_s();
                for b in starts[index + 1..].iter().filter(|b| !b.is_of_wave(a)) {
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

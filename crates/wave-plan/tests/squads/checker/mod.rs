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
    pub(crate) party: usize,
    /// Which of the blocks of its party it is part of.
    pub(crate) block: usize,
    pub(crate) wave: usize,
    pub(crate) run: usize,
    pub(crate) go_s: f64,
    /// Whether it is a run by time, which is in nobody's way and which nobody times.
    pub(crate) is_by_time: bool,
    pub(crate) runs: Vec<Run>,
}

/// The clock of a party, in seconds.
pub(crate) struct Clock {
    pub(crate) begins_s: f64,
    /// The break before each of its blocks.
    pub(crate) breaks_s: Vec<f64>,
}

impl Start {
    fn window_s(&self) -> (f64, f64) {
        let done = self.runs.iter().map(Run::done_s);
        (done.clone().fold(f64::INFINITY, f64::min), done.fold(0.0, f64::max))
    }

    fn name(&self) -> String {
        let Self { party, block, wave, run, go_s, .. } = self;
        format!("party {party} block {block} wave {wave} run {run} at {go_s:.3}")
    }

    fn is_of_wave(&self, other: &Self) -> bool {
        (self.party, self.block, self.wave) == (other.party, other.block, other.wave)
    }
}

/// When the last of all is done, in seconds.
pub(crate) fn end_s<'s>(starts: impl IntoIterator<Item = &'s Start>) -> f64 {
    starts.into_iter().map(|start| start.window_s().1).fold(0.0, f64::max)
}

/// Everything that is wrong, one sentence each: rests and cycles, the breaks between blocks, the order of the starts,
/// the finishes, and runs that get in each other's way.
pub(crate) fn faults(starts: &[Start], clocks: &[Clock], rules: &TimingRules) -> Vec<String> {
    let mut faults = Vec::new();
    rests(starts, &mut faults);
    breaks(starts, clocks, &mut faults);
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

/// Nobody goes again before the rest is over, or the cycle; nor runs twice at once. A wave goes again when all of it
/// are done.
fn rests(starts: &[Start], faults: &mut Vec<String>) {
    let mut runs: BTreeMap<(usize, &str), Vec<(usize, &Run)>> = BTreeMap::new();
    let mut waves: BTreeMap<(usize, usize, usize), Vec<&Start>> = BTreeMap::new();
    for start in starts {
        waves.entry((start.party, start.block, start.wave)).or_default().push(start);
        for run in &start.runs {
            runs.entry((start.party, &run.who)).or_default().push((start.block, run));
        }
    }
    for ((party, who), runs) in &mut runs {
        runs.sort_by(|a, b| a.1.go_s.total_cmp(&b.1.go_s));
        for pair in runs.windows(2) {
            let ((block, run), (next_block, next)) = (pair[0], pair[1]);
            let least_s = if block == next_block { run.cycle_s } else { run.target_s };
            if next.go_s - run.go_s < least_s - TOLERANCE_S {
                faults.push(format!(
                    "{who} of party {party} goes again {} s after {run:?}",
                    next.go_s - run.go_s
                ));
            }
        }
    }
    for starts in waves.values_mut() {
        starts.sort_by_key(|start| start.run);
        for pair in starts.windows(2).filter(|pair| pair[1].go_s < pair[0].window_s().1 - TOLERANCE_S) {
            faults.push(format!("{} goes before all of {} are done", pair[1].name(), pair[0].name()));
        }
    }
}

/// Nobody begins a block before the whole party is done with the one before and has had the break.
fn breaks(starts: &[Start], clocks: &[Clock], faults: &mut Vec<String>) {
    for (party, clock) in clocks.iter().enumerate() {
        let mut done_s = clock.begins_s;
        for (block, break_s) in clock.breaks_s.iter().enumerate() {
            let own = || starts.iter().filter(|start| (start.party, start.block) == (party, block));
            let least_s = done_s + break_s;
            for start in own().filter(|start| start.go_s < least_s - TOLERANCE_S) {
                faults.push(format!("{} is before {least_s:.3}", start.name()));
            }
            done_s = own().map(|start| start.window_s().1).fold(least_s, f64::max);
        }
    }
}

/// Of one block all waves start in their order, then all again; and any two starts keep the start gap.
fn order(starts: &[Start], rules: &TimingRules, faults: &mut Vec<String>) {
    for (index, a) in starts.iter().enumerate() {
        for b in &starts[index + 1..] {
            let apart_s = b.go_s - a.go_s;
            let has_gap = !a.is_by_time && !b.is_by_time;
            if has_gap && apart_s.abs() < rules.start_gap_s - TOLERANCE_S {
                faults.push(format!("{} and {} start together", a.name(), b.name()));
            }
            let turn = (a.run, a.wave).cmp(&(b.run, b.wave));
            let changes = if turn.is_lt() { apart_s < -TOLERANCE_S } else { apart_s > TOLERANCE_S };
            if (a.party, a.block) == (b.party, b.block) && changes {
                faults.push(format!("{} and {} change their order", a.name(), b.name()));
            }
        }
    }
}

/// Those who time have one finish at a time each.
fn finishes(starts: &[Start], rules: &TimingRules, faults: &mut Vec<String>) {
    let gap_s = rules.timing_gap_s - TOLERANCE_S;
    let timed: Vec<&Start> = starts.iter().filter(|start| !start.is_by_time).collect();
    let one_watch = |a: &Start, b: &Start| match rules.timers {
        Timers::One => true,
        Timers::EachGroup => a.party == b.party,
        Timers::Two | Timers::Untimed => false,
    };
    for (index, a) in timed.iter().enumerate() {
        let (a_first, a_last) = a.window_s();
        for b in timed[index + 1..].iter().filter(|b| !b.is_of_wave(a) && one_watch(a, b)) {
            let (b_first, b_last) = b.window_s();
            if b_first - a_last < gap_s && a_first - b_last < gap_s {
                faults.push(format!("{} and {} finish together", a.name(), b.name()));
            }
        }
    }
    if rules.timers == Timers::Two {
        // One timer takes a finish and is free for another the gap after its last.
        let mut free_s = [f64::NEG_INFINITY; 2];
        let mut in_turn = timed;
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

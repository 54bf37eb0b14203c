//! Runs of a plan that get into each other's way.

use std::collections::BTreeSet;

use lane_distance::Course;

use crate::plan::plan_block::PlanBlock;
use crate::plan::rep::Rep;
use crate::plan::warning::{ClashingRun, Warning};
use wave_plan::{Timers, TimingRules};

/// Two runs in one lane closer than this at the same time clash, in metres.
const FOLLOW_M: f64 = 10.0;

/// The most clashes that are listed.
const MOST_LISTED: usize = 5;

/// A run with its place in the plan.
struct Timed<'a> {
    block: usize,
    rep: &'a Rep,
    go_s: f64,
    done_s: f64,
}

impl Timed<'_> {
    fn named(&self) -> ClashingRun {
        let who = match self.rep.athletes.as_slice() {
            [name] => Some(name.clone()),
            _ => self.rep.group.clone(),
        };
        ClashingRun { block: self.block, rep: self.rep.rep, who }
    }

    /// How far from its finish the run is at a time, in metres.
    fn left_m(&self, at_s: f64) -> f64 {
        let part = (at_s - self.go_s) / (self.done_s - self.go_s);
        self.rep.way_m() * (1.0 - part)
    }
}

/// What cannot be avoided: runs that come too close in a lane, and finishes that one person cannot
/// time, each with both runs, place and time.
pub(crate) fn clashes(blocks: &[PlanBlock], rules: &TimingRules) -> Vec<Warning> {
    let mut runs: Vec<Timed<'_>> = (1..)
        .zip(blocks)
        .flat_map(|(block, planned)| planned.reps.iter().map(move |rep| (block, rep)))
        .filter_map(|(block, rep)| Some(Timed { block, rep, go_s: rep.go_s?, done_s: rep.done_s? }))
        .filter(|run| run.done_s > run.go_s)
        .collect();
    runs.sort_by(|a, b| a.go_s.total_cmp(&b.go_s));
    let mut clashes = Vec::new();
    let mut told = BTreeSet::new();
    for (index, first) in runs.iter().enumerate() {
        for second in &runs[index + 1..] {
            if second.go_s > first.done_s + rules.timing_gap_s || clashes.len() > MOST_LISTED {
                break;
            }
            // Runners of one wave, and lanes side by side of one group, start together.
            let together =
                first.block == second.block && first.rep.rep == second.rep.rep && first.go_s == second.go_s;
            if together {
                continue;
            }
            let clash = in_lane(first, second).or_else(|| at_finish(first, second, rules));
            // Everybody of a wave finishes close to everybody of the other: one pair says it.
            let waves = [first, second].map(|run| (run.block, run.rep.rep, run.rep.wave));
            let is_at_finish = matches!(clash, Some(Warning::ClashAtFinish { .. }));
            if !is_at_finish || told.insert(waves) {
                clashes.extend(clash);
            }
        }
    }
    if clashes.len() > MOST_LISTED {
        clashes.truncate(MOST_LISTED);
        clashes.push(Warning::MoreClashes);
    }
    clashes
}

/// Two runs in one lane that come closer than 10 m while both run.
fn in_lane(first: &Timed<'_>, second: &Timed<'_>) -> Option<Warning> {
    let same = first.rep.lane == second.rep.lane && first.rep.course == second.rep.course;
    // Only runs to the same finish can be compared along the lane.
    let same = same && (first.rep.finish.to_finish_line_m - second.rep.finish.to_finish_line_m).abs() < 0.01;
    if !same || second.go_s >= first.done_s {
        return None;
    }
    let ends_s = first.done_s.min(second.done_s);
    // The lead changes evenly, so that it is least at one end of the time that both run.
    let lead_m = |at_s: f64| (second.left_m(at_s) - first.left_m(at_s)).abs();
    let crosses = (second.left_m(second.go_s) - first.left_m(second.go_s)).signum()
        != (second.left_m(ends_s) - first.left_m(ends_s)).signum();
    let at_s = if lead_m(second.go_s) < lead_m(ends_s) { second.go_s } else { ends_s };
    (crosses || lead_m(at_s) < FOLLOW_M - 1e-6).then(|| Warning::ClashInLane {
        lane: first.rep.lane,
        runs: [first.named(), second.named()],
        at_s,
        before_finish_m: first.left_m(at_s).max(0.0),
        closer_than_m: FOLLOW_M,
    })
}

/// Two finishes too close for the one who times.
fn at_finish(first: &Timed<'_>, second: &Timed<'_>, rules: &TimingRules) -> Option<Warning> {
    let same_place = (first.rep.finish.to_finish_line_m - second.rep.finish.to_finish_line_m).abs() < 0.01
        && (first.rep.course == Course::Oval) == (second.rep.course == Course::Oval);
    let same_wave = first.block == second.block && first.rep.wave == second.rep.wave;
    let apart_s = (first.done_s - second.done_s).abs();
    let is_close =
        rules.timers == Timers::One && same_place && !same_wave && apart_s < rules.timing_gap_s - 1e-6;
    is_close.then(|| Warning::ClashAtFinish {
        runs: [first.named(), second.named()],
        at_s: first.done_s.max(second.done_s),
        apart_s,
        needs_s: rules.timing_gap_s,
    })
}

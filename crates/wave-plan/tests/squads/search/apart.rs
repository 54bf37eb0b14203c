//! What may not lie between two starts, found by trying: two runs are laid out and looked at.

use std::collections::HashMap;

use wave_plan::{Ground, Mode, Timers, TimingRules};

use super::{Block, Start};
use crate::checker::{Run, clash};

/// Differences are tried so far apart, in seconds; what is narrower goes unseen.
const STEP_S: f64 = 0.29;

/// A runner in a block: the block, a run that is like theirs, the runner, and the lanes that it may be in.
type Member = (usize, usize, usize, Vec<u8>);

/// What was found for two runners of two blocks.
pub(super) struct Apart<'a> {
    blocks: &'a [Block<'a>],
    rules: &'a TimingRules,
    clashes: HashMap<(Member, Member), Vec<(f64, f64)>>,
}

impl<'a> Apart<'a> {
    pub(super) fn new(blocks: &'a [Block<'a>], rules: &'a TimingRules) -> Self {
        Self { blocks, rules, clashes: HashMap::new() }
    }

    /// Open intervals that the start of `b` may not lie in, counted from the start of `a`.
    pub(super) fn forbidden(&mut self, a: &Start, b: &Start) -> Vec<(f64, f64)> {
        let mut forbidden = vec![(-self.rules.start_gap_s, self.rules.start_gap_s)];
        let is_one_party = self.blocks[a.block].party == self.blocks[b.block].party;
        if self.rules.timers == Timers::One || self.rules.timers == Timers::EachGroup && is_one_party {
            forbidden.push(self.together(a, b));
        }
        if self.lanes(a).iter().any(|lane| self.lanes(b).contains(lane)) {
            for &one in &a.members {
                for &other in &b.members {
                    let key = (self.member(a, one), self.member(b, other));
                    if !self.clashes.contains_key(&key) {
                        let found = clashes(self.run(&key.0), self.run(&key.1));
                        self.clashes.insert(key.clone(), found);
                    }
                    forbidden.extend_from_slice(&self.clashes[&key]);
                }
            }
        }
        joined(forbidden)
    }

    /// Where the finish windows come closer than the timing gap.
    pub(super) fn together(&self, a: &Start, b: &Start) -> (f64, f64) {
        let targets = |start: &Start| -> Vec<f64> {
            let runners = &self.blocks[start.block].itinerary.runners;
            start.members.iter().map(|&member| runners[member].times[start.run].target_s).collect()
        };
        let least = |targets: &[f64]| targets.iter().copied().fold(f64::INFINITY, f64::min);
        let most = |targets: &[f64]| targets.iter().copied().fold(0.0, f64::max);
        let (a, b) = (targets(a), targets(b));
        let gap_s = self.rules.timing_gap_s;
        (least(&a) - most(&b) - gap_s, most(&a) - least(&b) + gap_s)
    }

    fn lanes(&self, start: &Start) -> Vec<u8> {
        let itinerary = self.blocks[start.block].itinerary;
        match itinerary.mode {
            Mode::OneToALane { .. } | Mode::Together => itinerary.lanes.clone(),
            Mode::GroupToALane { .. } => vec![itinerary.lanes[start.wave % itinerary.lanes.len()]],
        }
    }

    /// The runner in the first run that is like this one.
    fn member(&self, start: &Start, member: usize) -> Member {
        let itinerary = self.blocks[start.block].itinerary;
        let target_s = |run: usize| itinerary.runners[member].times[run].target_s;
        let is_like = |run: &usize| {
            itinerary.runs[*run] == itinerary.runs[start.run] && target_s(*run) == target_s(start.run)
        };
        let run = (0..start.run).find(is_like).unwrap_or(start.run);
        (start.block, run, member, self.lanes(start))
    }

    /// A run that starts at 0.
    fn run(&self, (block, run, member, lanes): &Member) -> Run {
        let itinerary = self.blocks[*block].itinerary;
        let stretch = itinerary.runs[*run].as_ref().expect("runs by time meet nobody");
        let finish_m = |lane: &u8| stretch.finish_m.get(lane).copied().unwrap_or(0.0);
        Run {
            who: member.to_string(),
            go_s: 0.0,
            target_s: itinerary.runners[*member].times[*run].target_s,
            cycle_s: 0.0,
            distance_m: stretch.distance_m,
            lanes: lanes.iter().map(|lane| (*lane, finish_m(lane))).collect(),
            laps_m: laps_m(stretch.ground),
            is_reversed: stretch.is_reversed,
        }
    }
}

/// The shortest lap of a ground and the longest; none on a straight.
pub(crate) fn laps_m(ground: Ground) -> Vec<f64> {
    match ground {
        Ground::Straight => Vec::new(),
        Ground::Laps { shortest_m, longest_m } => vec![shortest_m, longest_m],
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

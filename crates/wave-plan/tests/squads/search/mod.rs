//! The best plan of a small squad by looking at everything: every way to cut it, every order, every side
//! of every pair of starts. Nothing of it is the planner's.

pub(crate) mod apart;
mod differences;
pub(crate) mod orders;
pub(crate) mod set;

use wave_plan::{Timers, TimingRules};

use crate::search::set::SquadSet;
use apart::Apart;
use differences::Differences;
pub(crate) use orders::wave_count;

/// A repetition of a wave.
#[derive(Clone, Debug)]
struct Start {
    set: usize,
    wave: usize,
    rep: usize,
    members: Vec<usize>,
}

/// The first end there can be, in seconds.
pub(crate) fn first_end_s(sets: &[SquadSet], rules: &TimingRules) -> f64 {
    let choices = orders::choices(sets);
    let mut apart = Apart::default();
    let problems: Vec<Problem<'_>> =
        choices.iter().map(|waves| Problem::new(sets, rules, waves, &mut apart)).collect();
    let mut end_s = f64::INFINITY;
    for problem in &problems {
        problem.search(&mut |differences| {
            let ends_s = problem.end_s(differences);
            if ends_s >= end_s - 1e-6 {
                return false;
            }
            let is_leaf = problem.open(differences).is_none();
            if is_leaf {
                end_s = ends_s;
            }
            !is_leaf
        });
    }
    end_s
}

/// Two starts and what may not lie between them.
struct Pair {
    from: usize,
    to: usize,
    /// Open intervals that the difference may not be in.
    forbidden: Vec<(f64, f64)>,
    /// With two who time: where the windows overlap.
    together: Option<(f64, f64)>,
}

struct Problem<'a> {
    sets: &'a [SquadSet],
    rules: &'a TimingRules,
    starts: Vec<Start>,
    pairs: Vec<Pair>,
}

/// Two sides, or three with two who time, of which a pair of starts is on one.
type Sides = Vec<Vec<(usize, usize, f64)>>;

impl<'a> Problem<'a> {
    fn new(
        sets: &'a [SquadSet],
        rules: &'a TimingRules,
        waves: &[Vec<Vec<usize>>],
        apart: &mut Apart,
    ) -> Self {
        let mut starts = Vec::new();
        for (set, waves) in waves.iter().enumerate() {
            for rep in 0..sets[set].reps as usize {
                for (wave, members) in waves.iter().enumerate() {
                    starts.push(Start { set, wave, rep, members: members.clone() });
                }
            }
        }
        let mut pairs = Vec::new();
        for to in 0..starts.len() {
            for from in 0..to {
                let (a, b) = (&starts[from], &starts[to]);
                let is_same = (a.set, a.wave) == (b.set, b.wave);
                let forbidden = if is_same { Vec::new() } else { apart.forbidden(sets, rules, a, b) };
                let together = (rules.timers == Timers::Two).then(|| apart::together(sets, rules, a, b));
                pairs.push(Pair { from, to, forbidden, together });
            }
        }
        Self { sets, rules, starts, pairs }
    }

    fn slowest_s(&self, start: &Start) -> f64 {
        let target = |&member: &usize| self.sets[start.set].runners[member].target_s;
        start.members.iter().map(target).fold(0.0, f64::max)
    }

    /// Rests, start gaps and the order within a set; node 0 is the beginning of all.
    fn begin(&self) -> Option<Differences> {
        let mut differences = Differences::new(self.starts.len() + 1);
        let mut is_open = true;
        for (to, b) in self.starts.iter().enumerate() {
            is_open &= differences.add(0, to + 1, 0.0);
            for (from, a) in self.starts[..to].iter().enumerate().filter(|(_, a)| a.set == b.set) {
                is_open &= differences.add(from + 1, to + 1, self.rules.start_gap_s);
                if a.wave == b.wave && a.rep + 1 == b.rep {
                    let runners = &self.sets[a.set].runners;
                    let period = |&member: &usize| runners[member].target_s + runners[member].rest_s;
                    let period_s = a.members.iter().map(period).fold(0.0, f64::max);
                    is_open &= differences.add(from + 1, to + 1, period_s);
                }
            }
        }
        is_open.then_some(differences)
    }

    fn end_s(&self, differences: &Differences) -> f64 {
        let ends = self.starts.iter().enumerate();
        ends.map(|(index, start)| differences.least(0, index + 1) + self.slowest_s(start)).fold(0.0, f64::max)
    }

    /// The sides of the first pair that may still be on more than one.
    fn open(&self, differences: &Differences) -> Option<Sides> {
        for pair in &self.pairs {
            let (from, to) = (pair.from + 1, pair.to + 1);
            for &(low_s, high_s) in &pair.forbidden {
                if differences.may_lie_in(from, to, (low_s, high_s)) {
                    return Some(vec![vec![(from, to, high_s)], vec![(to, from, -low_s)]]);
                }
            }
        }
        for pair in &self.pairs {
            let (from, to) = (pair.from + 1, pair.to + 1);
            if let Some((low_s, high_s)) = pair.together
                && differences.may_lie_in(from, to, (low_s, high_s))
                && !differences.lies_in(from, to, (low_s, high_s))
            {
                let overlap = vec![(from, to, low_s), (to, from, -high_s)];
                return Some(vec![vec![(from, to, high_s)], vec![(to, from, -low_s)], overlap]);
            }
        }
        None
    }

    /// Three windows that must overlap.
    fn has_three(&self, differences: &Differences) -> bool {
        let overlap = |a: usize, b: usize| {
            let (from, to) = (a.min(b), a.max(b));
            let pair = self.pairs.iter().find(|pair| (pair.from, pair.to) == (from, to));
            let together = pair.and_then(|pair| pair.together);
            together.is_some_and(|together| {
                differences.may_lie_in(from + 1, to + 1, together)
                    && differences.lies_in(from + 1, to + 1, together)
            })
        };
        let count = self.starts.len();
        self.rules.timers == Timers::Two
            && (0..count).any(|a| {
                let beside: Vec<usize> = (a + 1..count).filter(|&b| overlap(a, b)).collect();
                beside.iter().enumerate().any(|(n, &b)| beside[n + 1..].iter().any(|&c| overlap(b, c)))
            })
    }

    fn search(&self, goes_on: &mut impl FnMut(&Differences) -> bool) {
        if let Some(differences) = self.begin() {
            self.look(differences, goes_on);
        }
    }

    /// Looks at a node and at all below it, as far as `goes_on` says so.
    fn look(&self, differences: Differences, goes_on: &mut impl FnMut(&Differences) -> bool) {
        if self.has_three(&differences) || !goes_on(&differences) {
            return;
        }
        for side in self.open(&differences).unwrap_or_default() {
            let mut narrowed = differences.clone();
            if side.iter().all(|&(from, to, least_s)| narrowed.add(from, to, least_s)) {
                self.look(narrowed, goes_on);
            }
        }
    }
}

//! The best plan of a small evening by looking at everything: every way to cut its blocks, every order, every side
//! of every pair of starts. Nothing of it is the planner's.

pub(crate) mod apart;
mod differences;
pub(crate) mod orders;

use wave_plan::{Itinerary, Party, Timers, TimingRules};

use apart::Apart;
use differences::Differences;
pub(crate) use orders::wave_count;

/// The least break between two blocks of a party, in seconds: a wave stands on its start so long.
const STAND_S: f64 = 10.0;

/// A block of a party.
#[derive(Clone, Copy)]
struct Block<'a> {
    party: usize,
    itinerary: &'a Itinerary,
    /// Whether it is the first of its party.
    is_first: bool,
    /// The break before it; before the first, all that goes by until then. In seconds.
    break_s: f64,
}

fn blocks<'a>(parties: &'a [Party], rules: &TimingRules) -> Vec<Block<'a>> {
    let least_s = STAND_S.max(rules.start_gap_s).max(rules.timing_gap_s);
    let of_party = |(number, party): (usize, &'a Party)| {
        let block = move |(place, itinerary): (usize, &'a Itinerary)| Block {
            party: number,
            itinerary,
            is_first: place == 0,
            break_s: if place == 0 {
                party.begins_s + itinerary.after_s
            } else {
                itinerary.after_s.max(least_s)
            },
        };
        party.itineraries.iter().enumerate().map(block).collect::<Vec<_>>()
    };
    parties.iter().enumerate().flat_map(of_party).collect()
}

/// A run of a wave.
#[derive(Clone, Debug)]
struct Start {
    /// The block, of all parties, counted from 0.
    block: usize,
    wave: usize,
    run: usize,
    /// Those who do this run.
    members: Vec<usize>,
}

/// The first end there can be, in seconds; nothing where that is not before `deadline_s`.
pub(crate) fn first_end_s(parties: &[Party], rules: &TimingRules, deadline_s: f64) -> Option<f64> {
    let blocks = blocks(parties, rules);
    let choices = orders::choices(parties);
    let mut apart = Apart::new(&blocks, rules);
    let mut problems: Vec<(f64, Problem<'_>, Differences)> = (choices.iter())
        .filter_map(|waves| {
            let problem = Problem::new(&blocks, rules, waves, &mut apart);
            let differences = problem.begin()?;
            Some((problem.end_s(&differences), problem, differences))
        })
        .collect();
    problems.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found_s = None;
    for (_, problem, differences) in problems {
        problem.look(differences, &mut |differences, is_leaf| {
            let ends_s = problem.end_s(differences);
            let is_open = ends_s < found_s.unwrap_or(deadline_s) - 1e-6;
            if is_open && is_leaf {
                found_s = Some(ends_s);
            }
            is_open
        });
    }
    found_s
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
    blocks: &'a [Block<'a>],
    rules: &'a TimingRules,
    starts: Vec<Start>,
    pairs: Vec<Pair>,
}

/// Two sides, or three with two who time, of which a pair of starts is on one.
type Sides = Vec<Vec<(usize, usize, f64)>>;

impl<'a> Problem<'a> {
    fn new(
        blocks: &'a [Block<'a>],
        rules: &'a TimingRules,
        waves: &[Vec<Vec<usize>>],
        apart: &mut Apart<'_>,
    ) -> Self {
        let mut starts = Vec::new();
        for (block, waves) in waves.iter().enumerate() {
            let itinerary = blocks[block].itinerary;
            for run in 0..itinerary.runs.len() {
                for (wave, members) in waves.iter().enumerate() {
                    let does = |member: &usize| run < itinerary.runners[*member].times.len();
                    let members: Vec<usize> = members.iter().copied().filter(does).collect();
                    if !members.is_empty() {
                        starts.push(Start { block, wave, run, members });
                    }
                }
            }
        }
        let mut pairs = Vec::new();
        for to in 0..starts.len() {
            for from in 0..to {
                let (a, b) = (&starts[from], &starts[to]);
                let (a_block, b_block) = (&blocks[a.block], &blocks[b.block]);
                let by_time = [(a_block, a), (b_block, b)]
                    .iter()
                    .any(|(of, start)| of.itinerary.runs[start.run].is_none());
                let is_apart =
                    if a.block == b.block { a.wave == b.wave } else { a_block.party == b_block.party };
                let forbidden = if by_time || is_apart { Vec::new() } else { apart.forbidden(a, b) };
                let is_timed = rules.timers == Timers::Two && !by_time;
                let together = is_timed.then(|| apart.together(a, b));
                pairs.push(Pair { from, to, forbidden, together });
            }
        }
        Self { blocks, rules, starts, pairs }
    }

    fn slowest_s(&self, start: &Start) -> f64 {
        let runners = &self.blocks[start.block].itinerary.runners;
        let target = |&member: &usize| runners[member].times[start.run].target_s;
        start.members.iter().map(target).fold(0.0, f64::max)
    }

    /// The least time from a start of a wave to its next, in seconds: everybody who goes on has had the rest, and
    /// everybody is done.
    fn period_s(&self, start: &Start) -> f64 {
        let runners = &self.blocks[start.block].itinerary.runners;
        let goes_on = |&&member: &&usize| start.run + 1 < runners[member].times.len();
        let period = |&member: &usize| {
            let times = runners[member].times[start.run];
            times.target_s + times.rest_s
        };
        start.members.iter().filter(goes_on).map(period).fold(self.slowest_s(start), f64::max)
    }

    /// Rests, breaks, start gaps and the order within a block; node 0 is the beginning of all.
    fn begin(&self) -> Option<Differences> {
        let mut differences = Differences::new(self.starts.len() + 1);
        let mut is_open = true;
        let is_timed = |start: &Start| self.blocks[start.block].itinerary.runs[start.run].is_some();
        for (to, b) in self.starts.iter().enumerate() {
            let block = &self.blocks[b.block];
            is_open &= differences.add(0, to + 1, if block.is_first { block.break_s } else { 0.0 });
            for (from, a) in self.starts[..to].iter().enumerate() {
                if a.block == b.block {
                    let gap_s = if is_timed(a) && is_timed(b) { self.rules.start_gap_s } else { 0.0 };
                    is_open &= differences.add(from + 1, to + 1, gap_s);
                    if a.wave == b.wave && a.run + 1 == b.run {
                        is_open &= differences.add(from + 1, to + 1, self.period_s(a));
                    }
                } else if a.block + 1 == b.block && !block.is_first {
                    is_open &= differences.add(from + 1, to + 1, self.slowest_s(a) + block.break_s);
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

    /// Looks at a node and at all below it, as far as `goes_on` says so of it; it hears whether the node is a plan.
    fn look(&self, differences: Differences, goes_on: &mut impl FnMut(&Differences, bool) -> bool) {
        if self.has_three(&differences) {
            return;
        }
        let sides = self.open(&differences);
        if !goes_on(&differences, sides.is_none()) {
            return;
        }
        for side in sides.unwrap_or_default() {
            let mut narrowed = differences.clone();
            if side.iter().all(|&(from, to, least_s)| narrowed.add(from, to, least_s)) {
                self.look(narrowed, goes_on);
            }
        }
    }
}

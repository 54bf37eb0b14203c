//! From runners to waves and start times.

use std::cell::RefCell;

use crate::apart::Apart;
use crate::candidates::{Candidate, candidates};
use crate::cut::{self, Cut, EXACT_WAVES, cuts, runners, waves_of};
use crate::first_plan::{Turn, first_plan};
use crate::floor::floor_s;
use crate::ground::Ground;
use crate::lane_turns::lane_turns;
use crate::network::{EXACT_S, Network};
use crate::rest::{Span, least_rest, polished};
use crate::runner::{Mode, Runner};
use crate::soonest::soonest;
use crate::starts::network;
use crate::timing_rules::TimingRules;

/// The longest time and distance that make sense, in seconds and metres.
const MOST_S: f64 = 6.0 * 3600.0;
const MOST_M: f64 = 100_000.0;

/// A lap shorter than this is an error, in metres.
const LEAST_LAP_M: f64 = 20.0;

/// How much is looked into.
struct Effort {
    /// Candidates: ways to cut the sets and to order their waves.
    candidates: usize,
    /// Those that get a first plan.
    first_plans: usize,
    /// Branches on the way to the first end, of all candidates and of one.
    branches: usize,
    branches_each: usize,
    /// Linear programmes on the way to the least rest.
    programmes: usize,
    /// What all of that may come to for one candidate, in starts and choices gone through.
    steps: usize,
}

/// Where every way is looked at, and where the plan is to be quick.
const EXACT: Effort = Effort {
    candidates: 20_000,
    first_plans: 200,
    branches: 60_000,
    branches_each: 6_000,
    programmes: 3_000,
    steps: 40_000_000,
};
const QUICK: Effort = Effort {
    candidates: 30,
    first_plans: 30,
    branches: 500,
    branches_each: 250,
    programmes: 1,
    steps: 2_000_000,
};

impl Effort {
    /// So many branches that going through a network for each stays within the steps.
    fn within(&self, branches: usize, network: &Network) -> usize {
        branches.min(self.steps / (network.events.len() + network.choices.len()))
    }
}

/// So many repetitions of one distance for some runners.
#[derive(Clone, Debug, PartialEq)]
pub struct SquadSet {
    /// How many repetitions.
    pub reps: u32,
    /// How far each is, in metres.
    pub distance_m: f64,
    /// What its lanes are.
    pub ground: Ground,
    /// The lanes that the set may use.
    pub lanes: Vec<u8>,
    /// How it shares them.
    pub mode: Mode,
    /// Who runs it.
    pub runners: Vec<Runner>,
}

/// Who runs when.
#[derive(Clone, Debug, PartialEq)]
pub struct SquadPlan {
    /// The sets, in the order given.
    pub sets: Vec<WaveSet>,
    /// When the last runner is done, in seconds from the start.
    pub end_s: f64,
    /// No plan ends before this.
    pub bound_s: f64,
    /// All rest beyond what was asked, of all athletes together, in seconds.
    pub spare_rest_s: f64,
    /// Whether no plan ends before this one.
    pub is_proven: bool,
    /// Whether, besides, no plan with this end has less spare rest.
    pub is_rest_proven: bool,
}

/// The waves of one set, in the order of their starts.
#[derive(Clone, Debug, PartialEq)]
pub struct WaveSet {
    /// The waves.
    pub waves: Vec<WavePlan>,
}

/// One wave.
#[derive(Clone, Debug, PartialEq)]
pub struct WavePlan {
    /// Its members, as indices into the runners of the set, the fastest first.
    pub members: Vec<usize>,
    /// When each repetition starts, in seconds from the start of the plan.
    pub go_s: Vec<f64>,
    /// For each repetition, the lane of each member.
    pub lanes: Vec<Vec<u8>>,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SquadError {
    /// Nobody runs.
    #[error("a set has nobody to run it")]
    Nobody,
    /// No lane is open.
    #[error("no lane is open for a set")]
    NoLanes,
    /// A target or a rest makes no sense.
    #[error("{name} has a {what} of {seconds} s; write more than 0 s and at most 6 hours")]
    Time {
        /// Whose it is.
        name: String,
        /// Target or rest.
        what: &'static str,
        /// The value.
        seconds: f64,
    },
    /// A number of a set makes no sense.
    #[error("a set has a {what} of {number}")]
    Number {
        /// What it is.
        what: &'static str,
        /// The value.
        number: f64,
    },
    /// Too many runners may use too few lanes.
    #[error("the lanes that {} may run in do not suffice for all of them at once", .names.join(", "))]
    Pins {
        /// The members of the wave.
        names: Vec<String>,
    },
}

/// Finds who runs when.
///
/// Waves are contiguous in order of target time, and as few as there can be. Of all ways to cut them
/// and to order them the one is taken that ends first, and of those the one with the least rest beyond
/// what was asked. For up to six waves and twelve repetitions that is exact; beyond, and where the
/// choices are too many, the best that was found comes with a bound that no plan undercuts.
///
/// All runs end at one finish line, so the start of a longer run lies behind that of a shorter one.
///
/// # Errors
///
/// [`SquadError`] where nobody runs, no lane is open, a number makes no sense, or the lanes that runners
/// may use do not suffice.
pub fn plan_squads(sets: &[SquadSet], rules: &TimingRules) -> Result<SquadPlan, SquadError> {
    plan_squads_like(sets, rules, &[])
}

/// The same after a late change: of plans that are as good, one in which as many runners as can be stay
/// in the waves that they had before. `before` holds for each set and runner the wave, counted from 0;
/// nothing for a runner who is new.
///
/// # Errors
///
/// As for [`plan_squads`].
pub fn plan_squads_like(
    sets: &[SquadSet],
    rules: &TimingRules,
    before: &[Vec<Option<usize>>],
) -> Result<SquadPlan, SquadError> {
    check(sets, rules)?;
    let is_exact = sets.iter().map(waves_of).sum::<usize>() <= EXACT_WAVES;
    let before_of = |set: usize| before.get(set).map_or(&[][..], Vec::as_slice);
    let cuts = (sets.iter().enumerate())
        .map(|(index, set)| cuts(set, before_of(index), is_exact))
        .collect::<Result<Vec<_>, _>>()?;
    let (mut candidates, all) = candidates(sets, &cuts, rules);
    let work = Work { sets, cuts: &cuts, rules, before, apart: RefCell::default() };
    if !before.is_empty() {
        // The first of plans that are as good is taken.
        candidates
            .sort_by(|a, b| a.floor_s.total_cmp(&b.floor_s).then_with(|| work.kept(b).cmp(&work.kept(a))));
    }
    let effort = if all { &EXACT } else { &QUICK };
    let (end, open_s) = work.first_to_end(&candidates, effort);
    let open_s = if all { open_s } else { open_s.min(floor_s(sets, rules)) };
    let (best, is_rest_proven) = work.least_rest(&candidates, end, effort);
    let is_proven = open_s > best.end_s - 3.0 * EXACT_S;
    Ok(SquadPlan {
        sets: waves(sets, &work.chosen(&best.candidate), &best.starts_s)?,
        end_s: best.end_s,
        bound_s: if is_proven { best.end_s } else { open_s },
        spare_rest_s: best.spare_s.max(0.0),
        is_proven,
        is_rest_proven: is_proven && all && is_rest_proven,
    })
}

/// The best that was found.
struct Best {
    end_s: f64,
    spare_s: f64,
    candidate: Candidate,
    starts_s: Vec<f64>,
}

/// What is planned.
struct Work<'a> {
    sets: &'a [SquadSet],
    cuts: &'a [(Vec<Cut>, bool)],
    rules: &'a TimingRules,
    /// The waves that runners had before.
    before: &'a [Vec<Option<usize>>],
    apart: RefCell<Apart>,
}

impl<'a> Work<'a> {
    fn chosen(&self, candidate: &Candidate) -> Vec<&'a Cut> {
        candidate.cuts.iter().zip(self.cuts).map(|(&cut, (cuts, _))| &cuts[cut]).collect()
    }

    /// How many runners have the wave that they had before.
    fn kept(&self, candidate: &Candidate) -> usize {
        let cuts = self.chosen(candidate).into_iter().zip(self.before);
        cuts.map(|(cut, before)| cut::kept(&cut.waves, before)).sum()
    }

    fn network(&self, candidate: &Candidate) -> (Network, Vec<Span>) {
        network(self.sets, &self.chosen(candidate), self.rules, &mut self.apart.borrow_mut())
    }

    /// The starts that end first, and what no starts of any candidate undercut.
    fn first_to_end(&self, candidates: &[Candidate], effort: &Effort) -> (Best, f64) {
        let mut best = Best {
            end_s: f64::INFINITY,
            spare_s: f64::INFINITY,
            candidate: candidates[0].clone(),
            starts_s: Vec::new(),
        };
        let mut open_s = f64::INFINITY;
        // First a plan of each, start by start: where one ends as early as can be nothing is left to do.
        let mut left: Vec<(f64, &Candidate)> = Vec::new();
        for (number, candidate) in candidates.iter().enumerate() {
            if candidate.floor_s > best.end_s - EXACT_S {
                break;
            }
            if number == effort.candidates {
                open_s = open_s.min(candidate.floor_s);
                break;
            }
            let (network, _) = self.network(candidate);
            let zeros = vec![0.0; network.events.len()];
            let Some(root) = network.earliest(&zeros, best.end_s) else { continue };
            left.push((network.end_s(&root), candidate));
            if number >= effort.first_plans {
                continue;
            }
            let starts_s = quickest(&network);
            let end_s = network.end_s(&starts_s);
            if end_s < best.end_s - EXACT_S {
                best = Best { end_s, starts_s, candidate: candidate.clone(), ..best };
            }
        }
        left.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut branches = effort.branches;
        for (bound_s, candidate) in left {
            if bound_s > best.end_s - 2.0 * EXACT_S {
                break;
            }
            if branches == 0 {
                open_s = open_s.min(bound_s);
                break;
            }
            let (mut network, _) = self.network(candidate);
            let mut own = effort.within(effort.branches_each.min(branches), &network);
            branches -= own;
            let zeros = vec![0.0; network.events.len()];
            let Some(root) = network.earliest(&zeros, best.end_s) else { continue };
            let (found, bound_s) = soonest(&mut network, &root, best.end_s, &mut own);
            branches += own;
            open_s = open_s.min(bound_s);
            if let Some(starts_s) = found {
                best =
                    Best { end_s: network.end_s(&starts_s), starts_s, candidate: candidate.clone(), ..best };
            }
        }
        (best, open_s)
    }

    /// Of the starts that end no later the ones with the least rest; and whether that is certain.
    fn least_rest(&self, candidates: &[Candidate], first: Best, effort: &Effort) -> (Best, bool) {
        let end_s = first.end_s;
        let (mut network, spans) = self.network(&first.candidate);
        let mut programmes = effort.within(effort.programmes, &network);
        let once_s = asked_s(self.sets, &self.chosen(&first.candidate));
        let (value, starts_s) = polished(&network, &spans, end_s, &first.starts_s);
        let mut best = Best { spare_s: value - once_s, starts_s, ..first };
        let less_than_s = best.spare_s + once_s;
        let (rested, mut is_proven) = least_rest(&mut network, &spans, end_s, less_than_s, &mut programmes);
        if let Some((value, starts_s)) = rested {
            best = Best { spare_s: value - once_s, starts_s, ..best };
        }
        let mut others: Vec<&Candidate> = (candidates.iter())
            .take_while(|candidate| candidate.floor_s < end_s + EXACT_S)
            .filter(|candidate| candidate.cuts != best.candidate.cuts)
            .collect();
        others.sort_by(|a, b| a.spare_s.total_cmp(&b.spare_s));
        for (number, candidate) in others.into_iter().enumerate() {
            // One as good is as welcome where it leaves more runners in their waves.
            let keeps_more = !self.before.is_empty() && self.kept(candidate) > self.kept(&best.candidate);
            let limit_s = best.spare_s + if keeps_more { 3.0 * EXACT_S } else { 0.0 };
            if candidate.spare_s > limit_s - EXACT_S {
                continue;
            }
            if programmes == 0 || number == effort.candidates {
                is_proven = false;
                break;
            }
            let (mut network, spans) = self.network(candidate);
            let zeros = vec![0.0; network.events.len()];
            if network.earliest(&zeros, end_s).is_none() {
                continue;
            }
            let once_s = asked_s(self.sets, &self.chosen(candidate));
            let less_than_s = limit_s + once_s;
            let (rested, is_certain) = least_rest(&mut network, &spans, end_s, less_than_s, &mut programmes);
            is_proven &= is_certain;
            if let Some((value, starts_s)) = rested {
                let spare_s = value - once_s;
                best = Best { end_s, spare_s, starts_s, candidate: candidate.clone() };
            }
        }
        (Best { end_s: self.network(&best.candidate).0.end_s(&best.starts_s), ..best }, is_proven)
    }
}

/// Of two first plans the one that ends sooner.
fn quickest(network: &Network) -> Vec<f64> {
    let (soonest, longest) = (first_plan(network, Turn::Soonest), first_plan(network, Turn::Longest));
    if network.end_s(&longest) < network.end_s(&soonest) { longest } else { soonest }
}

fn check(sets: &[SquadSet], rules: &TimingRules) -> Result<(), SquadError> {
    for (what, number) in [("timing gap", rules.timing_gap_s), ("start gap", rules.start_gap_s)] {
        if !(0.0..=MOST_S).contains(&number) {
            return Err(SquadError::Number { what, number });
        }
    }
    if sets.is_empty() {
        return Err(SquadError::Nobody);
    }
    sets.iter().try_for_each(check_set)
}

fn check_set(set: &SquadSet) -> Result<(), SquadError> {
    if set.runners.is_empty() {
        return Err(SquadError::Nobody);
    }
    if set.lanes.is_empty() {
        return Err(SquadError::NoLanes);
    }
    let (shortest_m, longest_m) = match set.ground {
        Ground::Straight => (MOST_M, MOST_M),
        Ground::Laps { shortest_m, longest_m } => (shortest_m, longest_m),
    };
    let numbers = [
        ("number of repetitions", f64::from(set.reps), set.reps > 0),
        ("distance", set.distance_m, set.distance_m > 0.0 && set.distance_m <= MOST_M),
        ("shortest lap", shortest_m, (LEAST_LAP_M..=MOST_M).contains(&shortest_m)),
        ("longest lap", longest_m, (shortest_m..=MOST_M).contains(&longest_m)),
    ];
    if let Some(&(what, number, _)) = numbers.iter().find(|(.., makes_sense)| !makes_sense) {
        return Err(SquadError::Number { what, number });
    }
    for runner in &set.runners {
        let wrong = |what, seconds| Err(SquadError::Time { name: runner.name.clone(), what, seconds });
        if !(runner.target_s > 0.0 && runner.target_s <= MOST_S) {
            return wrong("target", runner.target_s);
        }
        if !(0.0..=MOST_S).contains(&runner.rest_s) {
            return wrong("rest", runner.rest_s);
        }
    }
    Ok(())
}

/// The time that all spans take where nobody rests longer than asked.
fn asked_s(sets: &[SquadSet], cuts: &[&Cut]) -> f64 {
    sets.iter()
        .zip(cuts)
        .map(|(set, cut)| {
            let once: f64 = (cut.waves.iter().flatten())
                .map(|&runner| set.runners[runner].target_s + set.runners[runner].rest_s)
                .sum();
            once * f64::from(set.reps.saturating_sub(1))
        })
        .sum()
}

/// The waves of each set with their starts and lanes.
fn waves(sets: &[SquadSet], cuts: &[&Cut], starts_s: &[f64]) -> Result<Vec<WaveSet>, SquadError> {
    let mut begins = 0;
    let mut planned = Vec::with_capacity(sets.len());
    for (set, cut) in sets.iter().zip(cuts) {
        let count = cut.waves.len();
        let mut waves = Vec::with_capacity(count);
        for (place, members) in cut.waves.iter().enumerate() {
            let go_s = (0..set.reps as usize).map(|rep| starts_s[begins + rep * count + place]).collect();
            let runners = runners(set, members);
            let pins =
                || SquadError::Pins { names: runners.iter().map(|runner| runner.name.clone()).collect() };
            let lanes = match set.mode {
                Mode::OneToALane { .. } => lane_turns(&runners, &set.lanes, set.reps).ok_or_else(pins)?,
                Mode::GroupToALane { .. } => {
                    vec![vec![cut.lanes[place]; runners.len()]; set.reps as usize]
                }
            };
            waves.push(WavePlan { members: members.clone(), go_s, lanes });
        }
        begins += count * set.reps as usize;
        planned.push(WaveSet { waves });
    }
    Ok(planned)
}

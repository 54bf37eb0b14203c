//! From runners to waves and start times.

use super::candidates::{Candidate, candidates};
use super::cut::{self, Cut, cuts, runners};
use super::first_plan::{Turn, first_plan};
use super::floor::floor_s;
use super::lane_turns::lane_turns;
use super::network::{EXACT_S, Network};
use super::rest::least_rest;
use super::runner::{Mode, Runner};
use super::soonest::soonest;
use super::starts::network;
use super::timing_rules::TimingRules;

/// The longest time and distance that make sense, in seconds and metres.
const MOST_S: f64 = 6.0 * 3600.0;
const MOST_M: f64 = 100_000.0;

/// How much is looked into: branches on the way to the first end, and linear programmes on the way to
/// the least rest.
struct Effort {
    branches: usize,
    programmes: usize,
}

/// Where every way is looked at, and where the plan is to be quick.
const EXACT: Effort = Effort { branches: 20_000, programmes: 5_000 };
const QUICK: Effort = Effort { branches: 500, programmes: 1 };

/// So many repetitions of one distance for some runners.
#[derive(Clone, Debug, PartialEq)]
pub struct SquadSet {
    /// How many repetitions.
    pub reps: u32,
    /// How far each is, in metres.
    pub distance_m: f64,
    /// The shortest and the longest lap of the lanes, in metres.
    pub lap_m: (f64, f64),
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
    let before_of = |set: usize| before.get(set).map_or(&[][..], Vec::as_slice);
    let cuts = (sets.iter().enumerate())
        .map(|(index, set)| cuts(set, before_of(index)))
        .collect::<Result<Vec<_>, _>>()?;
    let (mut candidates, all) = candidates(sets, &cuts, rules);
    // The first of plans that are as good is taken.
    candidates.sort_by(|a, b| {
        let kept = |candidate: &Candidate| kept(&chosen(&cuts, candidate), before);
        a.floor_s.total_cmp(&b.floor_s).then_with(|| kept(b).cmp(&kept(a)))
    });
    let mut effort = if all { EXACT } else { QUICK };
    let mut best: Option<Best<'_>> = None;
    // What the ways that were not looked through undercut at most.
    let mut open_s = if all { f64::INFINITY } else { floor_s(sets, rules) };
    let mut is_rest_proven = true;
    let candidates = if all { candidates } else { first_alone(sets, &cuts, candidates, rules) };
    for candidate in &candidates {
        if let Some(best) = &best {
            let no_better = candidate.floor_s > best.end_s - EXACT_S && best.spare_s < EXACT_S;
            if candidate.floor_s > best.end_s + EXACT_S || no_better {
                break;
            }
            if effort.branches == 0 || effort.programmes == 0 {
                open_s = open_s.min(candidate.floor_s);
                is_rest_proven = false;
                break;
            }
        }
        let chosen = chosen(&cuts, candidate);
        let (mut network, spans) = network(sets, &chosen, rules);
        let deadline_s = best.as_ref().map_or(f64::INFINITY, |best| best.end_s);
        let zeros = vec![0.0; network.events.len()];
        let Some(root) = network.earliest(&zeros, deadline_s) else { continue };
        let mut end_s = deadline_s;
        let mut known = None;
        if network.end_s(&root) < deadline_s - EXACT_S {
            let first = quickest(&network);
            let found = soonest(&mut network, &root, Some(first), deadline_s, &mut effort.branches);
            open_s = open_s.min(found.bound_s);
            let Some((found_s, starts_s)) = found.found else {
                is_rest_proven &= found.bound_s == f64::INFINITY;
                continue;
            };
            end_s = found_s.min(deadline_s);
            known = Some(starts_s);
        }
        let asked_s = asked_s(sets, &chosen);
        let is_sooner = best.as_ref().is_none_or(|best| end_s < best.end_s - EXACT_S);
        let less_than_s = match &best {
            Some(best) if !is_sooner => best.spare_s + asked_s,
            _ => f64::INFINITY,
        };
        let programmes = &mut effort.programmes;
        let (rested, is_proven) =
            least_rest(&mut network, &spans, end_s, less_than_s, known.as_deref(), programmes);
        is_rest_proven = is_proven && (is_sooner || is_rest_proven);
        if let Some((value, starts_s)) = rested {
            let spare_s = value - asked_s;
            best = Some(Best { end_s: network.end_s(&starts_s), spare_s, cuts: chosen, starts_s });
        }
    }
    let Some(best) = best else { return Err(SquadError::Nobody) };
    let bound_s = open_s.min(best.end_s);
    let is_proven = bound_s > best.end_s - 2.0 * EXACT_S;
    Ok(SquadPlan {
        sets: waves(sets, &best.cuts, &best.starts_s)?,
        end_s: best.end_s,
        bound_s: if is_proven { best.end_s } else { bound_s },
        spare_rest_s: best.spare_s.max(0.0),
        is_proven,
        is_rest_proven: is_proven && all && is_rest_proven,
    })
}

/// How many runners have the wave that they had before.
fn kept(cuts: &[&Cut], before: &[Vec<Option<usize>>]) -> usize {
    cuts.iter().zip(before).map(|(cut, before)| cut::kept(&cut.waves, before)).sum()
}

/// The best that was found.
struct Best<'a> {
    end_s: f64,
    spare_s: f64,
    cuts: Vec<&'a Cut>,
    starts_s: Vec<f64>,
}

fn chosen<'a>(cuts: &'a [(Vec<Cut>, bool)], candidate: &Candidate) -> Vec<&'a Cut> {
    candidate.cuts.iter().zip(cuts).map(|(&cut, (cuts, _))| &cuts[cut]).collect()
}

/// Of two first plans the one that ends sooner.
fn quickest(network: &Network) -> Vec<f64> {
    let (soonest, longest) = (first_plan(network, Turn::Soonest), first_plan(network, Turn::Longest));
    if network.end_s(&longest) < network.end_s(&soonest) { longest } else { soonest }
}

/// Of candidates that are too large to look through the one whose first plan ends first.
fn first_alone(
    sets: &[SquadSet],
    cuts: &[(Vec<Cut>, bool)],
    candidates: Vec<Candidate>,
    rules: &TimingRules,
) -> Vec<Candidate> {
    let mut best: Option<(f64, Candidate)> = None;
    for candidate in candidates {
        if best.as_ref().is_some_and(|(end_s, _)| candidate.floor_s > end_s - EXACT_S) {
            break;
        }
        let (network, _) = network(sets, &chosen(cuts, &candidate), rules);
        let end_s = network.end_s(&quickest(&network));
        if best.as_ref().is_none_or(|(best_s, _)| end_s < best_s - EXACT_S) {
            best = Some((end_s, candidate));
        }
    }
    best.into_iter().map(|(_, candidate)| candidate).collect()
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
    let lap_m = |lap_m: f64| lap_m > 0.0 && lap_m.is_finite();
    let numbers = [
        ("number of repetitions", f64::from(set.reps), set.reps > 0),
        ("distance", set.distance_m, set.distance_m > 0.0 && set.distance_m <= MOST_M),
        ("shortest lap", set.lap_m.0, lap_m(set.lap_m.0)),
        ("longest lap", set.lap_m.1, lap_m(set.lap_m.1) && set.lap_m.1 >= set.lap_m.0),
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

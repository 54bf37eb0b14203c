//! From runners to waves and start times.

use super::apart::{WaveTimes, merged};
use super::lane_turns::lane_turns;
use super::network::{Choice, EXACT_S, Network, Solved};
use super::partition::partitions;
use super::rest::{Span, least_rest};
use super::runner::{Mode, Runner};
use super::timing_rules::{Timers, TimingRules};

/// Up to so many waves and repetitions every order of the waves is looked at.
const EXACT_WAVES: usize = 6;
const EXACT_REPS: u32 = 12;

/// The branches that are looked into where the plan is to be exact, and where it is to be quick.
const EXACT_BRANCHES: usize = 20_000;
const QUICK_BRANCHES: usize = 60;

/// The most networks that are solved for one plan.
const MOST_SOLVED: usize = 1_000;

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
    /// Whether no plan is better.
    pub is_proven: bool,
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
    /// Too many runners may use too few lanes.
    #[error("the lanes that {} may run in do not suffice for all of them at once", .names.join(", "))]
    Pins {
        /// The members of the wave.
        names: Vec<String>,
    },
}

/// One way to cut a set into waves and to order them: members as indices into the sorted runners.
#[derive(Clone, Debug)]
struct Cut {
    waves: Vec<Vec<usize>>,
}

/// Finds who runs when.
///
/// Waves are contiguous in order of target time, and as few as there can be. Of all ways to cut them
/// and to order them the one is taken that ends first, and of those the one with the least rest beyond
/// what was asked. For up to six waves and twelve repetitions that is exact; beyond, the best that was
/// found comes with a bound that no plan undercuts.
///
/// # Errors
///
/// [`SquadError`] where nobody runs, no lane is open, a time makes no sense, or the lanes that runners
/// may use do not suffice.
pub fn plan_squads(sets: &[SquadSet], rules: &TimingRules) -> Result<SquadPlan, SquadError> {
    for set in sets {
        check(set)?;
    }
    let order: Vec<Vec<usize>> = sets.iter().map(by_target).collect();
    let cuts: Vec<(Vec<Cut>, bool)> = sets.iter().zip(&order).map(|(set, order)| cuts(set, order)).collect();
    let candidates = combine(sets, &cuts, rules);
    let all = cuts.iter().all(|(_, all)| *all) && candidates.all;
    let mut best: Option<(f64, f64, usize, Vec<f64>)> = None;
    let mut is_proven = all;
    let mut bound_s = f64::INFINITY;
    for (solved, (least_s, index)) in candidates.by_bound.iter().enumerate() {
        if let Some((end_s, spare_s, ..)) = &best
            && (*least_s > end_s + EXACT_S || spare_s.abs() < EXACT_S && *least_s > end_s - EXACT_S)
        {
            break;
        }
        if solved >= MOST_SOLVED {
            is_proven = false;
            bound_s = bound_s.min(*least_s);
            break;
        }
        let chosen: Vec<&Cut> = candidates.choice(&cuts, *index);
        let (mut network, spans) = network(sets, &chosen, rules);
        let deadline_s = best.as_ref().map_or(f64::INFINITY, |(end_s, ..)| *end_s);
        let Some(first) = network.ends_first(deadline_s) else { continue };
        let (end_s, end_bound_s) = (first.value, first.bound);
        bound_s = bound_s.min(end_bound_s);
        is_proven &= end_bound_s > end_s - EXACT_S;
        let asked_s = asked_s(sets, &chosen);
        let rested: Solved = least_rest(&mut network, &spans, end_s, first);
        is_proven &= rested.bound > rested.value - EXACT_S;
        let spare_s = rested.value - asked_s;
        let is_better = best.as_ref().is_none_or(|(best_s, best_spare_s, ..)| {
            end_s < best_s - EXACT_S || end_s < best_s + EXACT_S && spare_s < best_spare_s - EXACT_S
        });
        if is_better {
            best = Some((end_s, spare_s, *index, rested.starts_s));
        }
    }
    let Some((end_s, spare_rest_s, index, starts_s)) = best else { return Err(SquadError::Nobody) };
    let chosen = candidates.choice(&cuts, index);
    let sets = waves(sets, &chosen, &starts_s)?;
    let floor_s = if all { end_s } else { candidates.floor_s };
    let bound_s = if is_proven { end_s } else { bound_s.min(floor_s).min(end_s) };
    Ok(SquadPlan { sets, end_s, bound_s, spare_rest_s, is_proven })
}

fn check(set: &SquadSet) -> Result<(), SquadError> {
    if set.runners.is_empty() {
        return Err(SquadError::Nobody);
    }
    if set.lanes.is_empty() {
        return Err(SquadError::NoLanes);
    }
    let is_time = |seconds: f64| (0.0..=6.0 * 3600.0).contains(&seconds);
    for runner in &set.runners {
        let wrong = |what, seconds| Err(SquadError::Time { name: runner.name.clone(), what, seconds });
        if !is_time(runner.target_s) || runner.target_s == 0.0 {
            return wrong("target", runner.target_s);
        }
        if !is_time(runner.rest_s) {
            return wrong("rest", runner.rest_s);
        }
    }
    Ok(())
}

/// The runners of a set, the fastest first.
fn by_target(set: &SquadSet) -> Vec<usize> {
    let mut order: Vec<usize> = (0..set.runners.len()).collect();
    order.sort_by(|&a, &b| set.runners[a].target_s.total_cmp(&set.runners[b].target_s));
    order
}

fn most_in_wave(set: &SquadSet) -> usize {
    match set.mode {
        Mode::OneToALane { most } => most.unwrap_or(usize::MAX).clamp(1, set.lanes.len()),
        Mode::GroupToALane { most } => most.max(1),
    }
}

/// The ways to cut a set into waves and to order them, and whether these are all.
fn cuts(set: &SquadSet, order: &[usize]) -> (Vec<Cut>, bool) {
    let (sizes, mut all) = partitions(order.len(), most_in_wave(set));
    let mut cuts = Vec::new();
    for sizes in &sizes {
        let mut rest = order;
        let waves: Vec<Vec<usize>> = (sizes.iter())
            .map(|&size| {
                let (wave, behind) = rest.split_at(size);
                rest = behind;
                wave.to_vec()
            })
            .collect();
        if waves.len() <= EXACT_WAVES && set.reps <= EXACT_REPS {
            permutations(waves.len()).into_iter().for_each(|order| {
                cuts.push(Cut { waves: order.into_iter().map(|wave| waves[wave].clone()).collect() });
            });
        } else {
            all &= waves.len() == 1;
            let slowest_first = waves.iter().rev().cloned().collect();
            cuts.push(Cut { waves: slowest_first });
            cuts.push(Cut { waves });
        }
    }
    (cuts, all)
}

fn permutations(count: usize) -> Vec<Vec<usize>> {
    if count == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for shorter in permutations(count - 1) {
        for place in 0..count {
            let mut order = shorter.clone();
            order.insert(place, count - 1);
            all.push(order);
        }
    }
    all
}

/// The choices of one cut for each set, the one that may end first in front.
struct Candidates {
    /// What no plan with the choice undercuts, in seconds, and the choice.
    by_bound: Vec<(f64, usize)>,
    /// Whether these are all choices.
    all: bool,
    /// What no plan at all undercuts, in seconds.
    floor_s: f64,
}

impl Candidates {
    /// The cut of each set that a choice stands for: the digits of a number.
    fn choice<'a>(&self, cuts: &'a [(Vec<Cut>, bool)], mut index: usize) -> Vec<&'a Cut> {
        cuts.iter()
            .map(|(cuts, _)| {
                let cut = &cuts[index % cuts.len()];
                index /= cuts.len();
                cut
            })
            .collect()
    }
}

fn combine(sets: &[SquadSet], cuts: &[(Vec<Cut>, bool)], rules: &TimingRules) -> Candidates {
    let bounds: Vec<Vec<f64>> = sets
        .iter()
        .zip(cuts)
        .map(|(set, (cuts, _))| cuts.iter().map(|cut| least_end_s(set, cut, rules)).collect())
        .collect();
    let waves: usize = cuts.iter().filter_map(|(cuts, _)| Some(cuts.first()?.waves.len())).sum();
    let combinations = cuts.iter().try_fold(1_usize, |product, (cuts, _)| product.checked_mul(cuts.len()));
    let floor_s = sets.iter().map(floor_s).fold(0.0, f64::max);
    let exact = sets.len() == 1 || waves <= EXACT_WAVES;
    match combinations {
        Some(count) if exact && count <= 200_000 => {
            let mut by_bound: Vec<(f64, usize)> = (0..count)
                .map(|index| {
                    let mut digits = index;
                    let bound = bounds.iter().map(|bounds| {
                        let bound = bounds[digits % bounds.len()];
                        digits /= bounds.len();
                        bound
                    });
                    (bound.fold(0.0, f64::max), index)
                })
                .collect();
            by_bound.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            Candidates { by_bound, all: true, floor_s }
        }
        _ => {
            // Too many: each set gets the cut that ends first by itself.
            let mut index = 0;
            let mut place = 1;
            let mut least_s: f64 = 0.0;
            for bounds in &bounds {
                let best = (0..bounds.len()).min_by(|&a, &b| bounds[a].total_cmp(&bounds[b])).unwrap_or(0);
                least_s = least_s.max(bounds[best]);
                index += place * best;
                place *= bounds.len();
            }
            Candidates { by_bound: vec![(least_s, index)], all: false, floor_s }
        }
    }
}

/// What no plan of a set undercuts, however it is cut: the slowest runner's own runs and rests.
fn floor_s(set: &SquadSet) -> f64 {
    let own = |runner: &Runner| {
        f64::from(set.reps) * runner.target_s + f64::from(set.reps.saturating_sub(1)) * runner.rest_s
    };
    set.runners.iter().map(own).fold(0.0, f64::max)
}

/// What no plan with a cut undercuts: each wave's last start lies its runs and rests after its first,
/// and a start gap after the last start of the wave before.
fn least_end_s(set: &SquadSet, cut: &Cut, rules: &TimingRules) -> f64 {
    let gaps = f64::from(set.reps.saturating_sub(1));
    let mut last_s = f64::NEG_INFINITY;
    let mut end_s: f64 = 0.0;
    for (place, members) in cut.waves.iter().enumerate() {
        let wave = wave_times(set, members);
        let first_s = place as f64 * rules.start_gap_s;
        last_s = (last_s + rules.start_gap_s).max(first_s + gaps * wave.period_s);
        end_s = end_s.max(last_s + wave.window_s().1);
    }
    end_s
}

fn wave_times(set: &SquadSet, members: &[usize]) -> WaveTimes {
    let runners: Vec<&Runner> = members.iter().map(|&runner| &set.runners[runner]).collect();
    WaveTimes::new(&runners, set.distance_m, set.lap_m)
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

/// The network of all starts of all sets, with the first and last start of each wave.
fn network(sets: &[SquadSet], cuts: &[&Cut], rules: &TimingRules) -> (Network, Vec<Span>) {
    let mut network = Network::default();
    let waves: usize = cuts.iter().map(|cut| cut.waves.len()).sum();
    network.most_branches = if waves <= EXACT_WAVES { EXACT_BRANCHES } else { QUICK_BRANCHES };
    network.two_at_once_s = (rules.timers == Timers::Two).then_some(rules.timing_gap_s);
    let mut spans = Vec::new();
    let mut blocks: Vec<(usize, Vec<WaveTimes>)> = Vec::new();
    for (set, cut) in sets.iter().zip(cuts) {
        let waves: Vec<WaveTimes> = cut.waves.iter().map(|members| wave_times(set, members)).collect();
        let begins = network.events.len();
        for _ in 0..set.reps {
            for wave in &waves {
                network.event(wave.window_s());
            }
        }
        one_set(&mut network, set, &waves, begins, rules);
        for (place, wave) in waves.iter().enumerate() {
            let last = begins + (set.reps as usize - 1) * waves.len() + place;
            spans.push(Span { first: begins + place, last, members: wave.members });
        }
        blocks.push((begins, waves));
    }
    for (index, (begins, waves)) in blocks.iter().enumerate() {
        for (other, (other_begins, other_waves)) in blocks.iter().enumerate().skip(index + 1) {
            let share_lanes = sets[index].lanes.iter().any(|lane| sets[other].lanes.contains(lane));
            two_sets(
                &mut network,
                (*begins, waves, sets[index].reps),
                (*other_begins, other_waves, sets[other].reps),
                rules,
                share_lanes,
            );
        }
    }
    (network, spans)
}

/// What keeps the starts of one set apart; their order is that of their numbers.
fn one_set(network: &mut Network, set: &SquadSet, waves: &[WaveTimes], begins: usize, rules: &TimingRules) {
    let count = waves.len();
    let events = count * set.reps as usize;
    let shares = |a: usize, b: usize| match set.mode {
        Mode::OneToALane { .. } => true,
        Mode::GroupToALane { .. } => a % set.lanes.len() == b % set.lanes.len(),
    };
    for event in 1..events {
        network.later(begins + event - 1, begins + event, rules.start_gap_s);
        if event >= count {
            network.later(begins + event - count, begins + event, waves[event % count].period_s);
        }
    }
    for from in 0..count {
        for to in (0..count).filter(|&to| to != from) {
            let forbidden = waves[from].forbidden(&waves[to], rules, shares(from, to));
            for from_rep in 0..set.reps as usize {
                let first_rep = if to > from { from_rep } else { from_rep + 1 };
                for to_rep in first_rep..set.reps as usize {
                    let between = to_rep - from_rep;
                    // Starts lie a start gap apart each, and whole rounds lie a period apart.
                    let rounds = if to > from { between } else { between - 1 };
                    let by_gaps = (between * count + to) as f64 - from as f64;
                    let nearest_s = (by_gaps * rules.start_gap_s).max(rounds as f64 * waves[from].period_s);
                    let (from, to) = (begins + from_rep * count + from, begins + to_rep * count + to);
                    let reaches = forbidden.iter().filter(|(_, high_s)| *high_s > nearest_s);
                    let mut any = false;
                    for &(low_s, high_s) in reaches {
                        any = true;
                        if low_s < nearest_s {
                            network.later(from, to, high_s);
                        } else {
                            network.choice(Choice { from, to, low_s, high_s });
                        }
                    }
                    if !any {
                        break;
                    }
                }
            }
        }
    }
}

type Block<'a> = (usize, &'a Vec<WaveTimes>, u32);

/// What keeps the starts of two sets apart; either may be first.
fn two_sets(network: &mut Network, a: Block<'_>, b: Block<'_>, rules: &TimingRules, share_lanes: bool) {
    let ((a_begins, a_waves, a_reps), (b_begins, b_waves, b_reps)) = (a, b);
    for (a_place, a_wave) in a_waves.iter().enumerate() {
        for (b_place, b_wave) in b_waves.iter().enumerate() {
            let mut forbidden = a_wave.forbidden(b_wave, rules, share_lanes);
            let behind = b_wave.forbidden(a_wave, rules, share_lanes);
            forbidden.extend(behind.into_iter().map(|(low_s, high_s)| (-high_s, -low_s)));
            let forbidden = merged(forbidden);
            for a_rep in 0..a_reps as usize {
                for b_rep in 0..b_reps as usize {
                    let from = a_begins + a_rep * a_waves.len() + a_place;
                    let to = b_begins + b_rep * b_waves.len() + b_place;
                    for &(low_s, high_s) in &forbidden {
                        network.choice(Choice { from, to, low_s, high_s });
                    }
                }
            }
        }
    }
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
            let runners: Vec<&Runner> = members.iter().map(|&runner| &set.runners[runner]).collect();
            let pins =
                || SquadError::Pins { names: runners.iter().map(|runner| runner.name.clone()).collect() };
            let lanes = match set.mode {
                Mode::OneToALane { .. } => lane_turns(&runners, &set.lanes, set.reps).ok_or_else(pins)?,
                Mode::GroupToALane { .. } => {
                    let lane = set.lanes[place % set.lanes.len()];
                    if runners
                        .iter()
                        .any(|runner| runner.lanes.as_ref().is_some_and(|own| !own.contains(&lane)))
                    {
                        return Err(pins());
                    }
                    vec![vec![lane; runners.len()]; set.reps as usize]
                }
            };
            waves.push(WavePlan { members: members.clone(), go_s, lanes });
        }
        begins += count * set.reps as usize;
        planned.push(WaveSet { waves });
    }
    Ok(planned)
}

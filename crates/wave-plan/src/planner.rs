//! From sets to waves and go times.

use crate::candidate::{Candidate, candidates};
use crate::cut::{Cut, Cuts, EXACT_WAVES, cuts};
use crate::error::{SquadError, check};
use crate::floor::floor_s;
use crate::greedy::{Turn, greedy_starts};
use crate::lane_turns::lane_turns;
use crate::network::{EXACT_S, Network};
use crate::plan::{SquadPlan, WavePlan};
use crate::rules::TimingRules;
use crate::set::{Mode, SquadSet};
use crate::soonest::soonest;
use crate::spacing::Spacing;

/// How much work is done.
struct Effort {
    /// Candidates that are looked at.
    candidates: usize,
    /// Candidates that get a quick plan.
    first_plans: usize,
    /// Branches of all candidates, and of one.
    branches: usize,
    branches_each: usize,
    /// Starts and choices gone through for one candidate.
    steps: usize,
}

/// Where all candidates are known, and where there are too many.
const EXACT: Effort = Effort {
    candidates: 20_000,
    first_plans: 200,
    branches: 60_000,
    branches_each: 6_000,
    steps: 40_000_000,
};
const QUICK: Effort =
    Effort { candidates: 30, first_plans: 30, branches: 500, branches_each: 250, steps: 2_000_000 };

/// Finds who runs when.
///
/// Waves hold athletes of like speed and are as few as there can be. Of all ways to cut them and to order
/// them the one is taken that ends first. For up to six waves and twelve repetitions that is exact; beyond,
/// and where there are too many choices, the best plan found comes with a bound that no plan beats.
/// Each wave goes as soon as those before it allow.
///
/// After a late change, `before` holds for each set and runner the wave of the plan before, counted from 0;
/// nothing for a runner who is new. Of plans that end as soon, one is taken in which most runners stay in
/// their waves. Give `&[]` where there was no plan before.
///
/// # Errors
///
/// [`SquadError`] where nobody runs, no lane is open, a number makes no sense, the lanes that runners may use
/// are too few, or there is too much to plan at once.
pub fn plan_squads(
    sets: &[SquadSet],
    rules: &TimingRules,
    before: &[Vec<Option<usize>>],
) -> Result<SquadPlan, SquadError> {
    check(sets, rules)?;
    let is_exact = sets.iter().map(SquadSet::wave_count).sum::<usize>() <= EXACT_WAVES;
    let before_of = |set: usize| before.get(set).map_or(&[][..], Vec::as_slice);
    let cuts = (sets.iter().enumerate())
        .map(|(number, set)| cuts(number, set, before_of(number), is_exact))
        .collect::<Result<Vec<_>, _>>()?;
    let (mut candidates, all) = candidates(&cuts, rules);
    let mut work =
        Work { cuts: &cuts, before, spacing: Spacing::new(rules), effort: if all { &EXACT } else { &QUICK } };
    if !before.is_empty() {
        // The first of plans that are as good is taken.
        candidates
            .sort_by(|a, b| a.floor_s.total_cmp(&b.floor_s).then_with(|| work.kept(b).cmp(&work.kept(a))));
    }
    let (first, open_s) = work.first_to_end(&candidates)?;
    let open_s = if all { open_s } else { open_s.min(floor_s(sets, rules)) };
    let best = work.most_kept(&candidates, first)?;
    let is_proven = open_s > best.end_s - 3.0 * EXACT_S;
    Ok(SquadPlan {
        sets: waves(&work.chosen(&best.candidate), &best.starts_s)?,
        end_s: best.end_s,
        bound_s: if is_proven { best.end_s } else { open_s },
        is_proven,
    })
}

/// The best that was found.
struct Best {
    end_s: f64,
    candidate: Candidate,
    starts_s: Vec<f64>,
}

/// What is planned.
struct Work<'a> {
    cuts: &'a [Cuts<'a>],
    /// The waves that runners had before.
    before: &'a [Vec<Option<usize>>],
    spacing: Spacing<'a>,
    effort: &'static Effort,
}

impl<'a> Work<'a> {
    fn chosen(&self, candidate: &Candidate) -> Vec<&'a Cut<'a>> {
        candidate.cuts.iter().zip(self.cuts).map(|(&cut, of_set)| &of_set.cuts[cut]).collect()
    }

    /// How many runners have the wave that they had before.
    fn kept(&self, candidate: &Candidate) -> usize {
        self.chosen(candidate).into_iter().zip(self.before).map(|(cut, before)| cut.kept(before)).sum()
    }

    fn network(&mut self, candidate: &Candidate) -> Result<Network, SquadError> {
        let chosen = self.chosen(candidate);
        self.spacing.network(&chosen)
    }

    /// The starts that end first, and a bound that no candidate beats.
    fn first_to_end(&mut self, candidates: &[Candidate]) -> Result<(Best, f64), SquadError> {
        let mut best = Best { end_s: f64::INFINITY, candidate: candidates[0].clone(), starts_s: Vec::new() };
        let mut open_s = f64::INFINITY;
        // First a quick plan of each: where one meets the bound, nothing is left to do.
        let mut left: Vec<(f64, &Candidate)> = Vec::new();
        for (number, candidate) in candidates.iter().enumerate() {
            if candidate.floor_s > best.end_s - EXACT_S {
                break;
            }
            if number == self.effort.candidates {
                open_s = open_s.min(candidate.floor_s);
                break;
            }
            let network = self.network(candidate)?;
            let Some(root) = network.earliest(best.end_s) else { continue };
            left.push((network.end_s(&root), candidate));
            if number >= self.effort.first_plans {
                continue;
            }
            let (end_s, starts_s) = quickest(&network);
            if end_s < best.end_s - EXACT_S {
                best = Best { end_s, starts_s, candidate: candidate.clone() };
            }
        }
        left.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut branches = self.effort.branches;
        for (bound_s, candidate) in left {
            if bound_s > best.end_s - 2.0 * EXACT_S {
                break;
            }
            if branches == 0 {
                open_s = open_s.min(bound_s);
                break;
            }
            let (found, bound_s) = self.soonest(candidate, best.end_s, &mut branches)?;
            open_s = open_s.min(bound_s);
            best = found.unwrap_or(best);
        }
        Ok((best, open_s))
    }

    /// The starts of a candidate that end first, if any end before `deadline_s`; and its bound.
    fn soonest(
        &mut self,
        candidate: &Candidate,
        deadline_s: f64,
        branches: &mut usize,
    ) -> Result<(Option<Best>, f64), SquadError> {
        let mut network = self.network(candidate)?;
        let most = self.effort.branches_each.min(*branches);
        let most = most.min(self.effort.steps / (network.starts.len() + network.choices.len()));
        let Some(root) = network.earliest(deadline_s) else { return Ok((None, f64::INFINITY)) };
        let mut own = most;
        let (found, bound_s) = soonest(&mut network, &root, deadline_s, &mut own);
        *branches -= most - own;
        let best = |starts_s: Vec<f64>| Best {
            end_s: network.end_s(&starts_s),
            starts_s,
            candidate: candidate.clone(),
        };
        Ok((found.map(best), bound_s))
    }

    /// Of plans that end no later than `first`, the one that leaves most runners in their waves.
    fn most_kept(&mut self, candidates: &[Candidate], first: Best) -> Result<Best, SquadError> {
        let (end_s, kept) = (first.end_s + EXACT_S, self.kept(&first.candidate));
        let mut others: Vec<(usize, &Candidate)> = (candidates.iter())
            .take_while(|candidate| candidate.floor_s < end_s)
            .map(|candidate| (self.kept(candidate), candidate))
            .filter(|(keeps, _)| *keeps > kept)
            .collect();
        others.sort_by_key(|(keeps, _)| std::cmp::Reverse(*keeps));
        others.truncate(self.effort.first_plans);
        let mut branches = self.effort.branches;
        for (_, candidate) in others {
            let (quick_s, starts_s) = quickest(&self.network(candidate)?);
            if quick_s < end_s {
                return Ok(Best { end_s: quick_s, starts_s, candidate: candidate.clone() });
            }
            if let (Some(found), _) = self.soonest(candidate, end_s + EXACT_S, &mut branches)? {
                return Ok(found);
            }
        }
        Ok(first)
    }
}

/// The better of two quick plans, with its end.
fn quickest(network: &Network) -> (f64, Vec<f64>) {
    let planned = |turn| {
        let starts_s = greedy_starts(network, turn);
        (network.end_s(&starts_s), starts_s)
    };
    let (soonest, longest) = (planned(Turn::Soonest), planned(Turn::Longest));
    if longest.0 < soonest.0 { longest } else { soonest }
}

/// The waves of each set with their go times and lanes.
fn waves(cuts: &[&Cut<'_>], starts_s: &[f64]) -> Result<Vec<Vec<WavePlan>>, SquadError> {
    let mut left_s = starts_s;
    let mut planned = Vec::with_capacity(cuts.len());
    for cut in cuts {
        let count = cut.waves.len();
        let starts = cut.waves.iter().map(|wave| wave.set.reps as usize).sum();
        let (own_s, behind_s) = left_s.split_at(starts);
        left_s = behind_s;
        let wave_plan = |(place, wave): (usize, &std::rc::Rc<crate::wave::Wave<'_>>)| {
            let (set, runners) = (wave.set, wave.set.members(&wave.members));
            let pins =
                || SquadError::Pins { names: runners.iter().map(|runner| runner.name.clone()).collect() };
            let lanes = match set.mode {
                Mode::OneToALane { .. } => lane_turns(&runners, &set.lanes, set.reps).ok_or_else(pins)?,
                Mode::GroupToALane { .. } => vec![vec![wave.lanes[0]; runners.len()]; set.reps as usize],
            };
            let go_s = own_s.iter().skip(place).step_by(count).copied().collect();
            Ok(WavePlan { members: wave.members.clone(), go_s, lanes })
        };
        planned.push(cut.waves.iter().enumerate().map(wave_plan).collect::<Result<_, _>>()?);
    }
    Ok(planned)
}

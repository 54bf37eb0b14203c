//! From itineraries to waves and go times.

use crate::candidate::{Candidate, candidates};
use crate::cut::{Cut, Cuts, EXACT_WAVES, cuts};
use crate::error::{SquadError, check};
use crate::floor::{floor_s, itinerary_floor_s};
use crate::greedy::{Turn, greedy_starts};
use crate::itinerary::{Itinerary, Mode};
use crate::lane_turns::lane_turns;
use crate::network::{EXACT_S, Network};
use crate::party::Party;
use crate::plan::{EveningPlan, ItineraryPlan, WavePlan};
use crate::rules::TimingRules;
use crate::slot::Slot;
use crate::soonest::soonest;
use crate::spacing::{Pairs, Spacing};

/// How much work is done.
struct Effort {
    /// Candidates that are looked at.
    candidates: usize,
    /// Candidates that get a quick plan.
    first_plans: usize,
    /// Branches of all candidates, and of one.
    branches: usize,
    branches_each: usize,
    /// Choices of a candidate beyond which it gets a quick plan only.
    choices: usize,
    /// Branches times starts of all candidates: a branch goes through all starts.
    steps: usize,
}

/// Where all candidates are known, and where there are too many.
const EXACT: Effort = Effort {
    candidates: 20_000,
    first_plans: 200,
    branches: 60_000,
    branches_each: 6_000,
    choices: 4_000_000,
    steps: 4_000_000,
};
const QUICK: Effort = Effort {
    candidates: 30,
    first_plans: 30,
    branches: 2_000,
    branches_each: 1_000,
    choices: 200_000,
    steps: 150_000,
};

/// Starts beyond which only the likeliest candidate is looked at.
const MANY_STARTS: usize = 600;
const VERY_MANY: Effort = Effort { candidates: 1, first_plans: 1, branches: 0, ..QUICK };

/// Finds who runs when.
///
/// Waves hold athletes of like speed and are as few as there can be. Of all ways to cut them and to order them the
/// one is taken that ends first. For up to six waves and twelve runs that is exact; beyond, and where there are
/// too many choices, the best plan found comes with a bound that no plan beats. Each wave goes as soon as those
/// before it allow.
///
/// After a late change, `before` holds for each party, itinerary and runner the wave of the plan before, counted
/// from 0; nothing for a runner who is new. Of plans that end as soon, one is taken in which most runners stay in
/// their waves. Give `&[]` where there was no plan before.
///
/// # Errors
///
/// [`SquadError`] where nobody runs, no lane is open, a number makes no sense, the lanes that runners may use
/// are too few, or there is too much to plan at once.
pub fn plan_evening(
    parties: &[Party],
    rules: &TimingRules,
    before: &[Vec<Vec<Option<usize>>>],
) -> Result<EveningPlan, SquadError> {
    check(parties, rules)?;
    let slots: Vec<Slot<'_>> = (parties.iter().enumerate())
        .flat_map(|(party, of)| {
            of.itineraries.iter().enumerate().map(move |(place, itinerary)| Slot {
                party,
                delay_s: match place {
                    0 => of.begins_s + itinerary.after_s,
                    _ => itinerary.after_s.max(rules.least_break_s()),
                },
                itinerary,
                before: before.get(party).and_then(|of| of.get(place)).map_or(&[], Vec::as_slice),
            })
        })
        .collect();
    let mut plans = match parties {
        [_] => in_turn(&slots, rules)?,
        _ => Planned::of(&slots, rules)?,
    };
    let mut planned = plans.itineraries.drain(..);
    let parties =
        parties.iter().map(|party| planned.by_ref().take(party.itineraries.len()).collect()).collect();
    drop(planned);
    Ok(EveningPlan { parties, end_s: plans.end_s, bound_s: plans.bound_s, is_proven: plans.is_proven })
}

/// Itineraries with their times.
struct Planned {
    itineraries: Vec<ItineraryPlan>,
    end_s: f64,
    bound_s: f64,
    is_proven: bool,
}

/// The itineraries of one party: each is planned alone, for nobody begins the next before all are done.
fn in_turn(slots: &[Slot<'_>], rules: &TimingRules) -> Result<Planned, SquadError> {
    let mut all = Planned { itineraries: Vec::new(), end_s: 0.0, bound_s: 0.0, is_proven: true };
    for slot in slots {
        let one = Planned::of(&[Slot { delay_s: 0.0, ..*slot }], rules)?;
        let begins_s = all.end_s + slot.delay_s;
        all.bound_s += slot.delay_s + one.bound_s;
        all.end_s = begins_s + one.end_s;
        all.is_proven &= one.is_proven;
        all.itineraries.extend(one.itineraries.into_iter().map(|mut itinerary| {
            itinerary.begins_s = begins_s;
            itinerary.end_s += begins_s;
            itinerary.waves.iter_mut().flat_map(|wave| &mut wave.go_s).for_each(|go_s| *go_s += begins_s);
            (itinerary.bound_s, itinerary.is_proven) = (one.bound_s, one.is_proven);
            itinerary
        }));
    }
    // Two sums of the same times may differ in their last digit.
    all.bound_s = if all.is_proven { all.end_s } else { all.bound_s.min(all.end_s) };
    Ok(all)
}

impl Planned {
    /// Itineraries planned at once.
    fn of(slots: &[Slot<'_>], rules: &TimingRules) -> Result<Self, SquadError> {
        let is_exact = slots.iter().map(|slot| slot.itinerary.wave_count()).sum::<usize>() <= EXACT_WAVES;
        let mut kinds = 0;
        let cuts =
            (slots.iter()).map(|slot| cuts(slot, is_exact, &mut kinds)).collect::<Result<Vec<_>, _>>()?;
        let (mut candidates, all) = candidates(slots, &cuts, rules);
        let starts: usize = slots.iter().map(|slot| slot.itinerary.start_count()).sum();
        let effort = match starts {
            MANY_STARTS.. => &VERY_MANY,
            _ if all => &EXACT,
            _ => &QUICK,
        };
        let mut work = Work { slots, cuts: &cuts, spacing: Spacing::new(rules, kinds), effort };
        if slots.iter().any(|slot| !slot.before.is_empty()) {
            // The first of plans that are as good is taken.
            candidates.sort_by(|a, b| {
                a.floor_s.total_cmp(&b.floor_s).then_with(|| work.kept(b).cmp(&work.kept(a)))
            });
        }
        let (first, open_s) = work.first_to_end(&candidates);
        let open_s = if all { open_s } else { open_s.min(floor_s(slots, rules)) };
        let best = work.most_kept(&candidates, first);
        let is_proven = open_s > best.end_s - 3.0 * EXACT_S;
        Ok(Self {
            itineraries: work.itineraries(&best, rules)?,
            end_s: best.end_s,
            bound_s: if is_proven { best.end_s } else { open_s },
            is_proven,
        })
    }
}

/// The best that was found.
struct Best {
    end_s: f64,
    candidate: Candidate,
    starts_s: Vec<f64>,
}

/// What is planned.
struct Work<'a, 'r> {
    slots: &'a [Slot<'a>],
    cuts: &'a [Cuts<'a>],
    spacing: Spacing<'r>,
    effort: &'static Effort,
}

impl<'a> Work<'a, '_> {
    fn chosen(&self, candidate: &Candidate) -> Vec<&'a Cut<'a>> {
        candidate.cuts.iter().zip(self.cuts).map(|(&cut, of_set)| &of_set.cuts[cut]).collect()
    }

    /// How many runners have the wave that they had before.
    fn kept(&self, candidate: &Candidate) -> usize {
        self.chosen(candidate).into_iter().zip(self.slots).map(|(cut, slot)| cut.kept(slot.before)).sum()
    }

    /// How many branches of all candidates are looked at.
    fn branches(&self) -> usize {
        let starts: usize = self.slots.iter().map(|slot| slot.itinerary.start_count()).sum();
        self.effort.branches.min(self.effort.steps / starts.max(1))
    }

    /// The network of a candidate without the choices.
    fn network(&self, candidate: &Candidate) -> Network<'a> {
        self.spacing.network(self.slots, &self.chosen(candidate))
    }

    /// The better of two quick plans, with its end.
    fn quickest(&mut self, network: &Network<'a>) -> (f64, Vec<f64>) {
        let mut planned = |turn| {
            let starts_s = greedy_starts(network, &mut self.spacing, turn);
            (network.end_s(&starts_s), starts_s)
        };
        let soonest = planned(Turn::Soonest);
        if network.is_one_party() {
            return soonest;
        }
        let longest = planned(Turn::Longest);
        if longest.0 < soonest.0 { longest } else { soonest }
    }

    /// The starts that end first, and a bound that no candidate beats.
    fn first_to_end(&mut self, candidates: &[Candidate]) -> (Best, f64) {
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
            let mut network = self.network(candidate);
            if self.effort.branches > 0 {
                let most = (Pairs::OfOneItinerary, self.effort.choices);
                self.spacing.add_choices(&mut network, most);
            }
            let Some(root) = network.earliest(best.end_s) else { continue };
            left.push((network.end_s(&root), candidate));
            if number >= self.effort.first_plans {
                continue;
            }
            let (end_s, starts_s) = self.quickest(&network);
            if end_s < best.end_s - EXACT_S {
                best = Best { end_s, starts_s, candidate: candidate.clone() };
            }
        }
        left.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut branches = self.branches();
        for (bound_s, candidate) in left {
            if bound_s > best.end_s - 2.0 * EXACT_S {
                break;
            }
            if branches == 0 {
                open_s = open_s.min(bound_s);
                break;
            }
            let (found, bound_s) = self.soonest(candidate, best.end_s, &mut branches);
            open_s = open_s.min(bound_s);
            best = found.unwrap_or(best);
        }
        (best, open_s)
    }

    /// The starts of a candidate that end first, if any end before `deadline_s`; and its bound.
    fn soonest(
        &mut self,
        candidate: &Candidate,
        deadline_s: f64,
        branches: &mut usize,
    ) -> (Option<Best>, f64) {
        let mut network = self.network(candidate);
        if !self.spacing.add_choices(&mut network, (Pairs::All, self.effort.choices)) {
            return (None, candidate.floor_s);
        }
        let Some(root) = network.earliest(deadline_s) else { return (None, f64::INFINITY) };
        network.settle(&root, deadline_s);
        // No candidate gets more than half of them.
        let most = self.effort.branches_each.min(self.branches().div_ceil(2)).min(*branches);
        let mut own = most;
        let (found, bound_s) = soonest(&mut network, &root, deadline_s, &mut own);
        *branches -= most - own;
        let best = |starts_s: Vec<f64>| Best {
            end_s: network.end_s(&starts_s),
            starts_s,
            candidate: candidate.clone(),
        };
        (found.map(best), bound_s)
    }

    /// Of plans that end no later than `first`, the one that leaves most runners in their waves.
    fn most_kept(&mut self, candidates: &[Candidate], first: Best) -> Best {
        let (end_s, kept) = (first.end_s + EXACT_S, self.kept(&first.candidate));
        let mut others: Vec<(usize, &Candidate)> = (candidates.iter())
            .take_while(|candidate| candidate.floor_s < end_s)
            .map(|candidate| (self.kept(candidate), candidate))
            .filter(|(keeps, _)| *keeps > kept)
            .collect();
        others.sort_by_key(|(keeps, _)| std::cmp::Reverse(*keeps));
        others.truncate(self.effort.first_plans);
        let mut branches = self.branches();
        for (_, candidate) in others {
            let network = self.network(candidate);
            let (quick_s, starts_s) = self.quickest(&network);
            if quick_s < end_s {
                return Best { end_s: quick_s, starts_s, candidate: candidate.clone() };
            }
            if let (Some(found), _) = self.soonest(candidate, end_s + EXACT_S, &mut branches) {
                return found;
            }
        }
        first
    }

    /// The itineraries with their go times and lanes.
    fn itineraries(&self, best: &Best, rules: &TimingRules) -> Result<Vec<ItineraryPlan>, SquadError> {
        let chosen = self.chosen(&best.candidate);
        let network = self.network(&best.candidate);
        let mut left = network.starts.iter().zip(&best.starts_s).peekable();
        let mut planned: Vec<ItineraryPlan> = Vec::with_capacity(chosen.len());
        for (index, (slot, cut)) in self.slots.iter().zip(chosen).enumerate() {
            let is_first = index == 0 || self.slots[index - 1].party != slot.party;
            let mut waves = (cut.waves.iter())
                .map(|wave| wave_plan(slot.itinerary, &wave.members, wave.lanes[0]))
                .collect::<Result<Vec<_>, _>>()?;
            let mut end_s: f64 = 0.0;
            while let Some((start, go_s)) =
                left.next_if(|(start, _)| std::ptr::eq(start.wave.itinerary, slot.itinerary))
            {
                waves[start.place].go_s.push(*go_s);
                end_s = end_s.max(go_s + start.window_s.1);
            }
            let begins_s =
                slot.delay_s + planned.last().filter(|_| !is_first).map_or(0.0, |before| before.end_s);
            let bound_s = itinerary_floor_s(slot.itinerary, rules);
            let is_proven = end_s - begins_s < bound_s + 3.0 * EXACT_S;
            planned.push(ItineraryPlan { waves, begins_s, end_s, bound_s, is_proven });
        }
        Ok(planned)
    }
}

/// A wave with its lanes, and no times yet.
fn wave_plan(itinerary: &Itinerary, members: &[usize], lane: u8) -> Result<WavePlan, SquadError> {
    let runners = itinerary.members(members);
    let runs = itinerary.runs.len();
    let lanes = match itinerary.mode {
        Mode::OneToALane { .. } => {
            let turns = lane_turns(&runners, &itinerary.lanes, if itinerary.keeps_lanes { 1 } else { runs });
            let names = || runners.iter().map(|runner| runner.name.clone()).collect();
            let mut turns = turns.ok_or_else(|| SquadError::Pins { names: names() })?;
            turns.resize(runs, turns[0].clone());
            turns
        }
        Mode::GroupToALane { .. } => vec![vec![lane; runners.len()]; runs],
        Mode::Together => {
            let spread = |place: usize| itinerary.lanes[place * itinerary.lanes.len() / runners.len()];
            vec![(0..runners.len()).map(spread).collect(); runs]
        }
    };
    Ok(WavePlan { members: members.to_vec(), go_s: Vec::with_capacity(runs), lanes })
}

//! Which cut of each set goes with which of the others.

use crate::cut::Cut;
use crate::floor::{cut_floor_s, cut_spare_s};
use crate::planner::SquadSet;
use crate::timing_rules::TimingRules;

/// The most choices that are looked at one by one.
const MOST_CHOICES: usize = 200_000;

/// Where not every choice is looked at, so many of each set are.
const FEW: usize = 6;

/// A cut for each set, as an index into its cuts; and what no plan with them undercuts, in seconds.
#[derive(Clone)]
pub(crate) struct Candidate {
    pub(crate) floor_s: f64,
    /// Nor is less rest spare: all of a wave wait for whoever is ready last.
    pub(crate) spare_s: f64,
    pub(crate) cuts: Vec<usize>,
}

/// The choices, the one that may end first in front; and whether these are all.
pub(crate) fn candidates(
    sets: &[SquadSet],
    cuts: &[(Vec<Cut>, bool)],
    rules: &TimingRules,
) -> (Vec<Candidate>, bool) {
    let floors: Vec<Vec<Floor>> = (sets.iter().zip(cuts))
        .map(|(set, (cuts, _))| {
            let floor = |cut| Floor { end_s: cut_floor_s(set, cut, rules), spare_s: cut_spare_s(set, cut) };
            cuts.iter().map(floor).collect()
        })
        .collect();
    let choices = cuts.iter().try_fold(1_usize, |product, (cuts, _)| product.checked_mul(cuts.len()));
    let all = cuts.iter().all(|(_, all)| *all) && choices.is_some_and(|choices| choices <= MOST_CHOICES);
    let mut candidates = if all { every(&floors) } else { likely(&floors) };
    candidates.sort_by(|a, b| a.floor_s.total_cmp(&b.floor_s).then_with(|| a.cuts.cmp(&b.cuts)));
    (candidates, all)
}

/// What no plan with a cut undercuts, in seconds.
struct Floor {
    end_s: f64,
    spare_s: f64,
}

fn candidate(floors: &[Vec<Floor>], cuts: Vec<usize>) -> Candidate {
    let chosen = || cuts.iter().zip(floors).map(|(&cut, floors)| &floors[cut]);
    let floor_s = chosen().map(|floor| floor.end_s).fold(0.0, f64::max);
    Candidate { floor_s, spare_s: chosen().map(|floor| floor.spare_s).sum(), cuts }
}

fn every(all: &[Vec<Floor>]) -> Vec<Candidate> {
    let mut choices: Vec<Vec<usize>> = vec![Vec::new()];
    for floors in all {
        let longer = |choice: &Vec<usize>| {
            let choice = choice.clone();
            (0..floors.len()).map(move |cut| [choice.as_slice(), &[cut]].concat())
        };
        choices = choices.iter().flat_map(longer).collect();
    }
    choices.into_iter().map(|cuts| candidate(all, cuts)).collect()
}

/// For each set the cuts that end first by themselves, one after the other with the best of the others.
fn likely(floors: &[Vec<Floor>]) -> Vec<Candidate> {
    let best: Vec<Vec<usize>> = (floors.iter())
        .map(|floors| {
            let mut order: Vec<usize> = (0..floors.len()).collect();
            order.sort_by(|&a, &b| floors[a].end_s.total_cmp(&floors[b].end_s));
            order.truncate(FEW);
            order
        })
        .collect();
    let first: Vec<usize> = best.iter().map(|order| order[0]).collect();
    let mut candidates = vec![candidate(floors, first.clone())];
    for (set, order) in best.iter().enumerate() {
        for &cut in &order[1..] {
            let mut cuts = first.clone();
            cuts[set] = cut;
            candidates.push(candidate(floors, cuts));
        }
    }
    candidates
}

//! Which cut of each set goes with which of the others.

use super::cut::{Cut, EXACT_WAVES};
use super::floor::cut_floor_s;
use super::planner::SquadSet;
use super::timing_rules::TimingRules;

/// The most choices that are looked at one by one.
const MOST_CHOICES: usize = 200_000;

/// Where not every choice is looked at, so many of each set are.
const FEW: usize = 6;

/// A cut for each set, as an index into its cuts; and what no plan with them undercuts, in seconds.
pub(super) struct Candidate {
    pub(super) floor_s: f64,
    pub(super) cuts: Vec<usize>,
}

/// The choices, the one that may end first in front; and whether these are all.
pub(super) fn candidates(
    sets: &[SquadSet],
    cuts: &[(Vec<Cut>, bool)],
    rules: &TimingRules,
) -> (Vec<Candidate>, bool) {
    let floors_s: Vec<Vec<f64>> = (sets.iter().zip(cuts))
        .map(|(set, (cuts, _))| cuts.iter().map(|cut| cut_floor_s(set, cut, rules)).collect())
        .collect();
    let waves: usize = cuts.iter().filter_map(|(cuts, _)| Some(cuts.first()?.waves.len())).sum();
    let choices = cuts.iter().try_fold(1_usize, |product, (cuts, _)| product.checked_mul(cuts.len()));
    let all = cuts.iter().all(|(_, all)| *all)
        && (sets.len() == 1 || waves <= EXACT_WAVES)
        && choices.is_some_and(|choices| choices <= MOST_CHOICES);
    let mut candidates = if all { every(&floors_s) } else { likely(&floors_s) };
    candidates.sort_by(|a, b| a.floor_s.total_cmp(&b.floor_s).then_with(|| a.cuts.cmp(&b.cuts)));
    (candidates, all)
}

fn candidate(floors_s: &[Vec<f64>], cuts: Vec<usize>) -> Candidate {
    let floor_s = cuts.iter().zip(floors_s).map(|(&cut, floors_s)| floors_s[cut]).fold(0.0, f64::max);
    Candidate { floor_s, cuts }
}

fn every(floors_s: &[Vec<f64>]) -> Vec<Candidate> {
    let mut choices: Vec<Vec<usize>> = vec![Vec::new()];
    for floors_s in floors_s {
        let longer = |choice: &Vec<usize>| {
            let choice = choice.clone();
            (0..floors_s.len()).map(move |cut| [choice.as_slice(), &[cut]].concat())
        };
        choices = choices.iter().flat_map(longer).collect();
    }
    choices.into_iter().map(|cuts| candidate(floors_s, cuts)).collect()
}

/// For each set the cuts that end first by themselves, one after the other with the best of the others.
fn likely(floors_s: &[Vec<f64>]) -> Vec<Candidate> {
    let best: Vec<Vec<usize>> = (floors_s.iter())
        .map(|floors_s| {
            let mut order: Vec<usize> = (0..floors_s.len()).collect();
            order.sort_by(|&a, &b| floors_s[a].total_cmp(&floors_s[b]));
            order.truncate(FEW);
            order
        })
        .collect();
    let first: Vec<usize> = best.iter().map(|order| order[0]).collect();
    let mut candidates = vec![candidate(floors_s, first.clone())];
    for (set, order) in best.iter().enumerate() {
        for &cut in &order[1..] {
            let mut cuts = first.clone();
            cuts[set] = cut;
            candidates.push(candidate(floors_s, cuts));
        }
    }
    candidates
}

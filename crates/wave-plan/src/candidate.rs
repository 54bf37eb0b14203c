//! Combinations of cuts, one for each set.

use crate::cut::Cuts;
use crate::floor::{cut_floor_s, cut_wait_s, party_ends_s};
use crate::rules::TimingRules;
use crate::slot::Slot;

/// The most combinations that are all looked at.
const MOST_COMBINATIONS: usize = 200_000;

/// Beyond that, how many cuts of each set are looked at.
const FEW: usize = 6;

/// A cut for each set, as an index into its cuts.
#[derive(Clone)]
pub(crate) struct Candidate {
    /// No plan with these cuts ends before this, in seconds.
    pub(crate) floor_s: f64,
    /// How long members of a wave wait for one another, in seconds.
    pub(crate) wait_s: f64,
    pub(crate) cuts: Vec<usize>,
}

/// The combinations, that with the earliest bound first, of equals that with the shortest waits; and whether
/// these are all.
pub(crate) fn candidates(
    slots: &[Slot<'_>],
    cuts: &[Cuts<'_>],
    rules: &TimingRules,
) -> (Vec<Candidate>, bool) {
    let of_cut =
        |cut| Candidate { floor_s: cut_floor_s(cut, rules), wait_s: cut_wait_s(cut), cuts: Vec::new() };
    let single: Vec<Vec<Candidate>> = cuts.iter().map(|set| set.cuts.iter().map(of_cut).collect()).collect();
    let choices = cuts.iter().try_fold(1_usize, |product, set| product.checked_mul(set.cuts.len()));
    let all =
        cuts.iter().all(|set| set.is_all) && choices.is_some_and(|choices| choices <= MOST_COMBINATIONS);
    let mut candidates: Vec<Candidate> = (if all { every(&single) } else { likely(&single) })
        .into_iter()
        .map(|cuts| joined(slots, &single, cuts))
        .collect();
    candidates.sort_by(|a, b| {
        let order = a.floor_s.total_cmp(&b.floor_s).then(a.wait_s.total_cmp(&b.wait_s));
        order.then_with(|| a.cuts.cmp(&b.cuts))
    });
    (candidates, all)
}

fn joined(slots: &[Slot<'_>], single: &[Vec<Candidate>], cuts: Vec<usize>) -> Candidate {
    let floor_s = party_ends_s(slots, |index, _| single[index][cuts[index]].floor_s);
    let wait_s = cuts.iter().zip(single).map(|(&cut, of_set)| of_set[cut].wait_s).sum();
    Candidate { floor_s, wait_s, cuts }
}

fn every(single: &[Vec<Candidate>]) -> Vec<Vec<usize>> {
    let mut choices: Vec<Vec<usize>> = vec![Vec::new()];
    for of_set in single {
        let longer = |choice: &Vec<usize>| {
            let choice = choice.clone();
            (0..of_set.len()).map(move |cut| [choice.as_slice(), &[cut]].concat())
        };
        choices = choices.iter().flat_map(longer).collect();
    }
    choices
}

/// For each set the cuts with the earliest bounds, each with the best cuts of the other sets.
fn likely(single: &[Vec<Candidate>]) -> Vec<Vec<usize>> {
    let best: Vec<Vec<usize>> = (single.iter())
        .map(|of_set| {
            let mut order: Vec<usize> = (0..of_set.len()).collect();
            order.sort_by(|&a, &b| of_set[a].floor_s.total_cmp(&of_set[b].floor_s));
            order.truncate(FEW);
            order
        })
        .collect();
    let first: Vec<usize> = best.iter().map(|order| order[0]).collect();
    let mut choices = vec![first.clone()];
    for (set, order) in best.iter().enumerate() {
        for &cut in &order[1..] {
            let mut cuts = first.clone();
            cuts[set] = cut;
            choices.push(cuts);
        }
    }
    choices
}

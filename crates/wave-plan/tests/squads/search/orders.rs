//! Every way to cut sets into waves and to order these.

use crate::search::set::SquadSet;
use wave_plan::Mode;

/// The most that one wave of a set may hold.
pub(crate) fn most(set: &SquadSet) -> usize {
    match set.mode {
        Mode::OneToALane { most } => most.map_or(set.lanes.len(), |most| most.min(set.lanes.len())),
        Mode::GroupToALane { most } => most,
        Mode::Together => set.runners.len(),
    }
}

/// How many waves the sets have together.
pub(crate) fn wave_count(sets: &[SquadSet]) -> usize {
    sets.iter().map(|set| set.runners.len().div_ceil(most(set))).sum()
}

/// For each choice the waves of every set in their order.
pub(super) fn choices(sets: &[SquadSet]) -> Vec<Vec<Vec<Vec<usize>>>> {
    let mut choices = vec![Vec::new()];
    for set in sets {
        let mut order: Vec<usize> = (0..set.runners.len()).collect();
        let times = |n: usize| (set.runners[n].target_s, set.runners[n].rest_s);
        order.sort_by(|&a, &b| times(a).partial_cmp(&times(b)).expect("times are numbers"));
        let mut ways = Vec::new();
        cut(&order, order.len().div_ceil(most(set)), most(set), &mut Vec::new(), &mut ways);
        let ordered: Vec<Vec<Vec<usize>>> = ways.into_iter().flat_map(|waves| orders(&waves)).collect();
        choices = (choices.iter())
            .flat_map(|choice: &Vec<Vec<Vec<usize>>>| {
                ordered.iter().map(move |waves| [choice.as_slice(), std::slice::from_ref(waves)].concat())
            })
            .collect();
    }
    choices
}

/// Cuts what is left into so many waves, the first of each length it may have.
fn cut(
    left: &[usize],
    waves: usize,
    most: usize,
    begun: &mut Vec<Vec<usize>>,
    ways: &mut Vec<Vec<Vec<usize>>>,
) {
    if waves == 0 {
        if left.is_empty() {
            ways.push(begun.clone());
        }
        return;
    }
    for length in 1..=most.min(left.len()) {
        begun.push(left[..length].to_vec());
        cut(&left[length..], waves - 1, most, begun, ways);
        begun.pop();
    }
}

fn orders(waves: &[Vec<usize>]) -> Vec<Vec<Vec<usize>>> {
    if waves.is_empty() {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for first in 0..waves.len() {
        let mut others = waves.to_vec();
        let wave = others.remove(first);
        for behind in orders(&others) {
            all.push([vec![wave.clone()], behind].concat());
        }
    }
    all
}

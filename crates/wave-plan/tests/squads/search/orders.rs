//! Every way to cut blocks into waves and to order these.

use wave_plan::{Itinerary, Mode, Party};

/// The most that one wave of a block may hold.
pub(crate) fn most(itinerary: &Itinerary) -> usize {
    match itinerary.mode {
        Mode::OneToALane { most } => {
            most.map_or(itinerary.lanes.len(), |most| most.min(itinerary.lanes.len()))
        }
        Mode::GroupToALane { most } => most,
        Mode::Together => itinerary.runners.len(),
    }
}

fn blocks(parties: &[Party]) -> impl Iterator<Item = &Itinerary> {
    parties.iter().flat_map(|party| &party.itineraries)
}

/// How many waves the blocks have together.
pub(crate) fn wave_count(parties: &[Party]) -> usize {
    blocks(parties).map(|itinerary| itinerary.runners.len().div_ceil(most(itinerary))).sum()
}

/// For each choice the waves of every block in their order.
pub(super) fn choices(parties: &[Party]) -> Vec<Vec<Vec<Vec<usize>>>> {
    let mut choices = vec![Vec::new()];
    for block in blocks(parties) {
        let mut order: Vec<usize> = (0..block.runners.len()).collect();
        // By the target of the first run, then its rest, then all targets.
        let times = |n: usize| {
            let times = &block.runners[n].times;
            (times[0].target_s, times[0].rest_s, times.iter().map(|times| times.target_s).sum::<f64>())
        };
        order.sort_by(|&a, &b| times(a).partial_cmp(&times(b)).expect("times are numbers"));
        let mut ways = Vec::new();
        cut(&order, order.len().div_ceil(most(block)), most(block), &mut Vec::new(), &mut ways);
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

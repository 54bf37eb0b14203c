//! How runners are cut into waves.
//!
//! This is the only place that decides who runs together. To cut in another way, change [`ways_to_cut`] or
//! call a function of your own from there. The rest of the crate orders, times and lays out in lanes whatever
//! comes back; it needs everybody in exactly one wave, and no more to a wave than [`Itinerary::most_in_wave`].
//! To let callers choose, add a field to [`Itinerary`].

use crate::itinerary::Itinerary;

/// The most ways that are looked at; beyond that, one even cut.
const MOST_WAYS: usize = 2_000;

/// The ways to cut a set into waves; the order of their starts comes later.
pub(crate) struct Cuttings {
    /// For each way its waves, and for each wave its members, as indices into the runners of the set.
    pub(crate) ways: Vec<Vec<Vec<usize>>>,
    /// Whether these are all ways.
    pub(crate) is_all: bool,
}

/// Cuts the runners of a set, from the fastest to the slowest, into as few waves as can be: those of like
/// speed run together.
pub(crate) fn ways_to_cut(set: &Itinerary) -> Cuttings {
    let mut order: Vec<usize> = (0..set.runners.len()).collect();
    // Those with the same times stay together, so that nobody waits for another's rest.
    let first =
        |n: usize| set.runners[n].times.first().map_or((0.0, 0.0), |times| (times.target_s, times.rest_s));
    let all_s = |n: usize| set.runners[n].times.iter().map(|times| times.target_s).sum::<f64>();
    order.sort_by(|&a, &b| {
        let ((a_s, a_rest_s), (b_s, b_rest_s)) = (first(a), first(b));
        a_s.total_cmp(&b_s).then(a_rest_s.total_cmp(&b_rest_s)).then(all_s(a).total_cmp(&all_s(b)))
    });
    let (sizes, is_all) = sizes(order.len(), set.most_in_wave());
    let cut = |sizes: &Vec<usize>| {
        let mut left = order.as_slice();
        let mut wave = |&size: &usize| {
            let (wave, behind) = left.split_at(size);
            left = behind;
            wave.to_vec()
        };
        sizes.iter().map(&mut wave).collect()
    };
    Cuttings { ways: sizes.iter().map(cut).collect(), is_all }
}

/// The sizes of the waves for every way to cut `count` athletes into the fewest waves of at most `most`
/// each; and whether these are all the ways.
fn sizes(count: usize, most: usize) -> (Vec<Vec<usize>>, bool) {
    let waves = count.div_ceil(most);
    let mut ways = Vec::new();
    let mut sizes = vec![most.min(count); waves];
    // Each way hands the spare places out over the waves.
    let spare = sizes.iter().sum::<usize>() - count;
    let is_all = hand_out(spare, 0, &mut sizes, &mut ways);
    if !is_all {
        ways = vec![(0..waves).map(|wave| (count + wave) / waves).collect()];
    }
    (ways, is_all)
}

/// Takes `spare` places from the waves from `wave` on; false where there are too many ways.
fn hand_out(spare: usize, wave: usize, sizes: &mut Vec<usize>, ways: &mut Vec<Vec<usize>>) -> bool {
    if ways.len() >= MOST_WAYS {
        return false;
    }
    if wave == sizes.len() {
        if spare == 0 {
            ways.push(sizes.clone());
        }
        return true;
    }
    let full = sizes[wave];
    for taken in 0..=spare.min(full - 1) {
        sizes[wave] = full - taken;
        let is_all = hand_out(spare - taken, wave + 1, sizes, ways);
        sizes[wave] = full;
        if !is_all {
            return false;
        }
    }
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fourteen_in_waves_of_five_are_cut_in_three_ways() {
        assert_eq!(sizes(14, 5), (vec![vec![5, 5, 4], vec![5, 4, 5], vec![4, 5, 5]], true));
    }

    #[test]
    fn every_way_has_everybody_once_and_the_fewest_waves() {
        for count in 1..=40 {
            for most in 1..=8 {
                let (ways, _) = sizes(count, most);
                assert!(!ways.is_empty());
                for way in ways {
                    assert_eq!(way.iter().sum::<usize>(), count);
                    assert_eq!(way.len(), count.div_ceil(most));
                    assert!(way.iter().all(|size| (1..=most).contains(size)));
                }
            }
        }
    }
}

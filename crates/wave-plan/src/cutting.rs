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
    let order = set.by_speed();
    let (sizes, is_all) = if set.takes_lanes_beside() {
        sizes_that_fit(set, &order)
    } else {
        sizes(order.len(), set.most_in_wave())
    };
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
    // Of ways that are as good the first is taken: waves of like size.
    ways.sort_by_key(|sizes| sizes.iter().map(|size| size * size).sum::<usize>());
    if !is_all {
        ways = vec![(0..waves).map(|wave| (count + wave) / waves).collect()];
    }
    (ways, is_all)
}

/// As [`sizes`], where some need more than one lane: of too many ways, the one that fills the waves in turn.
fn sizes_that_fit(set: &Itinerary, order: &[usize]) -> (Vec<Vec<usize>>, bool) {
    // Who fits nowhere is in a wave alone, and is found there.
    let fitting: Vec<usize> = (0..order.len()).map(|from| set.fitting(&order[from..]).max(1)).collect();
    let mut fewest = vec![0; order.len() + 1];
    for from in (0..order.len()).rev() {
        fewest[from] = 1 + fewest[from + fitting[from]];
    }
    let mut ways = Vec::new();
    let is_all = fill(0, fewest[0], &(fitting, fewest), &mut Vec::new(), &mut ways);
    if !is_all {
        ways.truncate(1);
    }
    (ways, is_all)
}

/// Cuts the runners from place `from` on into so many waves, given how many fit into a wave from each place on and
/// how many waves they need; false where there are too many ways.
fn fill(
    from: usize,
    waves: usize,
    known: &(Vec<usize>, Vec<usize>),
    sizes: &mut Vec<usize>,
    ways: &mut Vec<Vec<usize>>,
) -> bool {
    let (fitting, fewest) = known;
    if ways.len() >= MOST_WAYS {
        return false;
    }
    if from == fitting.len() {
        ways.push(sizes.clone());
        return true;
    }
    // Nobody is cut into fewer waves than are needed, so that each of those that are left has somebody.
    for size in (1..=fitting[from]).rev().filter(|size| fewest[from + size] < waves) {
        sizes.push(size);
        let is_all = fill(from + size, waves - 1, known, sizes, ways);
        sizes.pop();
        if !is_all {
            return false;
        }
    }
    true
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
    // There are fewer spare places than one wave has.
    for taken in 0..=spare {
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
    use crate::itinerary::Stretch;
    use crate::runner::Runner;

    use super::*;

    #[test]
    fn fourteen_in_waves_of_five_are_cut_in_three_ways() {
        assert_eq!(sizes(14, 5), (vec![vec![5, 5, 4], vec![5, 4, 5], vec![4, 5, 5]], true));
    }

    #[test]
    fn of_all_ways_the_first_has_waves_of_like_size() {
        assert_eq!(sizes(11, 5).0[0], [4, 4, 3]);
        assert_eq!(sizes(9, 4).0[0], [3, 3, 3]);
    }

    #[test]
    fn of_too_many_ways_one_even_cut_is_left() {
        let (ways, is_all) = sizes(65, 8);
        assert!(!is_all);
        assert_eq!(ways, [[7, 7, 7, 7, 7, 7, 7, 8, 8]]);
    }

    /// So many runners in so many lanes, of whom the slowest takes the lane beside as well.
    fn guided(runners: usize, lanes: u8) -> Itinerary {
        let runner = |n: usize| Runner {
            lanes_beside: u8::from(n + 1 == runners),
            ..Runner::new(format!("no. {n}"), 1, 30.0 + n as f64, 0.0)
        };
        let stretch = Stretch { distance_m: 200.0, ..Stretch::default() };
        Itinerary::repetitions(1, stretch, (1..=lanes).collect(), (0..runners).map(runner).collect())
    }

    fn sizes_of(cuttings: &Cuttings) -> Vec<Vec<usize>> {
        cuttings.ways.iter().map(|way| way.iter().map(Vec::len).collect()).collect()
    }

    #[test]
    fn a_lane_for_a_guide_makes_waves_smaller() {
        // Four lanes hold four, or three of whom one has a guide.
        let cuttings = ways_to_cut(&guided(5, 4));
        assert!(cuttings.is_all);
        assert_eq!(sizes_of(&cuttings), [[4, 1], [3, 2], [2, 3]]);
        // With eight no place is left for the guide in two waves. Of three the last has the guide: one runner in two ways,
        // two in three, three in four.
        let ways = sizes_of(&ways_to_cut(&guided(8, 4)));
        assert!(ways.iter().all(|way| way.len() == 3 && way.iter().sum::<usize>() == 8), "{ways:?}");
        assert_eq!(ways.len(), 2 + 3 + 4, "{ways:?}");
    }

    #[test]
    fn of_too_many_ways_with_a_guide_the_waves_are_filled_in_turn() {
        let cuttings = ways_to_cut(&guided(65, 8));
        assert!(!cuttings.is_all);
        assert_eq!(sizes_of(&cuttings), [[8, 8, 8, 8, 8, 8, 8, 8, 1]]);
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

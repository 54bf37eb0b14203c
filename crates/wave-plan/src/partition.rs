//! How athletes can be cut into waves.

/// The most ways that are looked at; beyond that an even cut stands for all.
const MOST_WAYS: usize = 2_000;

/// The sizes of the waves for every way to cut `count` athletes, in order, into the fewest waves of at
/// most `most` each; and whether these are all the ways.
pub(crate) fn partitions(count: usize, most: usize) -> (Vec<Vec<usize>>, bool) {
    let waves = count.div_ceil(most.max(1));
    let spare = waves * most - count;
    // Each way hands the spare places out over the waves.
    let mut ways = Vec::new();
    let mut sizes = vec![most; waves];
    let all = hand_out(spare, 0, &mut sizes, &mut ways);
    if !all {
        let even = (0..waves).map(|wave| (count + wave) / waves).collect();
        ways = vec![even];
    }
    (ways, all)
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
    for taken in 0..=spare.min(full.saturating_sub(1)) {
        sizes[wave] = full - taken;
        let all = hand_out(spare - taken, wave + 1, sizes, ways);
        sizes[wave] = full;
        if !all {
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
        let (ways, all) = partitions(14, 5);
        assert!(all);
        assert_eq!(ways, [[5, 5, 4], [5, 4, 5], [4, 5, 5]]);
    }

    #[test]
    fn every_way_has_everybody_once_and_the_fewest_waves() {
        for count in 1..=40 {
            for most in 1..=8 {
                let (ways, _) = partitions(count, most);
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

//! Lines of text beside what they name, none over another.

/// Moves things apart that lie along a line so that none overlaps the next, as little as can be: each is
/// `sizes` long and would like to have its middle at its place of `wished`, which rises. Gives their middles.
///
/// Pools of neighbours that push each other keep the mean of what they wish (pool adjacent violators, the
/// least squares solution of ordered places).
pub(super) fn spread(wished: &[f64], sizes: &[f64]) -> Vec<f64> {
    struct Pool {
        first: usize,
        // Sum over its members of where the pool's beginning would have to be, and how many they are.
        sum: f64,
        count: f64,
        length: f64,
    }
    let mut pools: Vec<Pool> = Vec::new();
    for (index, (&wish, &size)) in wished.iter().zip(sizes).enumerate() {
        let mut pool = Pool { first: index, sum: wish - size / 2.0, count: 1.0, length: size };
        while let Some(before) = pools.last() {
            if before.sum / before.count + before.length <= pool.sum / pool.count {
                break;
            }
            pool = Pool {
                first: before.first,
                sum: before.sum + pool.sum - pool.count * before.length,
                count: before.count + pool.count,
                length: before.length + pool.length,
            };
            pools.pop();
        }
        pools.push(pool);
    }
    let mut middles = Vec::with_capacity(wished.len());
    for (number, pool) in pools.iter().enumerate() {
        let end = pools.get(number + 1).map_or(wished.len(), |next| next.first);
        let mut at = pool.sum / pool.count;
        for size in &sizes[pool.first..end] {
            middles.push(at + size / 2.0);
            at += size;
        }
    }
    middles
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_room_stays_and_what_is_crowded_moves_apart_evenly() {
        assert_eq!(spread(&[0.0, 10.0, 10.0, 30.0], &[4.0; 4]), [0.0, 8.0, 12.0, 30.0]);
        assert_eq!(spread(&[5.0, 5.0, 5.0], &[2.0; 3]), [3.0, 5.0, 7.0]);
        assert_eq!(spread(&[], &[]), [0.0; 0]);
    }
}

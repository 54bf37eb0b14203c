//! The most that a transport can bring, which is the least that spans can be.
//!
//! The least sum of (last − first), each as often as its wave has members, under least differences of
//! all pairs has as its dual to carry so many units from the firsts to the lasts, each pair paying its
//! least difference.

/// The most that is paid for carrying all units from the sources to the sinks, which hold as many.
pub(super) fn most(
    sources: &[(usize, usize)],
    sinks: &[(usize, usize)],
    pays: impl Fn(usize, usize) -> f64,
) -> f64 {
    let (rows, columns) = (sources.len(), sinks.len());
    let mut left: Vec<usize> = sources.iter().map(|source| source.1).collect();
    let mut room: Vec<usize> = sinks.iter().map(|sink| sink.1).collect();
    let mut carried = vec![vec![0_usize; columns]; rows];
    let mut paid = 0.0;
    // One unit at a time, each along the way that pays most, which may move units carried before.
    while left.iter().any(|&units| units > 0) {
        let mut at_row: Vec<f64> =
            left.iter().map(|&units| if units > 0 { 0.0 } else { f64::NEG_INFINITY }).collect();
        let mut at_column = vec![f64::NEG_INFINITY; columns];
        let (mut into_row, mut into_column) = (vec![None; rows], vec![0; columns]);
        for _ in 0..rows + columns {
            for row in 0..rows {
                for column in 0..columns {
                    let pay = pays(sources[row].0, sinks[column].0);
                    if at_row[row] + pay > at_column[column] + 1e-9 {
                        at_column[column] = at_row[row] + pay;
                        into_column[column] = row;
                    }
                    if carried[row][column] > 0 && at_column[column] - pay > at_row[row] + 1e-9 {
                        at_row[row] = at_column[column] - pay;
                        into_row[row] = Some(column);
                    }
                }
            }
        }
        let open = (0..columns).filter(|&column| room[column] > 0);
        let Some(end) = open.max_by(|&a, &b| at_column[a].total_cmp(&at_column[b])) else { break };
        paid += at_column[end];
        room[end] -= 1;
        let mut column = end;
        loop {
            let row = into_column[column];
            carried[row][column] += 1;
            let Some(before) = into_row[row] else {
                left[row] -= 1;
                break;
            };
            carried[row][before] -= 1;
            column = before;
        }
    }
    paid
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_that_were_carried_move_on_where_all_gain() {
        let pay = [[5.0, 4.0], [4.0, 0.0]];
        let paid = most(&[(0, 1), (1, 1)], &[(0, 1), (1, 1)], |from, to| pay[from][to]);
        assert!((paid - 8.0).abs() < 1e-9, "{paid}");
    }
}

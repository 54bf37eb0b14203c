//! Which first and last starts hold each other apart.

/// Carries all units from the sources to the sinks, of which there are as many, so that most is paid:
/// `pays[source][sink]` for each unit. What is carried between each two.
///
/// The least sum of (last start − first start), each as often as its wave has members, under least
/// differences of every two has this as its dual: those between whom something is carried are no
/// further apart than they must be.
pub(crate) fn carried(sources: &[usize], sinks: &[usize], pays: &[Vec<f64>]) -> Vec<Vec<usize>> {
    let (rows, columns) = (sources.len(), sinks.len());
    let (mut left, mut room) = (sources.to_vec(), sinks.to_vec());
    let mut carried = vec![vec![0_usize; columns]; rows];
    // Again and again along the way that pays most, which may take back what was carried before.
    while left.iter().any(|&units| units > 0) {
        let mut at_row: Vec<f64> =
            left.iter().map(|&units| if units > 0 { 0.0 } else { f64::NEG_INFINITY }).collect();
        let mut at_column = vec![f64::NEG_INFINITY; columns];
        let (mut into_row, mut into_column) = (vec![None; rows], vec![0; columns]);
        for _ in 0..rows + columns {
            let mut is_settled = true;
            for row in 0..rows {
                for column in 0..columns {
                    let pay = pays[row][column];
                    if at_row[row] + pay > at_column[column] + NOTHING {
                        at_column[column] = at_row[row] + pay;
                        into_column[column] = row;
                        is_settled = false;
                    }
                    if carried[row][column] > 0 && at_column[column] - pay > at_row[row] + NOTHING {
                        at_row[row] = at_column[column] - pay;
                        into_row[row] = Some(column);
                        is_settled = false;
                    }
                }
            }
            if is_settled {
                break;
            }
        }
        let open = (0..columns).filter(|&column| room[column] > 0 && at_column[column].is_finite());
        let Some(end) = open.max_by(|&a, &b| at_column[a].total_cmp(&at_column[b])) else { break };
        let mut units = room[end];
        let mut way = Vec::new();
        let mut column = end;
        let begin = loop {
            let row = into_column[column];
            way.push((row, column, into_row[row]));
            let Some(before) = into_row[row] else { break row };
            units = units.min(carried[row][before]);
            column = before;
        };
        units = units.min(left[begin]);
        for (row, column, before) in way {
            carried[row][column] += units;
            if let Some(before) = before {
                carried[row][before] -= units;
            }
        }
        room[end] -= units;
        left[begin] -= units;
    }
    carried
}

/// Less than this is no gain, in seconds.
const NOTHING: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_that_were_carried_go_elsewhere_where_all_gain() {
        let carried = carried(&[1, 1], &[1, 1], &[vec![5.0, 4.0], vec![4.0, 0.0]]);
        assert_eq!(carried, [[0, 1], [1, 0]]);
    }
}

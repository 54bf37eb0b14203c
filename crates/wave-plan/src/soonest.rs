//! The starts that end first, by branch and bound.

use crate::network::{Difference, EXACT_S, Network};
use crate::raise::Raise;

/// The starts that end first, if any end before `deadline_s`; and a bound that no starts beat.
///
/// Branches over the choices, with the earliest starts as the bound; `root` holds the earliest starts without
/// any choice. Subtracts what it uses from `branches`.
pub(crate) fn soonest(
    network: &mut Network<'_>,
    root: &[f64],
    deadline_s: f64,
    branches: &mut usize,
) -> (Option<Vec<f64>>, f64) {
    let bound_s = network.end_s(root);
    let raise = Raise::new(network);
    let mut search = Search { found: None, deadline_s, bound_s, branches, raise };
    search.branch(network, root.to_vec());
    let is_proven = search.is_least() || *search.branches > 0;
    let least_s = search.found.as_ref().map_or(deadline_s, |(end_s, _)| *end_s);
    (search.found.map(|(_, starts_s)| starts_s), if is_proven { least_s } else { bound_s })
}

struct Search<'a> {
    found: Option<(f64, Vec<f64>)>,
    deadline_s: f64,
    bound_s: f64,
    branches: &'a mut usize,
    raise: Raise,
}

impl Search<'_> {
    fn is_least(&self) -> bool {
        self.found.as_ref().is_some_and(|(end_s, _)| *end_s < self.bound_s + 2.0 * EXACT_S)
    }

    fn deadline_s(&self) -> f64 {
        self.found.as_ref().map_or(self.deadline_s, |(end_s, _)| *end_s) - 2.0 * EXACT_S
    }

    /// Makes every repair that has no alternative, then branches.
    fn branch(&mut self, network: &mut Network<'_>, mut starts_s: Vec<f64>) {
        let mut forced = Vec::new();
        while let Some(open) = self.next(network, &mut starts_s) {
            if let [repair] = *open.as_slice() {
                if self.raise.by_s(network, &mut starts_s, repair, self.deadline_s()).is_none() {
                    break;
                }
                network.add(repair);
                forced.push(repair);
                continue;
            }
            for repair in open {
                let mut raised_s = starts_s.clone();
                // Since then a plan may have been found that ends earlier.
                if self.raise.by_s(network, &mut raised_s, repair, self.deadline_s()).is_some() {
                    network.add(repair);
                    self.branch(network, raised_s);
                    network.take_back(repair);
                }
            }
            break;
        }
        while let Some(repair) = forced.pop() {
            network.take_back(repair);
        }
    }

    /// The repairs to branch on: those of the open choice whose cheapest repair costs most, or the only repair
    /// of a choice. Nothing where no choice is open, or one cannot be repaired. The starts stay as they are.
    fn next(&mut self, network: &Network<'_>, starts_s: &mut [f64]) -> Option<Vec<Difference>> {
        if *self.branches == 0 || self.is_least() {
            return None;
        }
        *self.branches -= 1;
        let broken = network.repairs(starts_s, MOST_TRIED);
        if broken.is_empty() {
            self.found = Some((network.end_s(starts_s), starts_s.to_vec()));
            return None;
        }
        let deadline_s = self.deadline_s();
        let mut dearest: Option<(f64, Vec<Difference>)> = None;
        for mut open in broken {
            let mut cheapest_s = f64::INFINITY;
            open.retain(|&repair| {
                let by_s = self.raise.by_s(network, starts_s, repair, deadline_s);
                self.raise.take_back(starts_s);
                cheapest_s = by_s.map_or(cheapest_s, |by_s| by_s.min(cheapest_s));
                by_s.is_some()
            });
            if open.len() < 2 {
                return (!open.is_empty()).then_some(open);
            }
            if dearest.as_ref().is_none_or(|(most_s, _)| cheapest_s > *most_s) {
                dearest = Some((cheapest_s, open));
            }
        }
        dearest.map(|(_, open)| open)
    }
}

/// How many open choices are tried before one is branched on.
const MOST_TRIED: usize = 24;

#[cfg(test)]
mod tests {
    use crate::network::Choice;
    use crate::network::tests::with_network;
    use crate::rules::Timers;

    use super::*;

    #[test]
    fn the_search_goes_on_while_a_plan_may_end_a_second_sooner() {
        // Three runs of 30 s, of which neighbours are about a second apart. The nearest repair of each choice gives
        // starts at 0 s, 0.9 s and 2 s; the best has the first behind the second.
        with_network(Timers::Untimed, &[0.0; 3], 1, |network| {
            network.choices = vec![
                Choice { from: 0, to: 1, low_s: -1.0, high_s: 0.9 },
                Choice { from: 1, to: 2, low_s: -1.2, high_s: 1.1 },
            ];
            network.settle(&[0.0; 3], 100.0);
            let mut branches = 100;
            let (found, bound_s) = soonest(network, &[0.0; 3], 100.0, &mut branches);
            assert_eq!(found, Some(vec![1.0, 0.0, 1.1]));
            assert!((bound_s - 31.1).abs() < 1e-9 && branches > 0, "{bound_s}");
        });
    }
}

//! The starts that end first, by branch and bound.

use crate::network::{Difference, EXACT_S, Network};

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
    let mut search = Search { found: None, deadline_s, bound_s, branches };
    search.branch(network, root);
    let is_proven = search.is_least() || *search.branches > 0;
    let least_s = search.found.as_ref().map_or(deadline_s, |(end_s, _)| *end_s);
    (search.found.map(|(_, starts_s)| starts_s), if is_proven { least_s } else { bound_s })
}

/// A repair with the earliest starts after it.
type Open = (Difference, Vec<f64>);

struct Search<'a> {
    found: Option<(f64, Vec<f64>)>,
    deadline_s: f64,
    bound_s: f64,
    branches: &'a mut usize,
}

impl Search<'_> {
    fn is_least(&self) -> bool {
        self.found.as_ref().is_some_and(|(end_s, _)| *end_s < self.bound_s + 2.0 * EXACT_S)
    }

    fn deadline_s(&self) -> f64 {
        self.found.as_ref().map_or(self.deadline_s, |(end_s, _)| *end_s) - 2.0 * EXACT_S
    }

    /// Makes every repair that has no alternative, then branches.
    fn branch(&mut self, network: &mut Network<'_>, starts_s: &[f64]) {
        let mut starts_s = starts_s.to_vec();
        let mut forced = Vec::new();
        while let Some(mut open) = self.next(network, &starts_s) {
            if let [(repair, _)] = open.as_slice() {
                network.add(*repair);
                forced.push(*repair);
                starts_s = open.remove(0).1;
                continue;
            }
            for (repair, raised_s) in open {
                if network.end_s(&raised_s) < self.deadline_s() + EXACT_S {
                    network.add(repair);
                    self.branch(network, &raised_s);
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
    /// of a choice. Nothing where no choice is open, or one cannot be repaired.
    fn next(&mut self, network: &Network<'_>, starts_s: &[f64]) -> Option<Vec<Open>> {
        if *self.branches == 0 || self.is_least() {
            return None;
        }
        *self.branches -= 1;
        let broken = network.repairs(starts_s);
        if broken.is_empty() {
            self.found = Some((network.end_s(starts_s), starts_s.to_vec()));
            return None;
        }
        let mut dearest: Option<(f64, Vec<Open>)> = None;
        for repairs in broken.iter().take(MOST_TRIED) {
            let open = network.open_repairs(repairs, starts_s, self.deadline_s());
            if open.len() < 2 {
                return (!open.is_empty()).then_some(open);
            }
            let cost = |raised_s: &Vec<f64>| raised_s.iter().sum::<f64>();
            let cheapest = open.iter().map(|(_, raised_s)| cost(raised_s)).fold(f64::INFINITY, f64::min);
            if dearest.as_ref().is_none_or(|(most, _)| cheapest > *most) {
                dearest = Some((cheapest, open));
            }
        }
        dearest.map(|(_, open)| open)
    }
}

/// How many open choices are tried before one is branched on.
const MOST_TRIED: usize = 24;

//! The starts that end first.

use super::network::{EXACT_S, Network};

/// What was found: starts that end by the deadline, if there are any, and whether none end sooner.
pub(super) struct Soonest {
    pub(super) found: Option<(f64, Vec<f64>)>,
    /// No starts end before this, in seconds.
    pub(super) bound_s: f64,
}

/// Branch and bound over the choices, with the earliest starts as the bound: from `root`, the earliest
/// starts without any choice, and perhaps a plan that is known. Takes what it uses off `branches`.
pub(super) fn soonest(
    network: &mut Network,
    root: &[f64],
    known: Option<Vec<f64>>,
    deadline_s: f64,
    branches: &mut usize,
) -> Soonest {
    let bound_s = network.end_s(root);
    let known = known.map(|starts_s| (network.end_s(&starts_s), starts_s));
    let found = known.filter(|(end_s, _)| *end_s < deadline_s + EXACT_S);
    let mut search = Search { found, deadline_s, bound_s, branches };
    if !search.is_least() {
        search.branch(network, root);
    }
    let is_proven = search.is_least() || *search.branches > 0;
    let least_s = search.found.as_ref().map_or(f64::INFINITY, |(end_s, _)| *end_s);
    Soonest { found: search.found, bound_s: if is_proven { least_s } else { bound_s } }
}

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

    fn branch(&mut self, network: &mut Network, starts_s: &[f64]) {
        if *self.branches == 0 || self.is_least() {
            return;
        }
        *self.branches -= 1;
        let Some(ways) = network.ways_out(starts_s) else {
            self.found = Some((network.end_s(starts_s), starts_s.to_vec()));
            return;
        };
        for way in ways {
            let deadline_s = self.found.as_ref().map_or(self.deadline_s, |(end_s, _)| end_s - 2.0 * EXACT_S);
            let mut raised_s = starts_s.to_vec();
            if network.raise(&mut raised_s, way, deadline_s) {
                network.with(way, |network| self.branch(network, &raised_s));
            }
        }
    }
}

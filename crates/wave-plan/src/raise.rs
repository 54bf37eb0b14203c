//! Earliest starts after one more least difference.

use crate::network::{Difference, EXACT_S, Network};

/// Raises earliest starts so that they keep one more least difference.
#[derive(Default)]
pub(crate) struct Raise {
    /// From each start to the end of everything that must come after it, in seconds.
    tails_s: Vec<f64>,
    /// Starts that were raised, with their times before, in the order in which that was done.
    raised: Vec<(usize, f64)>,
    /// Whether a start was raised, and what must come after it has not been looked at since.
    is_open: Vec<bool>,
}

impl Raise {
    pub(crate) fn new(network: &Network<'_>) -> Self {
        let is_open = vec![false; network.starts.len()];
        Self { tails_s: network.tails_s(), raised: Vec::new(), is_open }
    }

    /// By how much all starts together are raised, in seconds; nothing, with the starts left as they are, where
    /// something would end after `deadline_s`, or differences exclude each other.
    pub(crate) fn by_s(
        &mut self,
        network: &Network<'_>,
        starts_s: &mut [f64],
        difference: Difference,
        deadline_s: f64,
    ) -> Option<f64> {
        self.raised.clear();
        let by_s = self.spread(network, starts_s, difference, deadline_s);
        if by_s.is_none() {
            self.take_back(starts_s);
            self.is_open.fill(false);
        }
        by_s
    }

    /// Takes back what was raised last.
    pub(crate) fn take_back(&mut self, starts_s: &mut [f64]) {
        while let Some((start, before_s)) = self.raised.pop() {
            starts_s[start] = before_s;
        }
    }

    fn spread(
        &mut self,
        network: &Network<'_>,
        starts_s: &mut [f64],
        (from, to, least_s): Difference,
        deadline_s: f64,
    ) -> Option<f64> {
        let mut all_s = self.to(starts_s, to, starts_s[from] + least_s, deadline_s)?;
        let mut next = to;
        // Most differences lead to starts further back in the list.
        while let Some(on) = self.is_open[next..].iter().position(|is_open| *is_open) {
            let start = next + on;
            self.is_open[start] = false;
            next = start + 1;
            for &(to, least_s) in &network.after[start] {
                let by_s = self.to(starts_s, to, starts_s[start] + least_s, deadline_s)?;
                // A start that must be later than itself has no time.
                if by_s > 0.0 && to == from {
                    return None;
                }
                if by_s > 0.0 {
                    next = next.min(to);
                    all_s += by_s;
                }
            }
        }
        Some(all_s)
    }

    /// Raises one start to a time if it is earlier; gives by how much, in seconds.
    fn to(&mut self, starts_s: &mut [f64], start: usize, at_s: f64, deadline_s: f64) -> Option<f64> {
        let by_s = at_s - starts_s[start];
        if by_s <= EXACT_S * 1e-3 {
            return Some(0.0);
        }
        if at_s + self.tails_s[start] > deadline_s + EXACT_S {
            return None;
        }
        self.raised.push((start, starts_s[start]));
        starts_s[start] = at_s;
        self.is_open[start] = true;
        Some(by_s)
    }
}

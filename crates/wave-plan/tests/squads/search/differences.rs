//! Least differences of all pairs of times, closed under addition.

/// For each pair the least by which the second lies after the first.
#[derive(Clone, Debug)]
pub(super) struct Differences {
    count: usize,
    least_s: Vec<f64>,
}

/// Less than this is nothing, in seconds.
const NOTHING_S: f64 = 1e-7;

impl Differences {
    pub(super) fn new(count: usize) -> Self {
        let least_s = (0..count * count)
            .map(|cell| if cell / count == cell % count { 0.0 } else { f64::NEG_INFINITY })
            .collect();
        Self { count, least_s }
    }

    pub(super) fn least(&self, from: usize, to: usize) -> f64 {
        self.least_s[from * self.count + to]
    }

    /// Adds a least difference; false where it contradicts others.
    pub(super) fn add(&mut self, from: usize, to: usize, least_s: f64) -> bool {
        if self.least(from, to) >= least_s {
            return true;
        }
        if least_s + self.least(to, from) > NOTHING_S {
            return false;
        }
        for a in 0..self.count {
            let to_here_s = self.least(a, from) + least_s;
            if to_here_s == f64::NEG_INFINITY {
                continue;
            }
            for b in 0..self.count {
                let by_s = to_here_s + self.least(to, b);
                let cell = &mut self.least_s[a * self.count + b];
                *cell = cell.max(by_s);
            }
        }
        true
    }

    /// Whether the difference may still lie inside an interval.
    pub(super) fn may_lie_in(&self, from: usize, to: usize, (low_s, high_s): (f64, f64)) -> bool {
        self.least(from, to) < high_s - NOTHING_S && -self.least(to, from) > low_s + NOTHING_S
    }

    /// Whether the difference must lie in an interval.
    pub(super) fn lies_in(&self, from: usize, to: usize, (low_s, high_s): (f64, f64)) -> bool {
        self.least(from, to) >= low_s - NOTHING_S && -self.least(to, from) <= high_s + NOTHING_S
    }
}

//! A quick plan: one start after the other, each as early as those before allow.

use crate::network::{EXACT_S, Network};
use crate::spacing::Spacing;

/// Which party's next start is placed first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Turn {
    /// The one that can go first.
    Soonest,
    /// The one with most time still needed from its go to the end of its party.
    Longest,
}

/// Places the starts of each party in their order, each as early as those before allow. A time is always found:
/// late enough, nobody is in the way.
pub(crate) fn greedy_starts(network: &Network<'_>, spacing: &mut Spacing<'_>, turn: Turn) -> Vec<f64> {
    let count = network.starts.len();
    let tail_s = network.tails_s();
    let party = |start: usize| network.starts[start].wave.party;
    let mut least_s: Vec<f64> = network.starts.iter().map(|start| start.least_s).collect();
    // The next start of each party, with the first time at which it can go.
    let firsts = (0..count).filter(|&start| start == 0 || party(start) != party(start - 1));
    let mut open: Vec<(usize, f64)> = firsts.map(|start| (start, least_s[start])).collect();
    let mut placed = Placed { network, spacing, at_s: Vec::with_capacity(count) };
    let mut starts_s = vec![f64::NAN; count];
    loop {
        let ready = open.iter().enumerate().map(|(place, &(start, at_s))| match turn {
            Turn::Soonest => (at_s, place),
            Turn::Longest => (-at_s - tail_s[start], place),
        });
        let Some((_, place)) = ready.min_by(|a, b| a.0.total_cmp(&b.0)) else { return starts_s };
        let (start, at_s) = open[place];
        starts_s[start] = at_s;
        placed.add(start, at_s);
        for &(to, by_s) in &network.after[start] {
            least_s[to] = least_s[to].max(at_s + by_s);
        }
        if start + 1 < count && party(start + 1) == party(start) {
            open[place] = (start + 1, f64::NEG_INFINITY);
        } else {
            open.remove(place);
        }
        for (next, next_s) in &mut open {
            // Who could go at a time still can, unless the start just placed is in the way.
            if *next_s < least_s[*next] || placed.is_in_the_way((start, at_s), *next, *next_s) {
                *next_s = placed.soonest(*next, next_s.max(least_s[*next]));
            }
        }
    }
}

/// The starts that have a time, the earliest first.
struct Placed<'p, 'a, 'r> {
    network: &'p Network<'a>,
    spacing: &'p mut Spacing<'r>,
    at_s: Vec<(f64, usize)>,
}

impl Placed<'_, '_, '_> {
    fn add(&mut self, start: usize, at_s: f64) {
        let place = self.at_s.partition_point(|(other_s, _)| *other_s <= at_s);
        self.at_s.insert(place, (at_s, start));
    }

    /// Those that start at most `reach_s` before or after a time.
    fn near(&self, at_s: f64, reach_s: f64) -> std::ops::Range<usize> {
        let from = self.at_s.partition_point(|(other_s, _)| *other_s < at_s - reach_s);
        from..from + self.at_s[from..].partition_point(|(other_s, _)| *other_s <= at_s + reach_s)
    }

    /// Whether a start that was placed keeps another from going at a time; where two finish windows may overlap, it
    /// may do so along with others.
    fn is_in_the_way(&mut self, (other, other_s): (usize, f64), start: usize, at_s: f64) -> bool {
        let (other, own) = (&self.network.starts[other], &self.network.starts[start]);
        self.network.two_at_once_s.is_some() && own.is_timed
            || self
                .spacing
                .forbidden(other, own)
                .iter()
                .any(|&(low_s, high_s)| is_between(at_s - other_s, low_s, high_s))
    }

    /// The first time from `least_s` on at which a start keeps clear of all that are placed.
    fn soonest(&mut self, start: usize, least_s: f64) -> f64 {
        let network = self.network;
        let own = &network.starts[start];
        let mut at_s = least_s;
        loop {
            let before_s = at_s;
            for place in self.near(at_s, network.reach_s) {
                let (other_s, other) = self.at_s[place];
                for &(low_s, high_s) in self.spacing.forbidden(&network.starts[other], own) {
                    if is_between(at_s - other_s, low_s, high_s) {
                        at_s = other_s + high_s;
                    }
                }
            }
            if let Some(gap_s) = network.two_at_once_s.filter(|_| own.is_timed) {
                at_s = at_s.max(self.third(own.window_s, at_s, gap_s));
            }
            if at_s <= before_s {
                return at_s;
            }
        }
    }

    /// The time from which a finish window no longer overlaps with two others that overlap; `at_s` if it never does.
    fn third(&self, window_s: (f64, f64), at_s: f64, gap_s: f64) -> f64 {
        let beside: Vec<(f64, f64)> = (self.at_s[self.near(at_s, self.network.reach_s)].iter())
            .map(|(other_s, other)| (other_s, &self.network.starts[*other]))
            .filter(|(_, other)| other.is_timed)
            .map(|(other_s, other)| (other_s + other.window_s.0, other_s + other.window_s.1))
            .filter(|(first_s, last_s)| {
                at_s + window_s.0 - last_s < gap_s - EXACT_S && first_s - at_s - window_s.1 < gap_s - EXACT_S
            })
            .collect();
        let mut until_s = f64::INFINITY;
        for (index, a) in beside.iter().enumerate() {
            for b in &beside[index + 1..] {
                if a.0 - b.1 < gap_s - EXACT_S && b.0 - a.1 < gap_s - EXACT_S {
                    until_s = until_s.min(a.1.min(b.1) + gap_s - window_s.0);
                }
            }
        }
        if until_s.is_finite() { until_s } else { at_s }
    }
}

fn is_between(apart_s: f64, low_s: f64, high_s: f64) -> bool {
    apart_s > low_s + EXACT_S && apart_s < high_s - EXACT_S
}

//! A quick plan: one start after the other, each as early as those before allow.

use crate::network::{EXACT_S, Network};

/// Which set's next start is placed first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Turn {
    /// The one that can go first.
    Soonest,
    /// The one with most time still needed from its go to the end of its set.
    Longest,
}

/// Places the starts of each set in their order, each as early as those before allow. A time is always found:
/// late enough, nobody is in the way.
pub(crate) fn greedy_starts(network: &Network, turn: Turn) -> Vec<f64> {
    let count = network.starts.len();
    let mut near: Vec<Vec<(usize, f64, f64)>> = vec![Vec::new(); count];
    for choice in &network.choices {
        near[choice.to].push((choice.from, choice.low_s, choice.high_s));
        near[choice.from].push((choice.to, -choice.high_s, -choice.low_s));
    }
    let tail_s = tails_s(network);
    let sets = network.starts.last().map_or(0, |start| start.set + 1);
    let mut next: Vec<usize> =
        (0..sets).map(|set| network.starts.partition_point(|start| start.set < set)).collect();
    let mut starts_s = vec![f64::NAN; count];
    let mut least_s = vec![0.0_f64; count];
    for _ in 0..count {
        let open = (0..sets).filter(|&set| network.starts.get(next[set]).is_some_and(|next| next.set == set));
        let best = open
            .map(|set| {
                let start = next[set];
                let at_s = soonest(network, &near[start], &starts_s, start, least_s[start]);
                (if turn == Turn::Soonest { at_s } else { -at_s - tail_s[start] }, set, at_s)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((_, set, at_s)) = best else { break };
        let start = next[set];
        next[set] += 1;
        starts_s[start] = at_s;
        for &(to, by_s) in &network.after[start] {
            least_s[to] = least_s[to].max(at_s + by_s);
        }
    }
    starts_s
}

/// From each start to the end of everything that must come after it, in seconds.
fn tails_s(network: &Network) -> Vec<f64> {
    let mut tail_s: Vec<f64> = network.starts.iter().map(|start| start.window_s.1).collect();
    for start in (0..tail_s.len()).rev() {
        for &(to, by_s) in &network.after[start] {
            tail_s[start] = tail_s[start].max(by_s + tail_s[to]);
        }
    }
    tail_s
}

/// The first time from `least_s` on that keeps clear of all starts placed so far.
fn soonest(
    network: &Network,
    near: &[(usize, f64, f64)],
    starts_s: &[f64],
    start: usize,
    least_s: f64,
) -> f64 {
    let mut at_s = least_s;
    loop {
        let before_s = at_s;
        for &(other, low_s, high_s) in near {
            let apart_s = at_s - starts_s[other];
            if apart_s > low_s + EXACT_S && apart_s < high_s - EXACT_S {
                at_s = starts_s[other] + high_s;
            }
        }
        if let Some(gap_s) = network.two_at_once_s {
            at_s = at_s.max(third(network, starts_s, start, at_s, gap_s));
        }
        if at_s <= before_s {
            return at_s;
        }
    }
}

/// The time from which a finish window no longer overlaps with two others that overlap; `at_s` if it never does.
fn third(network: &Network, starts_s: &[f64], start: usize, at_s: f64, gap_s: f64) -> f64 {
    let window_s = network.starts[start].window_s;
    let beside: Vec<(f64, f64)> = (starts_s.iter().zip(&network.starts))
        .filter(|(start_s, _)| !start_s.is_nan())
        .map(|(start_s, other)| (start_s + other.window_s.0, start_s + other.window_s.1))
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

//! Of the plans that end first, the one with the least rest beyond what was asked.

use crate::network::{EXACT_S, Network, Way};
use crate::transport::carried;

/// The first and the last start of one wave, and how many run in it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Span {
    pub(crate) first: usize,
    pub(crate) last: usize,
    pub(crate) members: usize,
}

/// The starts with the shortest spans, each counted once for every member, that end by `end_s`: nothing
/// where none have spans under `less_than_s`; and whether that is certain.
///
/// All rest beyond what was asked is what makes a wave's span longer than its runs and rests. With the
/// choices made, only the first and last starts of the waves matter: a linear programme over them,
/// with the longest ways through the network as least differences. Takes what it uses off `programmes`.
pub(crate) fn least_rest(
    network: &mut Network,
    spans: &[Span],
    end_s: f64,
    less_than_s: f64,
    programmes: &mut usize,
) -> (Option<(f64, Vec<f64>)>, bool) {
    let mut search = Search { less_than_s, best: None, programmes };
    let is_proven = search.branch(network, spans, end_s);
    (search.best, is_proven)
}

/// The shortest spans with every choice made as in starts that are known.
pub(crate) fn polished(network: &Network, spans: &[Span], end_s: f64, starts_s: &[f64]) -> (f64, Vec<f64>) {
    let mut decided = network.clone();
    for choice in &network.choices {
        let is_late = starts_s[choice.to] - starts_s[choice.from] > choice.high_s - 2.0 * EXACT_S;
        if is_late {
            decided.later(choice.from, choice.to, choice.high_s);
        } else {
            decided.later(choice.to, choice.from, -choice.low_s);
        }
    }
    let shorter =
        relaxed(&decided, spans, end_s).filter(|(_, starts_s)| network.ways_out(starts_s).is_empty());
    shorter.unwrap_or_else(|| (span_s(spans, starts_s), starts_s.to_vec()))
}

fn span_s(spans: &[Span], starts_s: &[f64]) -> f64 {
    spans.iter().map(|span| span.members as f64 * (starts_s[span.last] - starts_s[span.first])).sum()
}

struct Search<'a> {
    less_than_s: f64,
    best: Option<(f64, Vec<f64>)>,
    programmes: &'a mut usize,
}

impl Search<'_> {
    /// Looks for shorter spans; whether everything was looked at.
    fn branch(&mut self, network: &mut Network, spans: &[Span], end_s: f64) -> bool {
        let limit_s = self.best.as_ref().map_or(self.less_than_s, |(value, _)| *value) - EXACT_S;
        if longest_s(network, spans) > limit_s {
            return true;
        }
        if *self.programmes == 0 {
            return false;
        }
        *self.programmes -= 1;
        let Some((value, starts_s)) = relaxed(network, spans, end_s) else { return true };
        if value > limit_s {
            return true;
        }
        let broken = network.ways_out(&starts_s);
        if broken.is_empty() {
            self.best = Some((value, starts_s));
            return true;
        }
        // Whatever has one way out only, or none, comes before what has two.
        let zeros = vec![0.0; network.events.len()];
        let Some(earliest) = network.earliest(&zeros, end_s) else { return true };
        let mut chosen: Option<Vec<Way>> = None;
        for ways in &broken {
            let open = network.open_ways(ways, &earliest, end_s);
            if open.len() < 2 || chosen.is_none() {
                let is_forced = open.len() < 2;
                chosen = Some(open.into_iter().map(|(way, _)| way).collect());
                if is_forced {
                    break;
                }
            }
        }
        let mut is_proven = true;
        for way in chosen.unwrap_or_default() {
            is_proven &= network.with(way, |network| self.branch(network, spans, end_s));
        }
        is_proven
    }
}

/// What no spans undercut: each by itself as short as the longest way through it.
fn longest_s(network: &Network, spans: &[Span]) -> f64 {
    let span_s = |span: &Span| {
        let mut floor_s = vec![f64::NEG_INFINITY; network.events.len()];
        floor_s[span.first] = 0.0;
        let longest = network.earliest(&floor_s, f64::INFINITY).map_or(f64::INFINITY, |at_s| at_s[span.last]);
        span.members as f64 * longest
    };
    spans.iter().map(span_s).sum()
}

/// The shortest spans with the choices that are made, whatever the others; and their starts.
fn relaxed(network: &Network, spans: &[Span], end_s: f64) -> Option<(f64, Vec<f64>)> {
    let count = network.events.len();
    let earliest = network.earliest(&vec![0.0; count], end_s)?;
    // The firsts, then the lasts, then the beginning of all, with the least differences of every two.
    let ends: Vec<usize> =
        spans.iter().map(|span| span.first).chain(spans.iter().map(|span| span.last)).collect();
    let beginning = ends.len();
    let mut least_s = vec![vec![f64::NEG_INFINITY; beginning + 1]; beginning + 1];
    least_s[beginning][beginning] = 0.0;
    for (index, &from) in ends.iter().enumerate() {
        let mut floor_s = vec![f64::NEG_INFINITY; count];
        floor_s[from] = 0.0;
        let longest = network.earliest(&floor_s, f64::INFINITY)?;
        for (other, &to) in ends.iter().enumerate() {
            least_s[index][other] = longest[to];
        }
        least_s[beginning][index] = earliest[from];
        least_s[index][beginning] = network.events[from].window_s.1 - end_s;
    }
    close(&mut least_s);
    let members: Vec<usize> = spans.iter().map(|span| span.members).collect();
    let pays: Vec<Vec<f64>> =
        least_s[..spans.len()].iter().map(|row| row[spans.len()..beginning].to_vec()).collect();
    let carried = carried(&members, &members, &pays);
    for (first, carried) in carried.iter().enumerate() {
        for last in (0..spans.len()).filter(|&last| carried[last] > 0) {
            let tight = &mut least_s[spans.len() + last][first];
            *tight = tight.max(-pays[first][last]);
        }
    }
    close(&mut least_s);
    let mut floor_s = earliest;
    for (index, &event) in ends.iter().enumerate() {
        floor_s[event] = floor_s[event].max(least_s[beginning][index]);
    }
    let starts_s = network.earliest(&floor_s, end_s)?;
    Some((span_s(spans, &starts_s), starts_s))
}

/// Adds up least differences until every two have theirs, whatever lies between.
fn close(least_s: &mut [Vec<f64>]) {
    for by in 0..least_s.len() {
        let behind = least_s[by].clone();
        for row in least_s.iter_mut() {
            let here_s = row[by];
            if here_s > f64::NEG_INFINITY {
                for (cell, by_s) in row.iter_mut().zip(&behind) {
                    *cell = cell.max(here_s + by_s);
                }
            }
        }
    }
}

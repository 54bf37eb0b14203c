//! Of the plans that end first, the one with the least rest beyond what was asked.

use microlp::{ComparisonOp, OptimizationDirection, Problem, SolveOutcome, Variable};

use super::network::{EXACT_S, Network, Solved};

/// The first and the last start of one wave, and how many run in it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    pub(super) first: usize,
    pub(super) last: usize,
    pub(super) members: usize,
}

/// The starts with the shortest spans, each counted once for every member, that end by `end_s`.
///
/// All rest beyond what was asked is what makes a wave's span longer than its runs and rests. With the
/// choices made, only the first and last starts of the waves matter: a linear programme over them,
/// with the longest ways through the network as least differences.
pub(super) fn least_rest(network: &mut Network, spans: &[Span], end_s: f64, known: Solved) -> Solved {
    let mut best = (span_s(spans, &known.starts_s), known.starts_s);
    let mut branches = 0;
    let bound = relaxed(network, spans, end_s).map_or(best.0, |(value, _)| value);
    branch(network, spans, end_s, &mut best, &mut branches);
    let is_proven = branches < network.most_branches;
    Solved { value: best.0, bound: if is_proven { best.0 } else { bound.min(best.0) }, starts_s: best.1 }
}

fn span_s(spans: &[Span], starts_s: &[f64]) -> f64 {
    spans.iter().map(|span| span.members as f64 * (starts_s[span.last] - starts_s[span.first])).sum()
}

fn branch(
    network: &mut Network,
    spans: &[Span],
    end_s: f64,
    best: &mut (f64, Vec<f64>),
    branches: &mut usize,
) {
    *branches += 1;
    if *branches >= network.most_branches {
        return;
    }
    let Some((value, starts_s)) = relaxed(network, spans, end_s) else { return };
    if value > best.0 - EXACT_S {
        return;
    }
    match network.ways_out(&starts_s) {
        None => *best = (value, starts_s),
        Some(ways) => {
            for way in ways {
                network.with(way, |network| branch(network, spans, end_s, best, branches));
            }
        }
    }
}

/// The shortest spans with the choices that are made, whatever the others; and their starts.
fn relaxed(network: &Network, spans: &[Span], end_s: f64) -> Option<(f64, Vec<f64>)> {
    let count = network.events.len();
    let mut terminals: Vec<usize> = spans.iter().flat_map(|span| [span.first, span.last]).collect();
    terminals.dedup();
    let mut problem = Problem::new(OptimizationDirection::Minimize);
    let earliest = network.earliest(&vec![0.0; count], end_s)?;
    let variables: Vec<Variable> = terminals
        .iter()
        .map(|&event| {
            let cost: f64 = (spans.iter())
                .map(|span| {
                    let sign =
                        f64::from(i8::from(span.last == event)) - f64::from(i8::from(span.first == event));
                    sign * span.members as f64
                })
                .sum();
            let latest = end_s - network.events[event].window_s.1;
            problem.add_var(cost, (earliest[event], latest.max(earliest[event])))
        })
        .collect();
    for (index, &from) in terminals.iter().enumerate() {
        let mut floor_s = vec![f64::NEG_INFINITY; count];
        floor_s[from] = 0.0;
        let longest = network.earliest(&floor_s, f64::INFINITY)?;
        for (other, &to) in terminals.iter().enumerate() {
            if other != index && longest[to].is_finite() {
                let terms = [(variables[other], 1.0), (variables[index], -1.0)];
                problem.add_constraint(terms, ComparisonOp::Ge, longest[to]);
            }
        }
    }
    let Ok(SolveOutcome::Solution(solution)) = problem.solve() else { return None };
    let mut floor_s = vec![0.0; count];
    for (variable, &event) in variables.iter().zip(&terminals) {
        // To the microsecond: what the solver leaves of rounding is no delay.
        floor_s[event] = (solution[*variable] * 1e6).round() / 1e6;
    }
    let starts_s = network.earliest(&floor_s, end_s)?;
    Some((span_s(spans, &starts_s), starts_s))
}

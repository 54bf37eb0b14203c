//! The network of all starts.

use crate::apart::{Apart, WaveTimes};
use crate::cut::Cut;
use crate::network::{Choice, Network};
use crate::planner::SquadSet;
use crate::rest::Span;
use crate::timing_rules::{Timers, TimingRules};

/// The network of all starts of all sets, with the first and last start of each wave.
pub(crate) fn network(
    sets: &[SquadSet],
    cuts: &[&Cut],
    rules: &TimingRules,
    apart: &mut Apart,
) -> (Network, Vec<Span>) {
    let two_at_once_s = (rules.timers == Timers::Two).then_some(rules.timing_gap_s);
    let mut network = Network { two_at_once_s, ..Network::default() };
    let mut spans = Vec::new();
    let mut blocks: Vec<(usize, Vec<WaveTimes>)> = Vec::new();
    for (index, (set, cut)) in sets.iter().zip(cuts).enumerate() {
        let waves = cut.wave_times(index, set);
        let begins = network.events.len();
        for _ in 0..set.reps {
            for wave in &waves {
                network.event(index, wave.window_s());
            }
        }
        one_set(&mut network, set, &waves, begins, rules, apart);
        for (place, wave) in waves.iter().enumerate() {
            let last = begins + (set.reps as usize - 1) * waves.len() + place;
            spans.push(Span { first: begins + place, last, members: wave.members });
        }
        blocks.push((begins, waves));
    }
    for (index, (begins, waves)) in blocks.iter().enumerate() {
        for (other, (other_begins, other_waves)) in blocks.iter().enumerate().skip(index + 1) {
            two_sets(
                &mut network,
                (*begins, waves, sets[index].reps),
                (*other_begins, other_waves, sets[other].reps),
                rules,
                apart,
            );
        }
    }
    (network, spans)
}

/// What keeps the starts of one set apart; their order is that of their numbers.
fn one_set(
    network: &mut Network,
    set: &SquadSet,
    waves: &[WaveTimes],
    begins: usize,
    rules: &TimingRules,
    apart: &mut Apart,
) {
    let count = waves.len();
    let events = count * set.reps as usize;
    for event in 1..events {
        network.later(begins + event - 1, begins + event, rules.start_gap_s);
        if event >= count {
            network.later(begins + event - count, begins + event, waves[event % count].period_s);
        }
    }
    for from in 0..count {
        for to in (0..count).filter(|&to| to != from) {
            let forbidden = apart.forbidden(&waves[from], &waves[to], rules);
            for from_rep in 0..set.reps as usize {
                let first_rep = if to > from { from_rep } else { from_rep + 1 };
                for to_rep in first_rep..set.reps as usize {
                    let between = to_rep - from_rep;
                    // Starts lie a start gap apart each, and whole rounds lie a period apart.
                    let rounds = if to > from { between } else { between - 1 };
                    let by_gaps = (between * count + to) as f64 - from as f64;
                    let nearest_s = (by_gaps * rules.start_gap_s).max(rounds as f64 * waves[from].period_s);
                    let (from, to) = (begins + from_rep * count + from, begins + to_rep * count + to);
                    let reaches = forbidden.iter().filter(|(_, high_s)| *high_s > nearest_s);
                    let mut any = false;
                    for &(low_s, high_s) in reaches {
                        any = true;
                        if low_s < nearest_s {
                            network.later(from, to, high_s);
                        } else {
                            network.choices.push(Choice { from, to, low_s, high_s });
                        }
                    }
                    if !any {
                        break;
                    }
                }
            }
        }
    }
}

type Block<'a> = (usize, &'a Vec<WaveTimes>, u32);

/// What keeps the starts of two sets apart; either may be first.
fn two_sets(network: &mut Network, a: Block<'_>, b: Block<'_>, rules: &TimingRules, apart: &mut Apart) {
    let ((a_begins, a_waves, a_reps), (b_begins, b_waves, b_reps)) = (a, b);
    for (a_place, a_wave) in a_waves.iter().enumerate() {
        for (b_place, b_wave) in b_waves.iter().enumerate() {
            let forbidden = apart.forbidden(a_wave, b_wave, rules);
            for a_rep in 0..a_reps as usize {
                for b_rep in 0..b_reps as usize {
                    let from = a_begins + a_rep * a_waves.len() + a_place;
                    let to = b_begins + b_rep * b_waves.len() + b_place;
                    for &(low_s, high_s) in forbidden.iter() {
                        network.choices.push(Choice { from, to, low_s, high_s });
                    }
                }
            }
        }
    }
}

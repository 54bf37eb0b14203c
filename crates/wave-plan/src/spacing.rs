//! From waves to the network of their starts.

use std::collections::HashMap;
use std::rc::Rc;

use crate::cut::Cut;
use crate::error::SquadError;
use crate::network::{Choice, Network};
use crate::rules::{Timers, TimingRules};
use crate::wave::{Forbidden, Wave};

/// The most choices that a plan may have.
const MOST_CHOICES: usize = 4_000_000;

/// What keeps starts apart. It is worked out once for any two waves, which meet in many cuts.
pub(crate) struct Spacing<'r> {
    rules: &'r TimingRules,
    found: HashMap<[(usize, usize); 2], Rc<Forbidden>>,
}

/// The waves of a set and the number of their first start.
type Block<'c, 'a> = (usize, &'c [Rc<Wave<'a>>]);

impl<'r> Spacing<'r> {
    pub(crate) fn new(rules: &'r TimingRules) -> Self {
        Self { rules, found: HashMap::new() }
    }

    /// By how much `next` may not go after a wave.
    fn forbidden(&mut self, wave: &Wave<'_>, next: &Wave<'_>) -> Rc<Forbidden> {
        let rules = self.rules;
        let found = self.found.entry([wave.id, next.id]);
        Rc::clone(found.or_insert_with(|| wave.forbidden(next, rules).into()))
    }

    /// The network of all starts of all sets: set by set, all waves of a repetition before the next.
    ///
    /// # Errors
    ///
    /// [`SquadError::TooMany`] where it has too many choices.
    pub(crate) fn network(&mut self, cuts: &[&Cut<'_>]) -> Result<Network, SquadError> {
        let two_at_once_s = (self.rules.timers == Timers::Two).then_some(self.rules.timing_gap_s);
        let mut network = Network { two_at_once_s, ..Network::default() };
        let mut blocks: Vec<Block<'_, '_>> = Vec::new();
        for (set, cut) in cuts.iter().enumerate() {
            let block: Block<'_, '_> = (network.starts.len(), &cut.waves);
            for wave in (0..reps(block)).flat_map(|_| &cut.waves) {
                network.start(set, wave.window_s);
            }
            self.one_set(&mut network, block);
            blocks.push(block);
        }
        for (index, &block) in blocks.iter().enumerate() {
            for &other in &blocks[index + 1..] {
                self.two_sets(&mut network, block, other);
            }
        }
        match network.choices.len() {
            count @ MOST_CHOICES.. => Err(SquadError::TooMany { what: "crossings", count }),
            _ => Ok(network),
        }
    }

    /// What keeps the starts of one set apart; their order is fixed.
    fn one_set(&mut self, network: &mut Network, (begins, waves): Block<'_, '_>) {
        let (count, reps, start_gap_s) = (waves.len(), reps((begins, waves)), self.rules.start_gap_s);
        for start in 1..count * reps {
            network.add((begins + start - 1, begins + start, start_gap_s));
            if start >= count {
                network.add((begins + start - count, begins + start, waves[start % count].cycle_s));
            }
        }
        for from in 0..count {
            for to in (0..count).filter(|&to| to != from) {
                let forbidden = self.forbidden(&waves[from], &waves[to]);
                for from_rep in 0..reps {
                    let first_rep = if to > from { from_rep } else { from_rep + 1 };
                    if network.choices.len() > MOST_CHOICES {
                        return;
                    }
                    for to_rep in first_rep..reps {
                        let between = to_rep - from_rep;
                        // Starts lie a start gap apart each, and whole rounds lie a cycle apart.
                        let rounds = if to > from { between } else { between - 1 };
                        let by_gaps = (between * count + to) as f64 - from as f64;
                        let nearest_s = (by_gaps * start_gap_s).max(rounds as f64 * waves[from].cycle_s);
                        let (from, to) = (begins + from_rep * count + from, begins + to_rep * count + to);
                        let reaches = forbidden.iter().filter(|(_, high_s)| *high_s > nearest_s);
                        let mut any = false;
                        for &(low_s, high_s) in reaches {
                            any = true;
                            if low_s < nearest_s {
                                network.add((from, to, high_s));
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

    /// What keeps the starts of two sets apart; either may be first.
    fn two_sets(&mut self, network: &mut Network, a: Block<'_, '_>, b: Block<'_, '_>) {
        let ((a_begins, a_waves), (b_begins, b_waves)) = (a, b);
        for (a_place, a_wave) in a_waves.iter().enumerate() {
            for (b_place, b_wave) in b_waves.iter().enumerate() {
                let forbidden = self.forbidden(a_wave, b_wave);
                for a_rep in 0..reps(a) {
                    if network.choices.len() > MOST_CHOICES {
                        return;
                    }
                    for b_rep in 0..reps(b) {
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
}

/// How many repetitions the waves of a set do.
fn reps((_, waves): Block<'_, '_>) -> usize {
    waves.first().map_or(0, |wave| wave.set.reps as usize)
}

//! From waves to the network of their starts.

use std::collections::HashMap;
use std::rc::Rc;

use crate::cut::Cut;
use crate::network::{Choice, Network, Start};
use crate::rules::{STAND_S, Timers, TimingRules};
use crate::slot::Slot;
use crate::wave::Forbidden;

/// What keeps starts apart. It is worked out once for any two kinds of runs, which meet in many cuts.
pub(crate) struct Spacing<'r> {
    rules: &'r TimingRules,
    /// How many kinds of runs there are.
    kinds: usize,
    found: Vec<Forbidden>,
    /// For each two kinds where that is in `found`, counted from 1; 0 where it has not been worked out.
    places: Vec<u32>,
    /// The same where there are too many kinds for a table of all pairs.
    places_by_pair: HashMap<(usize, usize), u32>,
}

/// With more kinds than this no table of all pairs is kept.
const MOST_KINDS: usize = 2_000;

/// Which pairs of starts are looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pairs {
    /// Those of one itinerary, most of which are apart by their order.
    OfOneItinerary,
    All,
}

impl<'r> Spacing<'r> {
    /// For the runs of waves that have so many kinds.
    pub(crate) fn new(rules: &'r TimingRules, kinds: usize) -> Self {
        let places = if kinds > MOST_KINDS { Vec::new() } else { vec![0; kinds * kinds] };
        Self { rules, kinds, found: Vec::new(), places, places_by_pair: HashMap::new() }
    }

    /// By how much the second of two starts may not go after the first.
    pub(crate) fn forbidden(&mut self, start: &Start<'_>, next: &Start<'_>) -> &[(f64, f64)] {
        let place = match self.places.get_mut(start.kind * self.kinds + next.kind) {
            Some(place) => place,
            None => self.places_by_pair.entry((start.kind, next.kind)).or_default(),
        };
        if *place == 0 {
            let (wave, next_wave) = (&start.wave, &next.wave);
            let (kind, next_kind) = (start.kind - wave.first_kind, next.kind - next_wave.first_kind);
            self.found.push(wave.forbidden(kind, next_wave, next_kind, self.rules));
            *place = self.found.len() as u32;
        }
        &self.found[*place as usize - 1]
    }

    /// The network of all starts: party by party, itinerary by itinerary, all waves of a run before the next run.
    /// The choices come later, with [`Spacing::add_choices`].
    pub(crate) fn network<'a>(&self, slots: &[Slot<'_>], cuts: &[&Cut<'a>]) -> Network<'a> {
        let rules = self.rules;
        let two_at_once_s = (rules.timers == Timers::Two).then_some(rules.timing_gap_s);
        let mut network = Network { two_at_once_s, ..Network::default() };
        let mut longest_s: f64 = 0.0;
        // The last starts of the waves of the itinerary before.
        let mut before: Vec<usize> = Vec::new();
        for (index, (slot, cut)) in slots.iter().zip(cuts).enumerate() {
            let is_first = index == 0 || slots[index - 1].party != slot.party;
            let firsts = network.starts.len();
            let mut last_of = vec![None; cut.waves.len()];
            // The last start that is not of a run by time.
            let mut last_timed: Option<usize> = None;
            for run in 0..slot.itinerary.runs.len() {
                for (place, wave) in cut.waves.iter().enumerate() {
                    let Some(leg) = wave.legs.get(run) else { continue };
                    let start = network.starts.len();
                    let is_timed = slot.itinerary.runs[run].is_some();
                    let least_s = if is_first { slot.delay_s } else { 0.0 };
                    longest_s = longest_s.max(leg.window_s.1);
                    network.start(Start {
                        wave: Rc::clone(wave),
                        place,
                        leg: run,
                        window_s: leg.window_s,
                        kind: wave.first_kind + leg.kind,
                        least_s,
                        is_timed,
                    });
                    let same_line = last_timed.filter(|_| is_timed);
                    if start > firsts && same_line != Some(start - 1) {
                        network.add((start - 1, start, 0.0));
                    }
                    if let Some(last) = same_line {
                        network.add((last, start, rules.start_gap_s));
                    }
                    if is_timed {
                        last_timed = Some(start);
                    }
                    match last_of[place].replace(start) {
                        Some(last) => network.add((last, start, wave.legs[run - 1].cycle_s)),
                        None if start == firsts && !is_first => {
                            for &last in &before {
                                let end_s = network.starts[last].window_s.1;
                                network.add((last, start, end_s + slot.delay_s));
                            }
                        }
                        None => {}
                    }
                }
            }
            before = last_of.into_iter().flatten().collect();
        }
        network.reach_s = longest_s + STAND_S.max(rules.timing_gap_s).max(rules.start_gap_s);
        network
    }

    /// Adds what still can be chosen: which of two starts goes first. False, with the network left as it was, where
    /// there are more choices than `most`.
    pub(crate) fn add_choices<'a>(
        &mut self,
        network: &mut Network<'a>,
        (pairs, most): (Pairs, usize),
    ) -> bool {
        let mut differences = Vec::new();
        let mut choices = Vec::new();
        for (from, start) in network.starts.iter().enumerate() {
            let gap_s = if start.wave.itinerary.is_over_stretches() { self.rules.start_gap_s } else { 0.0 };
            for (to, next) in network.starts.iter().enumerate().skip(from + 1) {
                let is_one_itinerary = std::ptr::eq(start.wave.itinerary, next.wave.itinerary);
                // The starts of an itinerary stand together.
                if pairs == Pairs::OfOneItinerary && !is_one_itinerary {
                    break;
                }
                // One wave after itself, and one itinerary of a party after the other, are apart already.
                if Rc::ptr_eq(&start.wave, &next.wave)
                    || start.wave.party == next.wave.party && !is_one_itinerary
                {
                    continue;
                }
                let nearest_s = if is_one_itinerary {
                    nearest_s(start, next, (to - from) as f64 * gap_s)
                } else {
                    f64::NEG_INFINITY
                };
                if nearest_s >= network.reach_s {
                    continue;
                }
                for &(low_s, high_s) in self.forbidden(start, next) {
                    if high_s <= nearest_s {
                        continue;
                    }
                    if low_s < nearest_s {
                        differences.push((from, to, high_s));
                    } else {
                        choices.push(Choice { from, to, low_s, high_s });
                    }
                }
                if choices.len() > most {
                    return false;
                }
            }
        }
        differences.into_iter().for_each(|difference| network.add(difference));
        network.choices = choices;
        true
    }
}

/// The least time between two starts of one itinerary that go in this order, with so much for the start gaps between
/// them, in seconds.
fn nearest_s(start: &Start<'_>, next: &Start<'_>, gaps_s: f64) -> f64 {
    // The wave that goes first runs before the other in each round, or after it.
    let rounds = if start.place < next.place { next.leg } else { next.leg - 1 };
    let legs = &start.wave.legs;
    gaps_s.max(legs[rounds.min(legs.len() - 1)].since_s - legs[start.leg].since_s)
}

//! From waves to the network of their starts.

use std::collections::HashMap;
use std::rc::Rc;

use crate::cut::Cut;
use crate::network::{Choice, Network, Start};
use crate::rules::{STAND_S, Timers, TimingRules};
use crate::slot::Slot;
use crate::wave::{Forbidden, Wave};

/// Which waves these are, and which of the kinds of their runs.
type Meeting = [((usize, usize), usize); 2];

/// What keeps starts apart. It is worked out once for any two runs of two waves, which meet in many cuts.
pub(crate) struct Spacing<'r> {
    rules: &'r TimingRules,
    found: HashMap<Meeting, Rc<Forbidden>>,
}

/// The kinds of runs of a network, and by how much each may not go after each other.
pub(crate) struct Meetings<'a> {
    kinds: Vec<(Rc<Wave<'a>>, usize)>,
    /// For each two kinds, what was found out so far.
    known: Vec<Option<Rc<Forbidden>>>,
    /// Starts further apart than this have nothing to do with one another, in seconds.
    pub(crate) reach_s: f64,
}

/// With more kinds than this no table of all pairs is kept.
const MOST_KINDS: usize = 2_000;

impl Meetings<'_> {
    /// By how much a run of the kind `next` may not go after one of `kind`.
    pub(crate) fn forbidden(&mut self, spacing: &mut Spacing<'_>, kind: usize, next: usize) -> Rc<Forbidden> {
        let at = kind * self.kinds.len() + next;
        if let Some(Some(known)) = self.known.get(at) {
            return Rc::clone(known);
        }
        let ((wave, leg), (next, next_leg)) = (&self.kinds[kind], &self.kinds[next]);
        let found = spacing.forbidden((wave, *leg), (next, *next_leg));
        if let Some(known) = self.known.get_mut(at) {
            *known = Some(Rc::clone(&found));
        }
        found
    }
}

/// Which pairs of starts are looked at.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Pairs {
    /// Those of one itinerary, most of which are apart by their order.
    OfOneItinerary,
    All,
}

impl<'r> Spacing<'r> {
    pub(crate) fn new(rules: &'r TimingRules) -> Self {
        Self { rules, found: HashMap::new() }
    }

    /// By how much a run of the kind `next_kind` of `next` may not go after one of a wave.
    fn forbidden(
        &mut self,
        (wave, kind): (&Wave<'_>, usize),
        (next, next_kind): (&Wave<'_>, usize),
    ) -> Rc<Forbidden> {
        let rules = self.rules;
        let found = self.found.entry([(wave.id, kind), (next.id, next_kind)]);
        Rc::clone(found.or_insert_with(|| wave.forbidden(kind, next, next_kind, rules).into()))
    }

    /// The network of all starts: party by party, itinerary by itinerary, all waves of a run before the next run.
    /// The choices come later, with [`Spacing::add_choices`].
    pub(crate) fn network<'a>(&self, slots: &[Slot<'_>], cuts: &[&Cut<'a>]) -> (Network<'a>, Meetings<'a>) {
        let rules = self.rules;
        let two_at_once_s = (rules.timers == Timers::Two).then_some(rules.timing_gap_s);
        let mut network = Network { two_at_once_s, ..Network::default() };
        let mut kinds: Vec<(Rc<Wave<'a>>, usize)> = Vec::new();
        let mut longest_s: f64 = 0.0;
        // The last starts of the waves of the itinerary before.
        let mut before: Vec<usize> = Vec::new();
        for (index, (slot, cut)) in slots.iter().zip(cuts).enumerate() {
            let is_first = index == 0 || slots[index - 1].party != slot.party;
            let firsts = network.starts.len();
            let mut kind_base = Vec::with_capacity(cut.waves.len());
            for wave in &cut.waves {
                kind_base.push(kinds.len());
                kinds.extend((0..wave.kind_count()).map(|kind| (Rc::clone(wave), kind)));
            }
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
                        kind: kind_base[place] + leg.kind,
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
        let reach_s = longest_s + STAND_S.max(rules.timing_gap_s).max(rules.start_gap_s);
        let known = if kinds.len() > MOST_KINDS { Vec::new() } else { vec![None; kinds.len() * kinds.len()] };
        (network, Meetings { kinds, known, reach_s })
    }

    /// Adds what still can be chosen: which of two starts goes first. False, with the network left as it was, where
    /// there are more choices than `most`.
    pub(crate) fn add_choices<'a>(
        &mut self,
        network: &mut Network<'a>,
        meetings: &mut Meetings<'a>,
        (pairs, most): (Pairs, usize),
    ) -> bool {
        let mut differences = Vec::new();
        let mut choices = Vec::new();
        for from in 0..network.starts.len() {
            for to in from + 1..network.starts.len() {
                let (start, next) = (&network.starts[from], &network.starts[to]);
                let is_one_itinerary = std::ptr::eq(start.wave.itinerary, next.wave.itinerary);
                // One wave after itself, and one itinerary of a party after the other, are apart already.
                if Rc::ptr_eq(&start.wave, &next.wave)
                    || start.wave.party == next.wave.party && !is_one_itinerary
                    || pairs == Pairs::OfOneItinerary && !is_one_itinerary
                {
                    continue;
                }
                let nearest_s =
                    if is_one_itinerary { self.nearest_s(network, from, to) } else { f64::NEG_INFINITY };
                if nearest_s >= meetings.reach_s {
                    continue;
                }
                for &(low_s, high_s) in meetings.forbidden(self, start.kind, next.kind).iter() {
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

    /// The least time between two starts of one itinerary that go in this order, in seconds.
    fn nearest_s(&self, network: &Network<'_>, from: usize, to: usize) -> f64 {
        let (start, next) = (&network.starts[from], &network.starts[to]);
        let all_timed = start.wave.itinerary.runs.iter().all(Option::is_some);
        let gaps_s = if all_timed { (to - from) as f64 * self.rules.start_gap_s } else { 0.0 };
        // The wave that goes first runs before the other in each round, or after it.
        let rounds = if start.place < next.place { next.leg } else { next.leg - 1 };
        let legs = &start.wave.legs;
        gaps_s.max(legs[rounds.min(legs.len() - 1)].since_s - legs[start.leg].since_s)
    }
}

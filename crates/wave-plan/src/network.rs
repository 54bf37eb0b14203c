//! Start times and what keeps them apart: least differences, and the choices that are left.
//!
//! Adding a least difference only moves starts later, so the earliest starts under those that are added
//! bound what every further choice can reach.

use std::ops::Range;
use std::rc::Rc;

use crate::wave::Wave;

/// Start times closer than this are the same, in seconds.
pub(crate) const EXACT_S: f64 = 1e-6;

/// Two starts whose difference may not lie in an open interval: `to` is at most `low_s` after `from`, or at
/// least `high_s`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Choice {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) low_s: f64,
    pub(crate) high_s: f64,
}

/// One run of one wave.
#[derive(Clone, Debug)]
pub(crate) struct Start<'a> {
    pub(crate) wave: Rc<Wave<'a>>,
    /// The place of the wave in the order of its itinerary, and which of its runs it is.
    pub(crate) place: usize,
    pub(crate) leg: usize,
    /// When the first and the last of its wave finish, in seconds from its go.
    pub(crate) window_s: (f64, f64),
    /// What keeps it apart from others, as a number among the kinds of runs of all waves.
    pub(crate) kind: usize,
    /// It cannot go before this, in seconds.
    pub(crate) least_s: f64,
    /// Whether its finish is timed.
    pub(crate) is_timed: bool,
}

/// A least difference: the second starts at least this many seconds after the first.
pub(crate) type Difference = (usize, usize, f64);

/// Starts, the least differences between them, and the choices that are left.
#[derive(Clone, Debug, Default)]
pub(crate) struct Network<'a> {
    /// Those of a party in the order in which they go.
    pub(crate) starts: Vec<Start<'a>>,
    /// For each start, the starts that lie at least so much later, in seconds; may be negative.
    pub(crate) after: Vec<Vec<(usize, f64)>>,
    pub(crate) choices: Vec<Choice>,
    /// Where among the choices those of one start with the starts of one party stand, which are in the order in which
    /// they go.
    pub(crate) rows: Vec<Range<usize>>,
    /// Where at most two finish windows may overlap: the gap that keeps two apart, in seconds.
    pub(crate) two_at_once_s: Option<f64>,
    /// Starts further apart than this have nothing to do with one another, in seconds.
    pub(crate) reach_s: f64,
}

impl<'a> Network<'a> {
    pub(crate) fn start(&mut self, start: Start<'a>) {
        self.starts.push(start);
        self.after.push(Vec::new());
    }

    /// Whether the order of all starts is settled.
    pub(crate) fn is_one_party(&self) -> bool {
        self.starts.windows(2).all(|pair| pair[0].wave.party == pair[1].wave.party)
    }

    pub(crate) fn add(&mut self, (from, to, least_s): Difference) {
        self.after[from].push((to, least_s));
    }

    /// The earliest starts that keep every least difference; nothing where something would end after
    /// `deadline_s`, or differences exclude each other.
    pub(crate) fn earliest(&self, deadline_s: f64) -> Option<Vec<f64>> {
        let mut starts_s: Vec<f64> = self.starts.iter().map(|start| start.least_s).collect();
        for _ in 0..=self.starts.len() {
            let mut is_settled = true;
            for from in 0..starts_s.len() {
                let at_s = starts_s[from];
                if at_s + self.starts[from].window_s.1 > deadline_s + EXACT_S {
                    return None;
                }
                for &(to, least_s) in &self.after[from] {
                    if at_s + least_s > starts_s[to] + EXACT_S * 1e-3 {
                        starts_s[to] = at_s + least_s;
                        is_settled &= to > from;
                    }
                }
            }
            if is_settled {
                return Some(starts_s);
            }
        }
        None
    }

    /// From each start to the end of everything that must come after it, in seconds.
    pub(crate) fn tails_s(&self) -> Vec<f64> {
        let mut tail_s: Vec<f64> = self.starts.iter().map(|start| start.window_s.1).collect();
        for start in (0..tail_s.len()).rev() {
            for &(to, by_s) in &self.after[start] {
                tail_s[start] = tail_s[start].max(by_s + tail_s[to]);
            }
        }
        tail_s
    }

    /// Drops the choices that are settled already, as nothing may end after `deadline_s`; `earliest_s` are the
    /// earliest starts.
    pub(crate) fn settle(&mut self, earliest_s: &[f64], deadline_s: f64) {
        let tails_s = self.tails_s();
        let latest_s = |start: usize| deadline_s + 2.0 * EXACT_S - tails_s[start];
        self.choices.retain(|choice| {
            let least_s = earliest_s[choice.to] - latest_s(choice.from);
            let most_s = latest_s(choice.to) - earliest_s[choice.from];
            least_s < choice.high_s && most_s > choice.low_s
        });
        let mut rows: Vec<Range<usize>> = Vec::new();
        let party = |start: usize| self.starts[start].wave.party;
        let is_one_row = |a: &Choice, b: &Choice| a.from == b.from && party(a.to) == party(b.to);
        for row in self.choices.chunk_by(is_one_row) {
            let from = rows.last().map_or(0, |last| last.end);
            rows.push(from..from + row.len());
        }
        self.rows = rows;
    }

    /// When the last run of these starts ends.
    pub(crate) fn end_s(&self, starts_s: &[f64]) -> f64 {
        starts_s.iter().zip(&self.starts).map(|(go_s, start)| go_s + start.window_s.1).fold(0.0, f64::max)
    }

    /// For the choices that these starts leave open the repairs, the choice furthest from settled in front and at
    /// most so many; nothing where all are settled. Each repair is a least difference to add.
    pub(crate) fn repairs(&self, starts_s: &[f64], most: usize) -> Vec<Vec<Difference>> {
        let mut broken: Vec<(f64, usize)> = Vec::new();
        for row in &self.rows {
            // Those that start too early or too late to have anything to do with it are passed over.
            let from_s = starts_s[self.choices[row.start].from];
            let reached = |by_s: f64| {
                row.start
                    + self.choices[row.clone()].partition_point(|choice| starts_s[choice.to] < from_s + by_s)
            };
            for number in reached(-self.reach_s)..reached(self.reach_s) {
                let choice = &self.choices[number];
                let apart_s = starts_s[choice.to] - from_s;
                let open_s = (apart_s - choice.low_s).min(choice.high_s - apart_s);
                if open_s > EXACT_S {
                    broken.push((open_s, number));
                }
            }
        }
        let order = |a: &(f64, usize), b: &(f64, usize)| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1));
        if broken.len() > most {
            broken.select_nth_unstable_by(most, order);
            broken.truncate(most);
        }
        broken.sort_unstable_by(order);
        let of_choice = |&(_, number): &(f64, usize)| {
            let choice = &self.choices[number];
            let apart_s = starts_s[choice.to] - starts_s[choice.from];
            let late = (choice.from, choice.to, choice.high_s);
            let early = (choice.to, choice.from, -choice.low_s);
            // The nearer repair first: it is the likelier one.
            if choice.high_s - apart_s <= apart_s - choice.low_s {
                vec![late, early]
            } else {
                vec![early, late]
            }
        };
        let mut repairs: Vec<Vec<Difference>> = broken.iter().map(of_choice).collect();
        if repairs.is_empty() {
            repairs.extend(self.two_at_once_s.and_then(|gap_s| self.three_at_once(starts_s, gap_s)));
        }
        repairs
    }

    /// Three finish windows that overlap, and the repairs that move two of them apart.
    fn three_at_once(&self, starts_s: &[f64], gap_s: f64) -> Option<Vec<Difference>> {
        let timed = starts_s.iter().zip(&self.starts).enumerate();
        let mut windows: Vec<(f64, f64, usize)> = (timed.filter(|(_, (_, start))| start.is_timed))
            .map(|(index, (go_s, start))| (go_s + start.window_s.0, go_s + start.window_s.1, index))
            .collect();
        windows.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (place, third) in windows.iter().enumerate() {
            let still: Vec<usize> = (windows[..place].iter())
                .filter(|before| third.0 - before.1 < gap_s - EXACT_S)
                .map(|before| before.2)
                .collect();
            let [.., first, second] = still.as_slice() else { continue };
            let mut repairs = Vec::new();
            for (a, b) in [(*second, third.2), (*first, third.2), (*first, *second)] {
                let (a_window, b_window) = (self.starts[a].window_s, self.starts[b].window_s);
                repairs.push((a, b, a_window.1 - b_window.0 + gap_s));
                repairs.push((b, a, b_window.1 - a_window.0 + gap_s));
            }
            return Some(repairs);
        }
        None
    }

    /// Takes back the least difference that was added last.
    pub(crate) fn take_back(&mut self, (from, ..): Difference) {
        self.after[from].pop();
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use crate::cut::{Cuts, cuts};
    use crate::itinerary::{Itinerary, Stretch};
    use crate::rules::{Timers, TimingRules};
    use crate::runner::Runner;
    use crate::slot::Slot;
    use crate::spacing::Spacing;

    use super::*;

    fn set(runs: usize) -> Itinerary {
        let stretch = Stretch { distance_m: 200.0, ..Stretch::default() };
        Itinerary::repetitions(runs, stretch, vec![1], vec![Runner::new("Ada", runs, 30.0, 60.0)])
    }

    /// The network of parties of one runner each, who begin at these times and run so often.
    pub(crate) fn with_network<T>(
        timers: Timers,
        begins_s: &[f64],
        runs: usize,
        look: impl FnOnce(&mut Network<'_>) -> T,
    ) -> T {
        let rules = TimingRules { timers, ..TimingRules::default() };
        let set = set(runs);
        let slot = |(party, &delay_s): (usize, &f64)| Slot { party, delay_s, itinerary: &set, before: &[] };
        let slots: Vec<Slot<'_>> = begins_s.iter().enumerate().map(slot).collect();
        let mut kinds = 0;
        let cuts: Vec<Cuts<'_>> = (slots.iter())
            .map(|slot| cuts(slot, true, &mut kinds).expect("there is a lane for one"))
            .collect();
        let chosen: Vec<_> = cuts.iter().map(|cuts| &cuts.cuts[0]).collect();
        look(&mut Spacing::new(&rules, kinds).network(&slots, &chosen))
    }

    fn choice(low_s: f64, high_s: f64) -> Choice {
        Choice { from: 0, to: 1, low_s, high_s }
    }

    #[test]
    fn the_earliest_starts_keep_every_difference_and_end_by_the_deadline() {
        with_network(Timers::One, &[7.0], 3, |network| {
            // Each run 90 s after the one before, the last done 30 s later.
            assert_eq!(network.earliest(f64::INFINITY), Some(vec![7.0, 97.0, 187.0]));
            assert_eq!(network.earliest(217.0), Some(vec![7.0, 97.0, 187.0]));
            assert_eq!(network.earliest(216.99), None);
            assert_eq!(network.tails_s(), [210.0, 120.0, 30.0]);
            assert_eq!(network.end_s(&[7.0, 97.0, 187.0]), 217.0);
            assert!(network.is_one_party());
            // The first no more than 150 s before the last: they are 180 s apart.
            network.add((2, 0, -150.0));
            assert_eq!(network.earliest(f64::INFINITY), None);
            network.take_back((2, 0, -150.0));
            network.add((2, 0, -190.0));
            assert_eq!(network.earliest(f64::INFINITY), Some(vec![7.0, 97.0, 187.0]));
        });
        with_network(Timers::One, &[0.0, 50.0], 1, |network| {
            assert!(!network.is_one_party());
            network.add((1, 0, 10.0));
            assert_eq!(network.earliest(f64::INFINITY), Some(vec![60.0, 50.0]));
            assert_eq!((network.earliest(90.0).is_some(), network.earliest(89.9)), (true, None));
        });
    }

    #[test]
    fn a_choice_that_the_deadline_settles_is_dropped() {
        let left = |begins_s: [f64; 2], choice: Choice| {
            with_network(Timers::One, &begins_s, 1, |network| {
                network.choices = vec![choice];
                // A run of 30 s goes at 15 s at the latest.
                network.settle(&begins_s, 45.0);
                assert_eq!(network.rows.len(), network.choices.len());
                network.choices.len()
            })
        };
        // The second cannot go before 30 s, so it goes at least 15 s after the first.
        assert_eq!([left([0.0, 30.0], choice(-16.0, 14.0)), left([0.0, 30.0], choice(-16.0, 16.0))], [0, 1]);
        // The first cannot go before 30 s, so the second goes at least 15 s before it.
        assert_eq!([left([30.0, 0.0], choice(-14.0, 16.0)), left([30.0, 0.0], choice(-16.0, 16.0))], [0, 1]);
        assert_eq!(left([0.0, 0.0], choice(-20.0, 20.0)), 1);
    }

    #[test]
    fn an_open_choice_is_repaired_either_way_the_nearer_first() {
        with_network(Timers::One, &[0.0, 0.0], 1, |network| {
            network.choices = vec![choice(-20.0, 20.0)];
            network.settle(&[0.0, 0.0], 1_000.0);
            let (late, early) = ((0, 1, 20.0), (1, 0, 20.0));
            assert_eq!(network.repairs(&[0.0, 5.0], 9), [[late, early]]);
            assert_eq!(network.repairs(&[5.0, 0.0], 9), [[early, late]]);
            for settled in [[0.0, 20.0], [20.0, 0.0], [0.0, 500.0], [500.0, 0.0]] {
                assert_eq!(network.repairs(&settled, 9), Vec::<Vec<Difference>>::new(), "{settled:?}");
            }
        });
        // The one furthest from settled stands in front, and no more than are asked for.
        with_network(Timers::One, &[0.0, 0.0, 0.0], 1, |network| {
            network.choices = vec![choice(-20.0, 20.0), Choice { to: 2, ..choice(-30.0, 30.0) }];
            network.settle(&[0.0; 3], 1_000.0);
            let first = |most: usize| network.repairs(&[0.0, 5.0, 5.0], most);
            assert_eq!(
                first(9).iter().map(|repair| repair[0]).collect::<Vec<_>>(),
                [(0, 2, 30.0), (0, 1, 20.0)]
            );
            assert_eq!(first(1).iter().map(|repair| repair[0]).collect::<Vec<_>>(), [(0, 2, 30.0)]);
        });
    }

    #[test]
    fn of_three_finishes_at_once_two_are_moved_apart() {
        with_network(Timers::Two, &[0.0, 0.0, 0.0], 1, |network| {
            // Each is over in a moment, and 5 s are kept to the next.
            let each_way = |a, b| [(a, b, 5.0), (b, a, 5.0)];
            let all = [each_way(1, 2), each_way(0, 2), each_way(0, 1)].concat();
            assert_eq!(network.repairs(&[0.0, 2.0, 4.0], 9), [all]);
            for apart in [[0.0, 2.0, 5.0], [0.0, 0.0, 5.0], [0.0, 5.0, 5.0], [10.0, 0.0, 5.0]] {
                assert_eq!(network.repairs(&apart, 9), Vec::<Vec<Difference>>::new(), "{apart:?}");
            }
        });
        with_network(Timers::One, &[0.0, 0.0, 0.0], 1, |network| {
            assert_eq!(network.repairs(&[0.0, 2.0, 4.0], 9), Vec::<Vec<Difference>>::new());
        });
    }
}

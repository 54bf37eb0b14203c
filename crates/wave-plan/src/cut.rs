//! An itinerary cut into waves, in the order of their starts.

use std::cmp::Reverse;
use std::collections::HashMap;
use std::rc::Rc;

use crate::cutting::{Cuttings, ways_to_cut};
use crate::error::SquadError;
use crate::group_lanes::group_lanes;
use crate::itinerary::{Itinerary, Mode};
use crate::runner::Runner;
use crate::slot::Slot;
use crate::wave::Wave;

/// With no more waves and repetitions than this, every order of the waves is looked at.
pub(crate) const EXACT_WAVES: usize = 6;
const EXACT_REPS: usize = 12;

/// The most cuts of a set that are all looked at.
const MOST_CUTS: usize = 100_000;

/// An itinerary cut into waves, in the order of their starts.
#[derive(Clone, Debug)]
pub(crate) struct Cut<'a> {
    pub(crate) waves: Vec<Rc<Wave<'a>>>,
}

/// The cuts of a set that are looked at.
pub(crate) struct Cuts<'a> {
    pub(crate) cuts: Vec<Cut<'a>>,
    /// Whether every other cut has the same times as one of these.
    pub(crate) is_all: bool,
}

impl Cut<'_> {
    /// How many runners are in the waves that they had before, counted from 0.
    pub(crate) fn kept(&self, before: &[Option<usize>]) -> usize {
        kept(self.waves.iter().map(|wave| wave.members.as_slice()), before)
    }
}

fn kept<'m>(waves: impl Iterator<Item = &'m [usize]>, before: &[Option<usize>]) -> usize {
    let stays = |(wave, members): (usize, &[usize])| {
        members.iter().filter(|&&member| before.get(member) == Some(&Some(wave))).count()
    };
    waves.enumerate().map(stays).sum()
}

/// The cuts of a set, in every order where `is_exact`, else in a few. Of cuts with the same times there is
/// one: the one that leaves most runners in the waves of `before`. The kinds of runs of its waves are counted on from
/// `kinds`.
///
/// # Errors
///
/// [`SquadError::Pins`] or [`SquadError::Beside`] where no cut has a lane for everybody.
pub(crate) fn cuts<'a>(slot: &Slot<'a>, is_exact: bool, kinds: &mut usize) -> Result<Cuts<'a>, SquadError> {
    let Slot { party, itinerary: set, before, .. } = *slot;
    let Cuttings { ways, is_all: mut all } = ways_to_cut(set);
    let orders = (1..=set.wave_count()).fold(1, usize::saturating_mul);
    let is_exact = is_exact && set.runs.len() <= EXACT_REPS && ways.len().saturating_mul(orders) <= MOST_CUTS;
    let classes = classes(set);
    // Every order comes once: only runners who are alike can make one cut of two.
    let may_repeat = !is_exact || classes.iter().enumerate().any(|(runner, class)| runner != *class);
    // All ways have as many waves.
    let every_order = if is_exact { permutations(set.wave_count()) } else { Vec::new() };
    let mut waves_made = WavesMade { party, set, kinds, numbers: HashMap::new(), made: Vec::new() };
    let mut cuts: Vec<Cut<'a>> = Vec::new();
    let mut seen: HashMap<Vec<usize>, usize> = HashMap::new();
    let mut pinned = Vec::new();
    for way in &ways {
        if let Some(wave) = way.iter().find(|wave| !set.has_lanes(wave)) {
            pinned = set.members(wave);
            continue;
        }
        let numbers: Vec<usize> = way.iter().map(|wave| waves_made.number(wave)).collect();
        all &= is_exact || way.len() == 1;
        let few_orders = if is_exact { Vec::new() } else { likely_orders(set, way, &classes) };
        for order in every_order.iter().chain(&few_orders) {
            let waves: Vec<&[usize]> = order.iter().map(|&wave| way[wave].as_slice()).collect();
            let likeness = if may_repeat { likeness(&classes, &waves) } else { Vec::new() };
            let known = seen.get(&likeness).copied();
            if known.is_some_and(|known| kept(waves.iter().copied(), before) <= cuts[known].kept(before)) {
                continue;
            }
            let numbers = order.iter().map(|&wave| numbers[wave]);
            match (waves_made.cut(&waves, numbers), known) {
                (Some(cut), Some(known)) => cuts[known] = cut,
                (Some(cut), None) => {
                    if may_repeat {
                        seen.insert(likeness, cuts.len());
                    }
                    cuts.push(cut);
                }
                (None, _) => pinned = set.runners.iter().collect(),
            }
        }
    }
    if cuts.is_empty() {
        let mut runners = set.runners.iter().enumerate();
        let has_none =
            |(index, runner): &(usize, &Runner)| runner.lanes_beside > 0 && !set.has_lanes(&[*index]);
        if let Some((_, alone)) = runners.find(has_none) {
            return Err(SquadError::Beside { name: alone.name.clone(), lanes: alone.lanes_beside + 1 });
        }
        return Err(SquadError::Pins { names: pinned.iter().map(|runner| runner.name.clone()).collect() });
    }
    Ok(Cuts { cuts, is_all: all })
}

/// The waves of a set, each made once: the same wave is part of many cuts.
struct WavesMade<'a, 'k> {
    party: usize,
    set: &'a Itinerary,
    /// How many kinds of runs all waves have.
    kinds: &'k mut usize,
    /// A number for each of the waves, by its members.
    numbers: HashMap<Vec<usize>, usize>,
    /// By their numbers, those for each lane.
    made: Vec<Vec<(Option<u8>, Rc<Wave<'a>>)>>,
}

impl<'a> WavesMade<'a, '_> {
    fn number(&mut self, members: &[usize]) -> usize {
        let next = self.numbers.len();
        let number = *self.numbers.entry(members.to_vec()).or_insert(next);
        self.made.resize_with(self.numbers.len(), Vec::new);
        number
    }

    /// A cut, with a lane for each group; nothing where a group has none that all of it may use.
    fn cut(&mut self, waves: &[&[usize]], numbers: impl Iterator<Item = usize>) -> Option<Cut<'a>> {
        let lanes = match self.set.mode {
            Mode::OneToALane { .. } | Mode::Together => vec![None; waves.len()],
            Mode::GroupToALane { .. } => group_lanes(self.set, waves)?.into_iter().map(Some).collect(),
        };
        let waves = waves.iter().zip(numbers).zip(lanes).map(|((members, number), lane)| {
            if let Some((_, wave)) = self.made[number].iter().find(|(of, _)| *of == lane) {
                return Rc::clone(wave);
            }
            // Who is alone in a lane may have any of them: lanes turn.
            let beside = self.set.members(members).iter().map(|runner| runner.lanes_beside).max();
            let of_group = |lane: u8| (lane..=lane.saturating_add(beside.unwrap_or(0))).collect();
            let lanes = lane.map_or_else(|| self.set.lanes.clone(), of_group);
            let wave = Rc::new(Wave::new((self.party, self.set), *self.kinds, members.to_vec(), lanes));
            *self.kinds += wave.kind_count();
            self.made[number].push((lane, Rc::clone(&wave)));
            wave
        });
        Some(Cut { waves: waves.collect() })
    }
}

/// The longest first, the slowest first, and the fastest first; those who are alike as they are listed, before they are
/// turned round as well, since the smallest wave is the last of them.
fn likely_orders(set: &Itinerary, way: &[Vec<usize>], classes: &[usize]) -> Vec<Vec<usize>> {
    let forward: Vec<usize> = (0..way.len()).collect();
    let (mut longest_first, mut slowest_first) = (forward.clone(), forward.clone());
    let class = |wave: usize| way[wave].first().map(|&runner| classes[runner]);
    let alone_s =
        |wave: usize| set.members(&way[wave]).iter().map(|runner| runner.alone_s()).fold(0.0, f64::max);
    slowest_first.sort_by_key(|&wave| Reverse(class(wave)));
    longest_first.sort_by(|&a, &b| alone_s(b).total_cmp(&alone_s(a)).then_with(|| class(b).cmp(&class(a))));
    let backward = forward.iter().rev().copied().collect();
    vec![longest_first, slowest_first, forward, backward]
}

/// For each runner the first with the same times and lanes.
fn classes(set: &Itinerary) -> Vec<usize> {
    let times = |n: usize| (&set.runners[n].times, &set.runners[n].lanes, set.runners[n].lanes_beside);
    let first_like = |n: usize| (0..n).find(|&other| times(other) == times(n)).unwrap_or(n);
    (0..set.runners.len()).map(first_like).collect()
}

/// What cuts with the same times have in common: the classes of their runners, wave by wave.
fn likeness(classes: &[usize], waves: &[&[usize]]) -> Vec<usize> {
    let of = |&runner: &usize| classes[runner];
    waves.iter().flat_map(|wave| wave.iter().map(of).chain([usize::MAX])).collect()
}

fn permutations(count: usize) -> Vec<Vec<usize>> {
    if count == 0 {
        return vec![Vec::new()];
    }
    let mut all = Vec::new();
    for shorter in permutations(count - 1) {
        for place in (0..count).rev() {
            let mut order = shorter.clone();
            order.insert(place, count - 1);
            all.push(order);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use crate::itinerary::Stretch;

    use super::*;

    /// Runners with these targets over so many runs, two abreast.
    fn set(targets_s: &[f64], runs: usize) -> Itinerary {
        let runner = |(n, &target_s): (usize, &f64)| Runner::new(format!("no. {n}"), runs, target_s, 60.0);
        let stretch = Stretch { distance_m: 200.0, ..Stretch::default() };
        Itinerary::repetitions(runs, stretch, vec![1, 2], targets_s.iter().enumerate().map(runner).collect())
    }

    /// The members of the waves of each cut, and whether these are all cuts.
    fn cut(set: &Itinerary, before: &[Option<usize>], is_exact: bool) -> (Vec<Vec<Vec<usize>>>, bool) {
        let slot = Slot { party: 0, delay_s: 0.0, itinerary: set, before };
        let Cuts { cuts, is_all } = cuts(&slot, is_exact, &mut 0).expect("there are lanes for all");
        let members = |cut: &Cut<'_>| cut.waves.iter().map(|wave| wave.members.clone()).collect();
        (cuts.iter().map(members).collect(), is_all)
    }

    const NOBODY: [Option<usize>; 4] = [None; 4];

    #[test]
    fn every_order_of_different_waves_is_looked_at() {
        let (cuts, is_all) = cut(&set(&[30.0, 31.0, 32.0, 33.0], 2), &NOBODY, true);
        assert!(is_all);
        assert_eq!(cuts, [[[0, 1], [2, 3]], [[2, 3], [0, 1]]]);
    }

    #[test]
    fn where_not_every_order_is_looked_at_each_likely_one_is_there_once() {
        let targets_s = [30.0, 31.0, 32.0, 33.0];
        let (cuts, is_all) = cut(&set(&targets_s, 2), &NOBODY, false);
        assert!(!is_all);
        assert_eq!(cuts, [[[2, 3], [0, 1]], [[0, 1], [2, 3]]]);
        // As many repetitions as this are too many for every order.
        assert!(cut(&set(&targets_s, EXACT_REPS), &NOBODY, true).1);
        assert!(!cut(&set(&targets_s, EXACT_REPS + 1), &NOBODY, true).1);
        // One wave has one order.
        assert!(cut(&set(&[30.0, 31.0], 2), &NOBODY[..2], false).1);
    }

    #[test]
    fn of_cuts_of_like_runners_the_one_is_kept_that_changes_fewest_waves() {
        let set = set(&[30.0; 4], 2);
        for (before, waves) in [
            ([0, 0, 1, 1], [[0, 1], [2, 3]]),
            ([1, 1, 0, 0], [[2, 3], [0, 1]]),
            ([0, 1, 1, 0], [[0, 1], [2, 3]]),
        ] {
            let before = before.map(Some);
            assert_eq!(cut(&set, &before, true).0, [waves], "{before:?}");
            let slot = Slot { party: 0, delay_s: 0.0, itinerary: &set, before: &before };
            let kept_there =
                cuts(&slot, true, &mut 0).expect("there are lanes for all").cuts[0].kept(&before);
            let stay =
                |wave: usize| waves[wave].iter().filter(|&&runner| before[runner] == Some(wave)).count();
            assert_eq!(kept_there, stay(0) + stay(1), "{before:?}");
        }
    }

    #[test]
    fn who_stays_in_a_wave_is_counted() {
        let waves: [&[usize]; 2] = [&[0, 1], &[2, 3]];
        let kept = |before: [Option<usize>; 4]| kept(waves.into_iter(), &before);
        assert_eq!(kept([Some(0), Some(0), Some(1), None]), 3);
        assert_eq!(kept([Some(1), Some(1), Some(0), Some(0)]), 0);
        assert_eq!(kept(NOBODY), 0);
    }
}

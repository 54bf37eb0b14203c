//! The ways to cut a set into waves and to order them.

use std::collections::HashMap;

use crate::apart::WaveTimes;
use crate::lane_turns::lane_turns;
use crate::partition::partitions;
use crate::planner::{SquadError, SquadSet};
use crate::runner::{Mode, Runner};

/// Up to so many waves and repetitions every order of the waves is looked at.
pub(crate) const EXACT_WAVES: usize = 6;
const EXACT_REPS: u32 = 12;

/// Up to so many ways to cut a set and to order its waves each is looked at.
const MOST_CUTS: usize = 100_000;

/// One way to cut a set into waves and to order them.
#[derive(Clone, Debug)]
pub(crate) struct Cut {
    /// The members of each wave, as indices into the runners of the set.
    pub(crate) waves: Vec<Vec<usize>>,
    /// The lane of each group, where groups run in one lane each.
    pub(crate) lanes: Vec<u8>,
}

impl Cut {
    /// A cut with lanes for its groups, if their members may run in any.
    fn new(set: &SquadSet, waves: Vec<Vec<usize>>) -> Option<Self> {
        let lanes = match set.mode {
            Mode::OneToALane { .. } => Vec::new(),
            Mode::GroupToALane { .. } => group_lanes(set, &waves)?,
        };
        Some(Self { waves, lanes })
    }

    /// The waves as the clock sees them; the number of the set tells them from those of other sets.
    pub(crate) fn wave_times(&self, number: usize, set: &SquadSet) -> Vec<WaveTimes> {
        let times = |(place, members): (usize, &Vec<usize>)| {
            let lanes = self.lanes.get(place).map_or_else(|| set.lanes.clone(), |&lane| vec![lane]);
            // Members are a stretch of the runners in order of target.
            let key = (number, members[0], members.len(), self.lanes.get(place).copied());
            WaveTimes::new(key, &runners(set, members), set.distance_m, set.ground, lanes)
        };
        self.waves.iter().enumerate().map(times).collect()
    }
}

pub(crate) fn runners<'a>(set: &'a SquadSet, members: &[usize]) -> Vec<&'a Runner> {
    members.iter().map(|&runner| &set.runners[runner]).collect()
}

pub(crate) fn most_in_wave(set: &SquadSet) -> usize {
    match set.mode {
        Mode::OneToALane { most } => most.unwrap_or(usize::MAX).clamp(1, set.lanes.len()),
        Mode::GroupToALane { most } => most.max(1),
    }
}

/// How many waves a set has.
pub(crate) fn waves_of(set: &SquadSet) -> usize {
    set.runners.len().div_ceil(most_in_wave(set))
}

/// The ways to cut a set into waves and to order them, and whether these are all. Of ways that the
/// clock cannot tell apart there is one, that which leaves most runners in the waves of `before`; where it need not be exact, there are a few orders.
pub(crate) fn cuts(
    set: &SquadSet,
    before: &[Option<usize>],
    is_exact: bool,
) -> Result<(Vec<Cut>, bool), SquadError> {
    let mut order: Vec<usize> = (0..set.runners.len()).collect();
    // Of those alike in target the ones who rest alike stay together: nobody waits for another's rest.
    let (target, rest) = (|n: usize| set.runners[n].target_s, |n: usize| set.runners[n].rest_s);
    order.sort_by(|&a, &b| target(a).total_cmp(&target(b)).then(rest(a).total_cmp(&rest(b))));
    let (sizes, mut all) = partitions(order.len(), most_in_wave(set));
    let orders = (1..=waves_of(set)).fold(1, usize::saturating_mul);
    let is_exact = is_exact && set.reps <= EXACT_REPS && sizes.len().saturating_mul(orders) <= MOST_CUTS;
    let mut cuts: Vec<Cut> = Vec::new();
    let classes = classes(set);
    let mut seen: HashMap<Vec<usize>, usize> = HashMap::new();
    let mut pinned = Vec::new();
    for sizes in &sizes {
        let mut rest = order.as_slice();
        let waves: Vec<Vec<usize>> = (sizes.iter())
            .map(|&size| {
                let (wave, behind) = rest.split_at(size);
                rest = behind;
                wave.to_vec()
            })
            .collect();
        if let Some(wave) = waves.iter().find(|wave| !has_lanes(set, wave)) {
            pinned = wave.iter().map(|&runner| set.runners[runner].name.clone()).collect();
            continue;
        }
        let orders = if is_exact {
            permutations(waves.len())
        } else {
            all &= waves.len() == 1;
            let forward: Vec<usize> = (0..waves.len()).collect();
            let mut longest_first = forward.clone();
            let period_s = |wave: usize| {
                runners(set, &waves[wave]).iter().map(|r| r.target_s + r.rest_s).fold(0.0, f64::max)
            };
            longest_first.sort_by(|&a, &b| period_s(b).total_cmp(&period_s(a)).then(b.cmp(&a)));
            vec![longest_first, forward.iter().rev().copied().collect(), forward]
        };
        for order in orders {
            let waves: Vec<Vec<usize>> = order.into_iter().map(|wave| waves[wave].clone()).collect();
            let likeness = likeness(&classes, &waves);
            let known = seen.get(&likeness).copied();
            let is_better = |known: usize| kept(&waves, before) > kept(&cuts[known].waves, before);
            if known.is_some_and(|known| !is_better(known)) {
                continue;
            }
            match (Cut::new(set, waves), known) {
                (Some(cut), Some(known)) => cuts[known] = cut,
                (Some(cut), None) => {
                    seen.insert(likeness, cuts.len());
                    cuts.push(cut);
                }
                (None, _) => pinned = set.runners.iter().map(|runner| runner.name.clone()).collect(),
            }
        }
    }
    if cuts.is_empty() { Err(SquadError::Pins { names: pinned }) } else { Ok((cuts, all)) }
}

/// How many runners are in the waves that they had before, counted from 0.
pub(crate) fn kept(waves: &[Vec<usize>], before: &[Option<usize>]) -> usize {
    let stays = |wave: usize, members: &[usize]| {
        members.iter().filter(|&&member| before.get(member) == Some(&Some(wave))).count()
    };
    waves.iter().enumerate().map(|(wave, members)| stays(wave, members)).sum()
}

/// For each runner the first who is like it: in target, rest, and lanes that are allowed.
fn classes(set: &SquadSet) -> Vec<usize> {
    let is_like =
        |a: &Runner, b: &Runner| a.target_s == b.target_s && a.rest_s == b.rest_s && a.lanes == b.lanes;
    (set.runners.iter())
        .enumerate()
        .map(|(n, runner)| set.runners.iter().position(|other| is_like(runner, other)).unwrap_or(n))
        .collect()
}

/// What tells one cut from another: its runners by their classes, and where each wave ends.
fn likeness(classes: &[usize], waves: &[Vec<usize>]) -> Vec<usize> {
    let of = |wave: &Vec<usize>| -> Vec<usize> {
        wave.iter().map(|&runner| classes[runner]).chain([usize::MAX]).collect()
    };
    waves.iter().flat_map(of).collect()
}

/// Whether the members of a wave may run at once.
fn has_lanes(set: &SquadSet, members: &[usize]) -> bool {
    let runners = runners(set, members);
    match set.mode {
        Mode::OneToALane { .. } => {
            runners.iter().all(|runner| runner.lanes.is_none())
                || lane_turns(&runners, &set.lanes, 1).is_some()
        }
        Mode::GroupToALane { .. } => set.lanes.iter().any(|&lane| may_use(&runners, lane)),
    }
}

fn may_use(runners: &[&Runner], lane: u8) -> bool {
    runners.iter().all(|runner| runner.lanes.as_ref().is_none_or(|own| own.contains(&lane)))
}

/// A lane for each group, in turn; where some may not use every lane, one they may use with as few
/// groups in a lane as can be.
fn group_lanes(set: &SquadSet, waves: &[Vec<usize>]) -> Option<Vec<u8>> {
    let count = set.lanes.len();
    let may: Vec<Vec<usize>> = (waves.iter().enumerate())
        .map(|(place, members)| {
            let runners = runners(set, members);
            let in_turn = (0..count).map(|lane| (place + lane) % count);
            in_turn.filter(|&lane| may_use(&runners, set.lanes[lane])).collect()
        })
        .collect();
    (waves.len().div_ceil(count)..=waves.len()).find_map(|most| {
        let mut groups: Vec<Vec<usize>> = vec![Vec::new(); count];
        for place in 0..waves.len() {
            if !settle(place, &may, most, &mut groups, &mut vec![false; count]) {
                return None;
            }
        }
        let lane_of = |place| groups.iter().position(|groups| groups.contains(&place));
        (0..waves.len()).map(|place| lane_of(place).map(|lane| set.lanes[lane])).collect()
    })
}

/// Finds a lane for a group, moving others on if need be.
fn settle(
    place: usize,
    may: &[Vec<usize>],
    most: usize,
    groups: &mut [Vec<usize>],
    tried: &mut [bool],
) -> bool {
    for &lane in &may[place] {
        if groups[lane].len() < most {
            groups[lane].push(place);
            return true;
        }
    }
    for &lane in &may[place] {
        if std::mem::replace(&mut tried[lane], true) {
            continue;
        }
        for index in 0..groups[lane].len() {
            let other = groups[lane][index];
            if settle(other, may, most, groups, tried) {
                groups[lane].retain(|&group| group != other);
                groups[lane].push(place);
                return true;
            }
        }
    }
    false
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

//! Blocks that squads run in waves.

use std::collections::BTreeMap;

use lane_distance::{Course, Pair, Track};

use crate::people::bests::Bests;
use crate::people::session::{Athlete, GROUP_OF, Group, Session};
use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::clock::{Clocked, Timing};
use crate::plan::fault::{PlanError, PlanFault, Planned};
use crate::plan::kept::Kept;
use crate::plan::location::{Share, location};
use crate::plan::pairing;
use crate::plan::plan_block::PlanBlock;
use crate::plan::remark::{Remark, SetTakes};
use crate::plan::rep::Rep;
use crate::plan::warning::Warning;
use wave_plan::{Ground, Mode, Runner, SquadSet, WavePlan, plan_squads};
use workout_notation::{Block, Gap, RecoveryKind, RunKind, Step};

/// Up to this distance a lane has one runner unless the session says otherwise, in metres.
const SPRINT_M: f64 = 400.0;

/// A set that takes this many times as long as one athlete alone deserves a warning.
const MUCH_LONGER: f64 = 1.5;

/// Athletes who do the same blocks.
pub(crate) struct Party<'a> {
    /// The group whose own blocks they are, counted from 0; nothing for those of the session.
    pub(crate) group: Option<usize>,
    pub(crate) groups: Vec<&'a Group>,
    pub(crate) blocks: &'a [Block],
}

/// Cuts a session into parties: the groups that share the session's blocks, and each with its own.
pub(crate) fn parties(session: &Session) -> Vec<Party<'_>> {
    let shared: Vec<&Group> = session.groups.iter().filter(|group| group.blocks.is_none()).collect();
    let mut parties = Vec::new();
    if !shared.is_empty() {
        parties.push(Party { group: None, groups: shared, blocks: &session.blocks });
    }
    for (index, group) in session.groups.iter().enumerate() {
        if let Some(blocks) = &group.blocks {
            parties.push(Party { group: Some(index), groups: vec![group], blocks });
        }
    }
    parties
}

/// A block of a party that can be run in waves.
pub(crate) struct Task<'a> {
    at: BlockAt,
    block: &'a Block,
    party: &'a Party<'a>,
    step: Step<'a>,
    distance_m: f64,
    /// Whether targets and rests are known, so that starts can be timed.
    is_timed: bool,
    set: SquadSet,
    /// The best pair of each lane.
    pairs: BTreeMap<u8, Pair>,
    remarks: Vec<Remark>,
}

/// A block that waves can run: repetitions of one run, with the same rest after each. Nothing for
/// every other block.
pub(crate) fn task<'a>(
    venue: &Venue,
    track: &Track,
    session: &Session,
    party: &'a Party<'a>,
    (at, block): (BlockAt, &'a Block),
    warnings: &mut Vec<Warning>,
) -> Planned<Option<Task<'a>>> {
    let steps = block.steps();
    let (Some(first), Some(last)) = (steps.first(), steps.last()) else { return Ok(None) };
    let athletes: Vec<(&Group, &Athlete)> = party
        .groups
        .iter()
        .flat_map(|group| group.athletes.iter().map(|athlete| (*group, athlete)))
        .collect();
    let is_set = steps.iter().all(|step| {
        step.run.kind == first.run.kind
            && step.pace == first.pace
            && (step.gap == first.gap || std::ptr::eq(step, last))
            // Who walks back starts from the same place again.
            && matches!(step.recovery, None | Some(RecoveryKind::WalkBack))
    });
    let is_run = !matches!(first.run.kind.value, RunKind::Timed { .. });
    if athletes.is_empty() || !is_set || !is_run || first.together.is_some() {
        return Ok(None);
    }
    let of_group = party.groups.iter().find_map(|group| group.lanes.clone());
    let own_lanes = of_group.or_else(|| session.squad.lanes.clone());
    let mut found = location(track, &venue.rules, at, first, own_lanes, Share::AllLanes)?;
    warnings.append(&mut found.warnings);
    let mut pairs = BTreeMap::new();
    let mut distance_m: f64 = 0.0;
    for &lane in &found.lanes {
        let best = pairing::pairs(track, first, found.place, lane, session.prefer)?.first().copied();
        let Some(pair) = best else {
            let distance_m = pairing::distance_m(track, first, lane)?.unwrap_or_default();
            return Err(PlanFault::NoPlaceLeft { lane, distance_m }.at_run(first));
        };
        pairing::check_lane(track, first, pair.start.course, lane)?;
        distance_m = distance_m.max(pair.distance_m);
        pairs.insert(lane.get(), pair);
    }
    let mut remarks = Vec::new();
    let targets = targets(session, first, &athletes, distance_m, &mut remarks);
    let gap = first.gap.filter(|_| steps.len() > 1);
    let is_timed = targets.iter().all(Option::is_some) && (gap.is_some() || steps.len() == 1);
    if targets.iter().all(Option::is_some) && !is_timed {
        remarks.push(Remark::NoRest);
    }
    let runners = athletes
        .iter()
        .zip(&targets)
        .map(|((_, athlete), target_s)| {
            let target_s = target_s.unwrap_or(1.0);
            let rest_s = match gap {
                None => 0.0,
                Some(Gap::Rest(rest_s)) => rest_s,
                Some(Gap::Cycle(off_s)) => (off_s - target_s).max(0.0),
            };
            Runner { name: athlete.name.clone(), target_s, rest_s, lanes: athlete.lanes.clone() }
        })
        .collect();
    let squad = &session.squad;
    let mode = squad.mode.unwrap_or(if distance_m <= SPRINT_M {
        Mode::OneToALane { most: None }
    } else {
        Mode::GroupToALane { most: GROUP_OF }
    });
    let laps_m = (pairs.values())
        .filter(|pair| pair.start.course == Course::Oval)
        .filter_map(|pair| track.lap_m(pair.start.lane).ok());
    let ground = Ground::from_laps(laps_m);
    let set = SquadSet {
        reps: steps.len() as u32,
        distance_m,
        ground,
        lanes: found.lanes.iter().map(|lane| lane.get()).collect(),
        finish_m: pairs.iter().map(|(&lane, pair)| (lane, finish_m(track, pair))).collect(),
        is_reversed: pairs.values().any(|pair| pair.against),
        mode,
        runners,
    };
    Ok(Some(Task { at, block, party, step: first.clone(), distance_m, is_timed, set, pairs, remarks }))
}

/// How far past the finish line a run finishes, in metres along its lane in the direction of running. On a
/// straight it is before the line or on it.
fn finish_m(track: &Track, pair: &Pair) -> f64 {
    let layout = track.layout();
    let on_oval = layout.on_course(pair.finish, Course::Oval).unwrap_or(pair.finish);
    let past_m = layout.from_finish_m(on_oval);
    let is_straight = pair.finish.course != Course::Oval;
    let lap_m = if is_straight && past_m > 0.0 { track.lap_m(pair.finish.lane).unwrap_or(0.0) } else { 0.0 };
    let finish_m = past_m - lap_m;
    if pair.against { -finish_m } else { finish_m }
}

/// The target of each athlete: their own, else from the pace and the nearest bests that are known.
/// Those without one run with the slowest, or nobody has one.
fn targets(
    session: &Session,
    step: &Step<'_>,
    athletes: &[(&Group, &Athlete)],
    distance_m: f64,
    remarks: &mut Vec<Remark>,
) -> Vec<Option<f64>> {
    let mut targets: Vec<Option<f64>> = athletes
        .iter()
        .map(|(group, athlete)| {
            athlete.target_s.or_else(|| {
                let pace = &step.pace?.value;
                let bests: [&Bests; 3] = [&athlete.bests, &group.bests, &session.bests];
                let known = bests.into_iter().filter(|bests| !bests.is_empty());
                let found = known.clone().find_map(|bests| bests.target(pace, distance_m).ok());
                let (only_s, to_s) = found.or_else(|| Bests::default().target(pace, distance_m).ok())?;
                Some(to_s.unwrap_or(only_s))
            })
        })
        .collect();
    let without: Vec<String> = (athletes.iter().zip(&targets))
        .filter(|(_, target)| target.is_none())
        .map(|((_, athlete), _)| athlete.name.clone())
        .collect();
    let slowest_s = targets.iter().flatten().copied().fold(0.0, f64::max);
    if without.is_empty() {
        return targets;
    }
    if slowest_s > 0.0 {
        remarks.push(Remark::TargetsMissing { athletes: without, slowest_s });
        for target in &mut targets {
            *target = target.or(Some(slowest_s));
        }
    } else {
        remarks.push(Remark::NoTargets);
    }
    targets
}

/// Lays tasks out that are run at the same time, from a time on; gives the blocks and the end, if it
/// is known.
pub(crate) fn plan_tasks(
    track: &Track,
    session: &Session,
    tasks: &[Task<'_>],
    kept: &Kept,
    begins_s: Option<f64>,
) -> Result<(Vec<PlanBlock>, Option<f64>), PlanError> {
    let sets: Vec<SquadSet> = share_out(tasks);
    let before: Vec<Vec<Option<usize>>> = (tasks.iter().zip(&sets))
        .map(|(task, set)| set.runners.iter().map(|runner| kept.wave(task.at, &runner.name)).collect())
        .collect();
    let planned = plan_squads(&sets, &session.squad.timing, &before).map_err(|error| {
        let task = tasks.iter().find(|task| task.set.lanes.is_empty()).unwrap_or(&tasks[0]);
        PlanError { at: task.at, fault: PlanFault::Squad(error).at_lanes(&task.step) }
    })?;
    let is_timed = tasks.iter().all(|task| task.is_timed);
    let begins_s = begins_s.filter(|_| is_timed);
    let mut blocks = Vec::with_capacity(tasks.len());
    for ((task, set), waves) in tasks.iter().zip(&sets).zip(&planned.sets) {
        let group = match task.party.groups.as_slice() {
            [one] => Some(one.name.clone()),
            _ => None,
        };
        let mut block = PlanBlock::empty(task.at, task.block, group);
        block.lasts_s = is_timed.then_some(planned.end_s);
        block.remarks = task.remarks.clone();
        for rep in 0..set.reps as usize {
            for (number, wave) in waves.iter().enumerate() {
                wave_reps(track, session, task, set, wave, (number, rep), begins_s, &mut block.reps);
            }
        }
        if !kept.is_empty() {
            block.remarks.push(waves_kept(&before[blocks.len()], waves));
        }
        block.remarks.extend(remarks(set, waves, is_timed.then_some(&planned)));
        blocks.push(block);
    }
    Ok((blocks, begins_s.map(|begins_s| begins_s + planned.end_s)))
}

/// Lanes of tasks that run at once and name none are shared out: the longer runs inside.
fn share_out(tasks: &[Task<'_>]) -> Vec<SquadSet> {
    let mut sets: Vec<SquadSet> = tasks.iter().map(|task| task.set.clone()).collect();
    let unnamed: Vec<usize> = (0..tasks.len()).filter(|&index| tasks[index].step.lanes.is_none()).collect();
    if unnamed.len() < 2 {
        return sets;
    }
    let mut by_distance = unnamed.clone();
    by_distance.sort_by(|&a, &b| tasks[b].distance_m.total_cmp(&tasks[a].distance_m));
    let mut free: Vec<u8> = unnamed.iter().flat_map(|&index| sets[index].lanes.clone()).collect();
    free.sort_unstable();
    free.dedup();
    let named =
        |lane: &u8| tasks.iter().any(|task| task.step.lanes.is_some() && task.set.lanes.contains(lane));
    free.retain(|lane| !named(lane));
    let athletes: usize = unnamed.iter().map(|&index| sets[index].runners.len()).sum();
    let mut left = free.as_slice();
    for (place, &index) in by_distance.iter().enumerate() {
        let still = by_distance.len() - place - 1;
        let runners = sets[index].runners.len();
        // Pace groups need a lane each and no more; sprinters share what is left by their numbers.
        let fair = match sets[index].mode {
            Mode::GroupToALane { most } => runners.div_ceil(most.max(1)),
            Mode::OneToALane { .. } => (free.len() * runners).div_ceil(athletes.max(1)),
        };
        let count =
            if still == 0 { left.len() } else { fair.clamp(1, left.len().saturating_sub(still).max(1)) };
        let (own, rest) = left.split_at(count.min(left.len()));
        let own: Vec<u8> = own.iter().copied().filter(|lane| tasks[index].pairs.contains_key(lane)).collect();
        if !own.is_empty() {
            sets[index].lanes = own;
        }
        left = rest;
    }
    sets
}

#[expect(clippy::too_many_arguments, reason = "one place makes the repetitions of a wave")]
fn wave_reps(
    track: &Track,
    session: &Session,
    task: &Task<'_>,
    set: &SquadSet,
    wave: &WavePlan,
    (number, rep): (usize, usize),
    begins_s: Option<f64>,
    reps: &mut Vec<Rep>,
) {
    let go_s = begins_s.map(|begins_s| begins_s + wave.go_s[rep]);
    let next_s = begins_s.zip(wave.go_s.get(rep + 1)).map(|(begins_s, next_s)| begins_s + next_s);
    let group_of = |name: &str| {
        let group =
            task.party.groups.iter().find(|group| group.athletes.iter().any(|athlete| athlete.name == name));
        group.map(|group| group.name.clone())
    };
    let target = |member: usize| task.is_timed.then_some(set.runners[member].target_s);
    let mut runs: Vec<(u8, &[usize])> = match set.mode {
        Mode::OneToALane { .. } => wave.lanes[rep].iter().copied().zip(wave.members.chunks(1)).collect(),
        Mode::GroupToALane { .. } => vec![(wave.lanes[rep][0], &wave.members)],
    };
    runs.sort_unstable();
    for (lane, members) in runs {
        let Some(pair) = task.pairs.get(&lane) else { continue };
        let names: Vec<String> = members.iter().map(|&member| set.runners[member].name.clone()).collect();
        let times = members.iter().filter_map(|&member| target(member));
        let slowest = times.clone().fold(f64::NEG_INFINITY, f64::max);
        let fastest = times.fold(f64::INFINITY, f64::min);
        let target_s = slowest.is_finite().then_some(slowest);
        let target_from_s = (fastest < slowest).then_some(fastest);
        let timing = Timing { target_s, target_from_s, gap: task.step.gap };
        let done_s = go_s.zip(target_s).map(|(go_s, target_s)| go_s + target_s);
        let rest_s = match (go_s, task.step.gap) {
            // Without times there is still the rest that the block names.
            (None, Some(Gap::Rest(rest_s))) if rep + 1 < set.reps as usize => Some(rest_s),
            _ => next_s.zip(done_s).map(|(next_s, done_s)| next_s - done_s),
        };
        let mut made = Rep::of(track, task.step.run.kind.value, pair, target_s, session.stride_m);
        made.set_step(&task.step, rep, &timing, &Clocked { go_s, done_s, rest_s });
        made.group = names.first().and_then(|name| group_of(name));
        made.athletes = names;
        made.wave = number as u32 + 1;
        reps.push(made);
    }
}

fn remarks(set: &SquadSet, waves: &[WavePlan], timed: Option<&wave_plan::SquadPlan>) -> Vec<Remark> {
    let sizes = waves.iter().map(|wave| wave.members.len()).collect();
    let takes = timed.map(|planned| SetTakes {
        lasts_s: planned.end_s,
        bound_s: planned.bound_s,
        is_proven: planned.is_proven,
    });
    let mut remarks = vec![Remark::Waves { sizes, lanes: set.lanes.clone(), takes }];
    if let Some(planned) = timed {
        let alone_s = (set.runners.iter())
            .map(|runner| f64::from(set.reps) * runner.target_s + f64::from(set.reps - 1) * runner.rest_s)
            .fold(0.0, f64::max);
        if planned.end_s > MUCH_LONGER * alone_s {
            remarks.push(Remark::MuchLongerThanAlone { alone_s });
        }
    }
    remarks
}

/// How many athletes kept the wave that they had before a late change.
fn waves_kept(before: &[Option<usize>], waves: &[WavePlan]) -> Remark {
    let stay = |(wave, plan): (usize, &WavePlan)| {
        plan.members.iter().filter(|&&member| before.get(member) == Some(&Some(wave))).count()
    };
    Remark::WavesKept { kept: waves.iter().enumerate().map(stay).sum(), of: before.len() }
}

//! What there is to say of the ways between the runs of a block.

use std::collections::BTreeSet;

use lane_distance::{Course, LaneNumber, Pair, Track};
use workout_notation::{RecoveryKind, RunKind, RunLength, Step};

use crate::plan::chain::Chain;
use crate::plan::nominal;
use crate::plan::on_foot::{FASTEST_JOG_M_PER_S, JOG_M_PER_S, WALK_M_PER_S};
use crate::plan::pairing;
use crate::plan::remark::{Recovery, Remark};

/// A recovery that differs from what is asked for by less than this is as asked, in metres.
const SAME_M: f64 = 0.05;

/// The ways between the runs of a block.
pub(crate) struct Ways<'a> {
    pub(crate) steps: Vec<Step<'a>>,
    /// The runs in each lane that may be used; where a group starts together, in the one that it is soon on.
    pub(crate) chains: Vec<Chain>,
    /// The rest after each run, in seconds.
    pub(crate) gaps_s: Vec<Option<f64>>,
    /// How far before its start the runners set off, in metres.
    pub(crate) run_ins_m: Vec<f64>,
    /// Whether those of the first lane stand for all.
    pub(crate) is_squad: bool,
}

impl Ways<'_> {
    /// What there is to say of them in the lanes that are used: in all of these, or in the first of a squad's.
    pub(crate) fn remarks(&self, track: &Track, used: &BTreeSet<LaneNumber>) -> Vec<Remark> {
        let Self { steps, chains, gaps_s, run_ins_m, is_squad } = self;
        let is_used = |chain: &&Chain| used.contains(&chain.lane);
        let mut chains_used: Vec<&Chain> = chains.iter().filter(is_used).collect();
        if chains_used.is_empty() {
            chains_used = chains.iter().collect();
        }
        let too_short =
            chains_used.iter().flat_map(|chain| too_short(track, steps, chain, gaps_s, run_ins_m));
        let worst = too_short.min_by(|(a, _), (b, _)| a.total_cmp(b)).map(|(_, remark)| remark);
        let mut remarks: Vec<Remark> = worst.into_iter().chain(bends(steps, &chains_used)).collect();
        let told = if *is_squad { 1 } else { chains_used.len() };
        for chain in chains_used.into_iter().take(told) {
            for remark in of_lane(track, steps, chain, run_ins_m) {
                if !remarks.contains(&remark) {
                    remarks.push(remark);
                }
            }
        }
        remarks
    }
}

/// What holds for a block in one lane: how its starts move, the walk back.
fn of_lane(track: &Track, steps: &[Step<'_>], chain: &Chain, run_ins_m: &[f64]) -> Vec<Remark> {
    let walk_back = steps.iter().enumerate().find_map(|(index, step)| {
        let (pair, next) = follows(chain, index)?;
        let walk_m = walk_m(track, &pair, &next, run_ins_m[index + 1]);
        let jogging = step.recovery == Some(RecoveryKind::JogBack);
        let takes_s = (walk_m / if jogging { JOG_M_PER_S } else { WALK_M_PER_S }).ceil();
        let goes_back = jogging || step.recovery == Some(RecoveryKind::WalkBack);
        goes_back.then_some(Remark::WalkBack { lane: chain.lane, walk_m, takes_s, jogging })
    });
    [starts(track, steps, chain), walk_back].into_iter().flatten().collect()
}

/// A run and the next.
fn follows(chain: &Chain, index: usize) -> Option<(Pair, Pair)> {
    (*chain.pairs.get(index)?).zip(*chain.pairs.get(index + 1)?)
}

/// How the runners of a step go on along their lane, where they do.
const fn recovery(step: &Step<'_>) -> Option<Recovery> {
    match step.recovery {
        Some(RecoveryKind::Jog(_) | RecoveryKind::JogExactly(_) | RecoveryKind::JogPart(_)) => {
            Some(Recovery::Jog)
        }
        Some(RecoveryKind::Walk(_) | RecoveryKind::WalkExactly(_) | RecoveryKind::WalkPart(_)) => {
            Some(Recovery::Walk)
        }
        Some(RecoveryKind::Stand) => Some(Recovery::Stand),
        Some(RecoveryKind::WalkBack | RecoveryKind::JogBack | RecoveryKind::ChangeEnds) | None => None,
    }
}

/// The recoveries that cannot be done in their rest, each with how much longer the rest would have to be, negative.
fn too_short(
    track: &Track,
    steps: &[Step<'_>],
    chain: &Chain,
    gaps_s: &[Option<f64>],
    run_ins_m: &[f64],
) -> Vec<(f64, Remark)> {
    let lane = chain.lane;
    let of_step = |(index, step): (usize, &Step<'_>)| {
        let (pair, next) = follows(chain, index)?;
        let has_s = gaps_s[index]?;
        let (takes_s, remark) = match (recovery(step), chain.recoveries_m[index]) {
            (Some(recovery), Some(way_m)) => {
                let m_per_s = if recovery == Recovery::Jog { FASTEST_JOG_M_PER_S } else { WALK_M_PER_S };
                let needs_s = (way_m / m_per_s).ceil();
                let enough_m = has_s * m_per_s;
                (
                    way_m / m_per_s,
                    Remark::RestTooShortToGoOn { lane, recovery, way_m, needs_s, has_s, enough_m },
                )
            }
            // They jog for so long, however far.
            _ if step.jogs || step.recovery == Some(RecoveryKind::JogBack) => {
                let way_m = walk_m(track, &pair, &next, run_ins_m[index + 1]);
                let takes_s = way_m / FASTEST_JOG_M_PER_S;
                let enough_m = has_s * FASTEST_JOG_M_PER_S;
                let (recovery, needs_s) = (Recovery::Jog, takes_s.ceil());
                (takes_s, Remark::RestTooShortToGoOn { lane, recovery, way_m, needs_s, has_s, enough_m })
            }
            _ => {
                let walk_m = walk_m(track, &pair, &next, run_ins_m[index + 1]);
                let needs_s = (walk_m / WALK_M_PER_S).ceil();
                let changing_ends = step.recovery == Some(RecoveryKind::ChangeEnds);
                let remark = Remark::RestTooShortToWalk { lane, walk_m, needs_s, has_s, changing_ends };
                (walk_m / WALK_M_PER_S, remark)
            }
        };
        (has_s < takes_s).then_some((has_s - takes_s, remark))
    };
    steps.iter().enumerate().filter_map(of_step).collect()
}

/// The recoveries that go on to a place that is there already, and are not as long as asked.
fn bends(steps: &[Step<'_>], chains: &[&Chain]) -> Vec<Remark> {
    /// Recoveries that are alike.
    struct Bend {
        recovery: Recovery,
        asked_m: f64,
        /// The lane, how far it really is, and to which start, in millimetres to the finish.
        ways: Vec<(LaneNumber, f64, i64)>,
    }
    let mut bends: Vec<Bend> = Vec::new();
    for chain in chains {
        for (index, step) in steps.iter().enumerate() {
            let asked_m = step.recovery.and_then(RecoveryKind::on_m);
            let (Some(recovery), Some(asked_m), Some(way_m), Some(next)) = (
                recovery(step),
                asked_m,
                chain.recoveries_m[index],
                chain.pairs.get(index + 1).copied().flatten(),
            ) else {
                continue;
            };
            let way = (chain.lane, way_m, (next.start.to_finish_m * 1000.0).round() as i64);
            match bends.iter_mut().find(|bend| (bend.recovery, bend.asked_m) == (recovery, asked_m)) {
                Some(bend) => bend.ways.push(way),
                None => bends.push(Bend { recovery, asked_m, ways: vec![way] }),
            }
        }
    }
    let remark = |Bend { recovery, asked_m, mut ways }: Bend| {
        // In a lane where it is as asked there is nothing to say of it.
        let bent: Vec<LaneNumber> =
            ways.iter().filter(|way| (way.1 - asked_m).abs() > SAME_M).map(|way| way.0).collect();
        ways.retain(|way| bent.contains(&way.0));
        let least_m = ways.iter().map(|way| way.1).reduce(f64::min)?;
        let most_m = ways.iter().map(|way| way.1).reduce(f64::max)?;
        let mut lanes: Vec<LaneNumber> = ways.iter().map(|way| way.0).collect();
        lanes.sort_unstable();
        lanes.dedup();
        let starts = |lane: &LaneNumber| {
            let mut starts: Vec<i64> = ways.iter().filter(|way| way.0 == *lane).map(|way| way.2).collect();
            starts.sort_unstable();
            starts.dedup();
            starts.len()
        };
        let starts = lanes.iter().map(starts).max()?;
        Some(Remark::RecoveryBends { lanes, recovery, asked_m, least_m, most_m, starts })
    };
    bends.into_iter().filter_map(remark).collect()
}

/// The way that a walker takes from a finish along the track to where the next run is set off for, in metres: back, or
/// on where that is shorter.
fn walk_m(track: &Track, pair: &Pair, next: &Pair, run_in_m: f64) -> f64 {
    let from = pairing::run_in(track, next, run_in_m).unwrap_or(next.start);
    if pair.finish.course == Course::Oval && from.course == Course::Oval {
        track.layout().past_m(pair.finish, from).abs()
    } else {
        track.point(pair.finish).distance(track.point(from))
    }
}

/// How far each start lies from the one before, where all runs are alike and all recoveries are as asked, and what
/// recovery would cancel that.
fn starts(track: &Track, steps: &[Step<'_>], chain: &Chain) -> Option<Remark> {
    let [first, .., _] = steps else { return None };
    // Hurdles and takeover zones lie where they lie.
    if matches!(first.run.kind.value, RunKind::Hurdles { .. } | RunKind::Exchange { .. }) {
        return None;
    }
    let (recovery, on_m) = (recovery(first)?, first.recovery?.on_m()?);
    if chain.recoveries_m.iter().flatten().any(|way_m| (way_m - on_m).abs() > SAME_M) {
        return None;
    }
    let lane = chain.lane;
    let alike = steps[..steps.len() - 1]
        .iter()
        .all(|step| step.run.kind == first.run.kind && step.recovery == first.recovery);
    if !alike || matches!(first.run.kind.value, RunKind::InAndOut { length: RunLength::Laps(_), .. }) {
        return None;
    }
    let run_in_m = nominal::run_in_m(first.run.kind.value).unwrap_or(0.0);
    let distance_m = run_in_m + (*chain.pairs.first()?)?.distance_m;
    let lap_m = track.lap_m(lane).ok()?;
    let moves_m = creep_m(distance_m + on_m, lap_m);
    if moves_m.abs() < 0.005 {
        return Some(Remark::SameStart { lane, recovery });
    }
    let cancels_m = on_m - moves_m;
    let is_near = on_m > 0.0 && cancels_m > 0.0 && moves_m.abs() <= lap_m / 4.0;
    let cancelled_by_m = is_near.then_some(cancels_m);
    Some(Remark::StartsMove { lane, moves_m, recovery, cancelled_by_m })
}

/// How far past the last start the next one lies after going on for a distance, the shorter way
/// round, in metres; negative is behind it.
///
/// ```
/// // 300 m and a jog of 100 m in lane 2 of the standard track, whose lap is 407.038 m.
/// assert!((session_plan::creep_m(400.0, 407.038) + 7.038).abs() < 1e-9);
/// assert!(session_plan::creep_m(300.0 + 107.038, 407.038).abs() < 1e-9);
/// ```
pub fn creep_m(on_m: f64, lap_m: f64) -> f64 {
    on_m - (on_m / lap_m).round() * lap_m
}

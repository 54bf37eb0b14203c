//! One run after the other: where each starts, given how the runners get there.

use lane_distance::{Course, LaneNumber, Pair, Track};

use crate::plan::fault::{PlanFault, Planned};
use crate::plan::location::Location;
use crate::plan::pairing::{self, Prefer};
use crate::plan::remark::{Recovery, Remark};
use crate::plan::together::{LanePairs, together};
use workout_notation::{RecoveryKind, RunKind, RunLength, Step};

/// How fast people walk back to a start, in metres a second: common practice, no source.
pub const WALK_M_PER_S: f64 = 1.4;

/// The runs of a block in one lane, one after the other; nothing for a run by time.
pub(crate) struct Chain {
    pub(crate) pairs: Vec<Option<Pair>>,
    /// How its starts move, the walk back, a rest that is too short.
    pub(crate) remarks: Vec<Remark>,
}

/// Lays the runs of a block out in some lanes, so that all of them start from the same mark or finish on the same
/// line.
pub(crate) fn chains(
    track: &Track,
    steps: &[Step<'_>],
    location: &Location,
    lanes: &[LaneNumber],
    prefer: Prefer,
    gaps_s: &[Option<f64>],
) -> Planned<Vec<Chain>> {
    let mut runs: Vec<Vec<Option<Pair>>> = vec![Vec::with_capacity(steps.len()); lanes.len()];
    // Steps of the same run share one search.
    let mut found: Vec<(usize, Vec<LanePairs>)> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let recovery = index.checked_sub(1).and_then(|before| steps[before].recovery);
        let mut next = Vec::with_capacity(lanes.len());
        for (&lane, runs) in lanes.iter().zip(&runs) {
            next.push(match recovery.zip(runs.last().copied().flatten()) {
                Some((recovery, last)) => next_start(track, step, recovery, &last, lane)?,
                None => None,
            });
        }
        if next.iter().all(Option::is_some) {
            runs.iter_mut().zip(next).for_each(|(runs, next)| runs.push(next));
            continue;
        }
        let same = found.iter().position(|(known, _)| {
            let known = &steps[*known];
            known.run.kind == step.run.kind && known.from == step.from && known.to == step.to
        });
        let same = match same {
            Some(same) => same,
            None => {
                let of_lane = |&lane| Ok((lane, pairing::pairs(track, step, location.place, lane, prefer)?));
                found.push((index, lanes.iter().map(of_lane).collect::<Planned<_>>()?));
                found.len() - 1
            }
        };
        let mut choices = found[same].1.clone();
        if recovery == Some(RecoveryKind::ChangeEnds) {
            for ((_, choices), last) in
                choices.iter_mut().zip(runs.iter().map(|runs| runs.last().copied().flatten()))
            {
                if let Some(last) = last {
                    nearest_first(track, choices, &last);
                }
            }
        }
        match together(&choices) {
            Ok(pairs) => runs.iter_mut().zip(pairs).for_each(|(runs, pair)| runs.push(Some(pair))),
            Err(lane) => {
                if let Some(distance_m) = pairing::distance_m(track, step, lane)? {
                    return Err(PlanFault::NoPlaceLeft { lane, distance_m }.at_run(step));
                }
                runs.iter_mut().for_each(|runs| runs.push(None));
            }
        }
    }
    let mut chains = Vec::with_capacity(lanes.len());
    for (&lane, pairs) in lanes.iter().zip(runs) {
        for (pair, step) in pairs.iter().zip(steps) {
            if let Some(pair) = pair {
                pairing::check_lane(track, step, pair.start.course, lane)?;
            }
        }
        let remarks = remarks(track, steps, &pairs, lane, gaps_s);
        chains.push(Chain { pairs, remarks });
    }
    Ok(chains)
}

/// The next run where the way to it fixes its start; nothing where it starts at paint.
fn next_start(
    track: &Track,
    step: &Step<'_>,
    recovery: RecoveryKind,
    last: &Pair,
    lane: LaneNumber,
) -> Planned<Option<Pair>> {
    let on_m = match recovery {
        RecoveryKind::Jog(metres) | RecoveryKind::Walk(metres) => metres,
        RecoveryKind::Stand => 0.0,
        RecoveryKind::WalkBack | RecoveryKind::ChangeEnds => return Ok(None),
    };
    let (Some(distance_m), Some(finish)) =
        (pairing::distance_m(track, step, lane)?, track.layout().on_course(last.finish, Course::Oval))
    else {
        return Ok(None);
    };
    let start =
        if on_m > 0.0 { pairing::on_from(track, finish, on_m).map(|jog| jog.finish) } else { Some(finish) };
    Ok(start.and_then(|start| pairing::on_from(track, start, distance_m)))
}

/// Puts those pairs in front that start nearest to where the last run ended: on paint at both ends where there are
/// such.
fn nearest_first(track: &Track, choices: &mut [Pair], last: &Pair) {
    let apart = |pair: &Pair| track.point(pair.start).distance(track.point(last.finish));
    choices.sort_by(|a, b| b.ends_on_paint().cmp(&a.ends_on_paint()).then(apart(a).total_cmp(&apart(b))));
}

/// The way that a walker takes from a finish to a start along the track, in metres: back, or on
/// where that is shorter.
fn walk_m(track: &Track, pair: &Pair, start: &Pair) -> f64 {
    if pair.finish.course == Course::Oval && start.start.course == Course::Oval {
        track.layout().past_m(pair.finish, start.start).abs()
    } else {
        track.point(pair.finish).distance(track.point(start.start))
    }
}

fn remarks(
    track: &Track,
    steps: &[Step<'_>],
    pairs: &[Option<Pair>],
    lane: LaneNumber,
    gaps_s: &[Option<f64>],
) -> Vec<Remark> {
    let follows = |index: usize| -> Option<(Pair, Pair)> { (*pairs.get(index)?).zip(*pairs.get(index + 1)?) };
    let mut walk_back = None;
    let mut too_short = None;
    for (index, step) in steps.iter().enumerate() {
        let Some((pair, next)) = follows(index) else { continue };
        if matches!(step.recovery, Some(RecoveryKind::Jog(_) | RecoveryKind::Walk(_) | RecoveryKind::Stand)) {
            continue;
        }
        let walk_m = walk_m(track, &pair, &next);
        let walk_s = walk_m / WALK_M_PER_S;
        let needs_s = walk_s.ceil();
        if step.recovery == Some(RecoveryKind::WalkBack) {
            walk_back.get_or_insert(Remark::WalkBack { lane, walk_m, takes_s: needs_s });
        }
        if let Some(has_s) = gaps_s[index].filter(|gap_s| *gap_s < walk_s) {
            let changing_ends = step.recovery == Some(RecoveryKind::ChangeEnds);
            too_short.get_or_insert(Remark::RestTooShortToWalk {
                lane,
                walk_m,
                needs_s,
                has_s,
                changing_ends,
            });
        }
    }
    [starts(track, steps, pairs, lane), walk_back, too_short].into_iter().flatten().collect()
}

/// How far each start lies from the one before, where all runs and recoveries are alike, and what
/// recovery would cancel that.
fn starts(track: &Track, steps: &[Step<'_>], pairs: &[Option<Pair>], lane: LaneNumber) -> Option<Remark> {
    let [first, .., _] = steps else { return None };
    let (recovery, on_m) = match first.recovery? {
        RecoveryKind::Jog(metres) => (Recovery::Jog, metres),
        RecoveryKind::Walk(metres) => (Recovery::Walk, metres),
        RecoveryKind::Stand => (Recovery::Stand, 0.0),
        RecoveryKind::WalkBack | RecoveryKind::ChangeEnds => return None,
    };
    let alike = steps[..steps.len() - 1]
        .iter()
        .all(|step| step.run.kind == first.run.kind && step.recovery == first.recovery);
    if !alike || matches!(first.run.kind.value, RunKind::InAndOut { length: RunLength::Laps(_), .. }) {
        return None;
    }
    let distance_m = (*pairs.first()?)?.distance_m;
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

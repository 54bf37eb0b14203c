//! One block laid out on a track.

use lane_distance::{Course, LaneNumber, Pair, Spot, Track};

use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::chain;
use crate::plan::clock::{Clock, Timing};
use crate::plan::fault::{PlanFault, Planned};
use crate::plan::location::{Location, Share, location};
use crate::plan::pairing::{self, Prefer};
use crate::plan::plan_block::PlanBlock;
use crate::plan::remark::Remark;
use crate::plan::rep::Rep;
use crate::plan::warning::Warning;
use crate::plan::who::Who;
use workout_notation::{Block, Body, RunKind, Spanned, Step};

/// Lays a block out, and moves the clock on.
pub(crate) fn plan_block(
    venue: &Venue,
    track: &Track,
    (at, block): (BlockAt, &Block),
    who: &Who<'_>,
    clock: &mut Clock,
    warnings: &mut Vec<Warning>,
) -> Planned<PlanBlock> {
    let mut planned = PlanBlock::empty(at, block, who.name());
    let steps = block.steps();
    if let Body::Note { words, lasts_s } = &block.body {
        planned.note = Some(words.clone());
        planned.lasts_s = *lasts_s;
        clock.note(*lasts_s);
        return Ok(planned);
    }
    let Some(first) = steps.first() else { return Ok(planned) };
    let own_lanes = who.group.and_then(|group| group.lanes.clone());
    let location = location(track, &venue.rules, at, first, own_lanes, Share::OneLane)?;
    // A run by time is not laid out, and needs no lane.
    if !matches!(first.run.kind.value, RunKind::Timed { .. }) {
        for warning in &location.warnings {
            push_new(warnings, warning.clone());
        }
    }
    let timings = timings(track, &steps, &location, who, &mut planned.remarks)?;
    let clocked = clock.run(&timings);
    let gaps_s: Vec<Option<f64>> = clocked.iter().map(|clocked| clocked.rest_s).collect();
    let together = first.together.is_some();
    let inside = location.lanes.iter().copied().min().unwrap_or(LaneNumber::FIRST);
    let mut chains = Vec::new();
    for &lane in &location.lanes {
        let chain = chain::chain(
            track,
            &steps,
            &location,
            if together { inside } else { lane },
            who.session.prefer,
            &gaps_s,
        )?;
        for remark in &chain.remarks {
            push_new(&mut planned.remarks, remark.clone());
        }
        chains.push((lane, chain));
    }
    let mut made: Vec<(Pair, usize, Option<f64>)> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let (timing, clocked) = (&timings[index], &clocked[index]);
        if let RunKind::Timed { seconds } = step.run.kind.value {
            planned.timed_s.push(seconds);
        }
        for (lane, chain) in &chains {
            let Some(inside) = chain.pairs[index] else { continue };
            let pair = if together { group_start(track, step, &inside, *lane)? } else { inside };
            // Most repetitions are the one before again, at another time.
            let alike = made.iter().position(|(known, of, target_s)| {
                *known == pair && steps[*of].run.kind == step.run.kind && *target_s == timing.target_s
            });
            let new_rep = || {
                let kind = step.run.kind.value;
                let mut rep = Rep::of(track, kind, &pair, timing.target_s, who.session.stride_m);
                (rep.group, rep.athletes) = (who.name(), who.athletes());
                // A group that starts together runs in the inside lane soon enough.
                let on_bends = track.bend_share(inside.start, inside.distance_m, inside.against);
                (rep.bend_m, rep.bends) = (on_bends.metres, on_bends.bends);
                rep
            };
            let mut rep = alike.map_or_else(new_rep, |alike| planned.reps[alike].clone());
            rep.set_step(step, index, timing, clocked);
            made.push((pair, index, timing.target_s));
            planned.reps.push(rep);
        }
    }
    if planned.reps.is_empty() {
        planned.note = Some(block.text.trim().to_owned());
        planned.lasts_s = timings.iter().map(|timing| timing.target_s).sum();
    }
    Ok(planned)
}

fn push_new<T: PartialEq>(list: &mut Vec<T>, item: T) {
    if !list.contains(&item) {
        list.push(item);
    }
}

/// Targets and gaps of each run. A missing target is remarked on and left out.
fn timings(
    track: &Track,
    steps: &[Step<'_>],
    location: &Location,
    who: &Who<'_>,
    remarks: &mut Vec<Remark>,
) -> Planned<Vec<Timing>> {
    let lane = location.lanes.first().copied().unwrap_or(LaneNumber::FIRST);
    let mut timings = Vec::with_capacity(steps.len());
    for step in steps {
        let mut timing = Timing { target_s: None, target_from_s: None, gap: step.gap };
        if let RunKind::Timed { seconds } = step.run.kind.value {
            timing.target_s = Some(seconds);
        } else if let (Some(pace), Some(distance_m)) = (step.pace, pairing::distance_m(track, step, lane)?) {
            match who.bests().target(pace, distance_m) {
                Ok((only_s, None)) => timing.target_s = Some(only_s),
                Ok((from_s, Some(to_s))) => {
                    (timing.target_s, timing.target_from_s) = (Some(to_s), Some(from_s));
                }
                Err(why) => push_new(remarks, Remark::NoTarget { pace: pace.value.to_string(), why }),
            }
        }
        timings.push(timing);
    }
    Ok(timings)
}

/// The run of a lane further out in a group that starts together: on the curved line, and then in
/// the inside lane.
///
/// # Errors
///
/// A [`PlanFault`] where the lane is missing or closed.
fn group_start(track: &Track, step: &Step<'_>, inside: &Pair, lane: LaneNumber) -> Planned<Pair> {
    if lane == inside.start.lane {
        return Ok(*inside);
    }
    pairing::check_lane(track, step, inside.start.course, lane)?;
    let curved = || track.layout().curved_start(inside.start.lane, inside.start.to_finish_m, lane);
    let start = match inside.start.course {
        Course::Oval => curved().unwrap_or_else(|| track.layout().abreast(inside.start, lane)),
        // On a straight the line is square across.
        _ => Spot { lane, ..inside.start },
    };
    Ok(Pair { start, start_reading: track.read(start), ..*inside })
}

/// The pairs of start and finish worth having for the first run of a block, best first: in the lane
/// that it names, else in the one that the house rules or the track give.
///
/// # Errors
///
/// A [`PlanFault`] with its place in the block's text, where the distance does not fit, the lane is
/// missing or closed, the block names several lanes, or it is not a run.
pub fn pairs(venue: &Venue, block: &Block) -> Result<Vec<Pair>, Spanned<PlanFault>> {
    let track = venue.track();
    let steps = block.steps();
    let Some(first) = steps.first() else { return Err(PlanFault::NotARun.at(0..block.text.len())) };
    let at = BlockAt { group: None, block: 0 };
    let found = location(track, &venue.rules, at, first, None, Share::OneLane)?;
    let [lane] = found.lanes.as_slice() else { return Err(PlanFault::SeveralLanes.at_lanes(first)) };
    let pairs = pairing::pairs(track, first, found.place, *lane, Prefer::default())?;
    if pairs.is_empty() && matches!(first.run.kind.value, RunKind::Timed { .. }) {
        return Err(PlanFault::NoFinish.at_run(first));
    }
    if let Some(pair) = pairs.first() {
        pairing::check_lane(track, first, pair.start.course, *lane)?;
    }
    Ok(pairs)
}

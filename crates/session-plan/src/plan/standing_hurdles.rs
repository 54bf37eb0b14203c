//! Runs that go through the hurdles of others.

use std::collections::BTreeSet;

use lane_distance::{LaneNumber, Spot, Track};
use workout_notation::RunKind;

use crate::plan::hurdle_run::spacing_m;
use crate::plan::plan_block::PlanBlock;
use crate::plan::rep::Rep;
use crate::plan::warning::Warning;

/// How far apart the places are that are looked at, in metres: less than from hurdle to hurdle.
const STEP_M: f64 = 5.0;

/// Where hurdles stand in a lane while a block is run over them.
struct Standing {
    lane: LaneNumber,
    /// The race whose hurdles they are, in metres.
    race_m: f64,
    spots: Vec<Spot>,
    from_s: f64,
    to_s: f64,
}

/// Runs of one block, flat or over hurdles that stand elsewhere, that go through the hurdles of another while those stand:
/// from the first go over them to the last finish.
pub(crate) fn through_hurdles(track: &Track, blocks: &[PlanBlock]) -> Vec<Warning> {
    let mut found = Vec::new();
    for (hurdles, over) in (1..).zip(blocks) {
        let standing = standing(track, over);
        if standing.is_empty() {
            continue;
        }
        for (block, flat) in (1..).zip(blocks).filter(|(block, _)| *block != hurdles) {
            let mut lanes = BTreeSet::new();
            let mut at_s = f64::INFINITY;
            for rep in &flat.reps {
                let Some(go_s) = rep.go_s else { continue };
                let done_s = rep.done_s.unwrap_or(f64::INFINITY);
                let race_m = race_m(track, rep);
                // Of two blocks over hurdles the one in front says it.
                if race_m.is_some() && block > hurdles {
                    continue;
                }
                let meets = |standing: &&Standing| {
                    standing.lane == rep.lane
                        && race_m != Some(standing.race_m)
                        && go_s < standing.to_s
                        && standing.from_s < done_s
                        && standing.spots.iter().any(|spot| comes_by(track, rep, *spot))
                };
                if standing.iter().any(|of| meets(&of)) {
                    lanes.insert(rep.lane);
                    at_s = at_s.min(go_s);
                }
            }
            if !lanes.is_empty() {
                found.push(Warning::ThroughHurdles {
                    block,
                    hurdles,
                    lanes: lanes.into_iter().collect(),
                    at_s,
                });
            }
        }
    }
    found
}

/// The race whose hurdles a run goes over, in metres; nothing for a flat one.
fn race_m(track: &Track, rep: &Rep) -> Option<f64> {
    match rep.nominal.run {
        RunKind::Hurdles { race_m, part } => Some(spacing_m(track, rep.lane, race_m, part)),
        _ => None,
    }
}

/// The hurdles of a block that has go times, lane by lane.
fn standing(track: &Track, block: &PlanBlock) -> Vec<Standing> {
    let over = || block.reps.iter().filter_map(|rep| Some((rep, race_m(track, rep)?)));
    let from_s = over().filter_map(|(rep, _)| rep.go_s).reduce(f64::min);
    // Where nobody knows how long runs take, hurdles stand to the end.
    let to_s = over().map(|(rep, _)| rep.done_s.unwrap_or(f64::INFINITY)).reduce(f64::max);
    let Some((from_s, to_s)) = from_s.zip(to_s) else { return Vec::new() };
    let mut standing: Vec<Standing> = Vec::new();
    for (rep, race_m) in over() {
        if standing.iter().all(|known| known.lane != rep.lane || known.race_m != race_m) {
            let steps = (rep.distance_m / STEP_M) as u32;
            let finish = rep.finish.spot();
            // Nothing stands at the start line itself.
            let before_m = (0..steps).map(|step| f64::from(step) * STEP_M);
            let spots = before_m.map(|metres| Spot { to_finish_m: finish.to_finish_m + metres, ..finish });
            standing.push(Standing { lane: rep.lane, race_m, spots: spots.collect(), from_s, to_s });
        }
    }
    standing
}

/// Whether a run comes by a spot of its lane.
fn comes_by(track: &Track, rep: &Rep, spot: Spot) -> bool {
    let start = rep.start.spot();
    let lap_m = track.lap_m(spot.lane).unwrap_or(f64::INFINITY);
    let spot = match track.layout().straight(spot.course) {
        Some(_) => spot,
        None => Spot { to_finish_m: spot.to_finish_m.rem_euclid(lap_m), ..spot },
    };
    let Some(there) = track.layout().on_course(spot, start.course) else { return false };
    let way_m = start.to_finish_m - there.to_finish_m;
    match track.layout().straight(start.course) {
        Some(_) if rep.the_other_way => (0.0..=rep.distance_m).contains(&-way_m),
        Some(_) => (0.0..=rep.distance_m).contains(&way_m),
        None => way_m.rem_euclid(lap_m) <= rep.distance_m,
    }
}

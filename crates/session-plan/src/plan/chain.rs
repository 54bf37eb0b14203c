//! One run after the other: where each starts, given how the runners get there.

use lane_distance::{LaneNumber, Pair, Track};

use crate::plan::fault::{PlanFault, Planned};
use crate::plan::location::Location;
use crate::plan::next_start::next_runs;
use crate::plan::pairing::{self, Prefer};
use crate::plan::together::{Common, LanePairs, are_together, most_together, own, together};
use workout_notation::{RecoveryKind, Step};

/// The runs of a block in one lane, one after the other.
pub(crate) struct Chain {
    pub(crate) lane: LaneNumber,
    /// Where each starts and finishes; nothing for a run by time.
    pub(crate) pairs: Vec<Option<Pair>>,
    /// How far the runners go on along the lane after each, in metres; nothing where they do not.
    pub(crate) recoveries_m: Vec<Option<f64>>,
}

/// Lays the runs of a block out in lanes that nobody asked for. Where hazards keep a run in some of them from the place
/// that it has in most, those are left out if the rest have room for so many `runners` at once; else any mark
/// serves that all have in common, and where there is none the lanes are left out all the same, as long as the rest are
/// `enough`.
pub(crate) fn chains_together(
    track: &Track,
    steps: &[Step<'_>],
    location: &mut Location,
    prefer: Prefer,
    runners: usize,
    enough: impl Fn(&[LaneNumber]) -> bool,
) -> Planned<Vec<Chain>> {
    let usual = |lanes: &[LaneNumber]| lanes.len() >= runners && enough(lanes);
    if let Some((lanes, chains)) = without_some(track, steps, location, (prefer, Common::Usual), usual)? {
        location.lanes = lanes;
        return Ok(chains);
    }
    if let Some((lanes, chains)) = without_some(track, steps, location, (prefer, Common::AnyMark), enough)? {
        location.lanes = lanes;
        return Ok(chains);
    }
    chains(track, steps, location, &location.lanes, prefer)
}

/// The runs laid out in as many lanes as have one place, with those lanes; nothing where they would not be `enough`.
fn without_some(
    track: &Track,
    steps: &[Step<'_>],
    location: &Location,
    (prefer, common): (Prefer, Common),
    enough: impl Fn(&[LaneNumber]) -> bool,
) -> Planned<Option<(Vec<LaneNumber>, Vec<Chain>)>> {
    let mut lanes = location.lanes.clone();
    loop {
        let chains = laid_out(track, steps, location, &lanes, (prefer, common))?;
        let of_run = |run: usize| chains.iter().map(|chain| chain.pairs[run]).collect::<Option<Vec<_>>>();
        let searched = (0..steps.len()).filter(|run| !pairing::is_placed_by_track(&steps[*run]));
        let apart = searched.filter_map(of_run).find(|pairs| !are_together(pairs));
        let Some(apart) = apart else { return Ok(Some((lanes, chains))) };
        let fewer: Vec<LaneNumber> = most_together(&apart).into_iter().map(|order| lanes[order]).collect();
        if fewer.is_empty() || fewer.len() == lanes.len() || !enough(&fewer) {
            return Ok(None);
        }
        lanes = fewer;
    }
}

/// Lays the runs of a block out in some lanes, so that all of them start from the same mark or finish on the same
/// line.
pub(crate) fn chains(
    track: &Track,
    steps: &[Step<'_>],
    location: &Location,
    lanes: &[LaneNumber],
    prefer: Prefer,
) -> Planned<Vec<Chain>> {
    laid_out(track, steps, location, lanes, (prefer, Common::AnyMark))
}

fn laid_out(
    track: &Track,
    steps: &[Step<'_>],
    location: &Location,
    lanes: &[LaneNumber],
    (prefer, common): (Prefer, Common),
) -> Planned<Vec<Chain>> {
    let mut runs: Vec<Vec<Option<Pair>>> = vec![Vec::with_capacity(steps.len()); lanes.len()];
    let mut recoveries_m: Vec<Vec<Option<f64>>> = vec![Vec::with_capacity(steps.len()); lanes.len()];
    // Steps of the same run share one search.
    let mut found: Vec<Found> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        let next = next_runs(track, steps, lanes, &runs)?;
        if index > 0 {
            let on_m = |lane: usize| next.as_ref().map(|next| next[lane].on_m);
            recoveries_m.iter_mut().enumerate().for_each(|(lane, recoveries)| recoveries.push(on_m(lane)));
        }
        if let Some(next) = next {
            runs.iter_mut().zip(next).for_each(|(runs, next)| runs.push(Some(next.pair)));
            continue;
        }
        let recovery = index.checked_sub(1).and_then(|before| steps[before].recovery);
        let same = found.iter().position(|found| {
            let known = &steps[found.first];
            known.run.kind == step.run.kind && known.from == step.from && known.to == step.to
        });
        let same = match same {
            Some(same) => same,
            None => {
                let of_lane = |&lane| Ok((lane, pairing::pairs(track, step, location.place, lane, prefer)?));
                let choices = lanes.iter().map(of_lane).collect::<Planned<_>>()?;
                found.push(Found { first: index, choices, usual: None });
                found.len() - 1
            }
        };
        let Found { choices, usual, .. } = &mut found[same];
        let one_place = if recovery == Some(RecoveryKind::ChangeEnds) {
            let mut choices = choices.clone();
            for ((_, choices), last) in
                choices.iter_mut().zip(runs.iter().map(|runs| runs.last().copied().flatten()))
            {
                if let Some(last) = last {
                    nearest_first(track, choices, &last);
                }
            }
            &one_place(track, step, &choices, common)
        } else {
            usual.get_or_insert_with(|| one_place(track, step, choices, common))
        };
        match one_place {
            Ok(pairs) => runs.iter_mut().zip(pairs).for_each(|(runs, pair)| runs.push(Some(*pair))),
            Err(lane) => {
                let lane = *lane;
                if let Some(distance_m) = pairing::distance_m(track, step, lane)? {
                    return Err(PlanFault::NoPlaceLeft { lane, distance_m }.at_run(step));
                }
                runs.iter_mut().for_each(|runs| runs.push(None));
            }
        }
    }
    let mut chains = Vec::with_capacity(lanes.len());
    for ((&lane, pairs), mut recoveries_m) in lanes.iter().zip(runs).zip(recoveries_m) {
        for (pair, step) in pairs.iter().zip(steps) {
            if let Some(pair) = pair {
                pairing::check_lane(track, step, pair.start.course, lane)?;
            }
        }
        // Nothing follows the last.
        recoveries_m.push(None);
        chains.push(Chain { lane, pairs, recoveries_m });
    }
    Ok(chains)
}

/// A run in all lanes: those of one place, or the first lane that has none.
type OnePlace = Result<Vec<Pair>, LaneNumber>;

/// What was found for a run, which others of the block repeat.
struct Found {
    first: usize,
    choices: Vec<LanePairs>,
    /// Where it is laid, if it does not begin where another ended.
    usual: Option<OnePlace>,
}

fn one_place(track: &Track, step: &Step<'_>, choices: &[LanePairs], common: Common) -> OnePlace {
    // What the track alone places lies alike in all lanes, on marks or not.
    if pairing::is_placed_by_track(step) { own(choices) } else { together(track, step, choices, common) }
}

/// Puts those pairs in front that start nearest to where the last run ended: on paint at both ends where there are
/// such.
fn nearest_first(track: &Track, choices: &mut [Pair], last: &Pair) {
    let apart = |pair: &Pair| track.point(pair.start).distance(track.point(last.finish));
    choices.sort_by(|a, b| b.ends_on_paint().cmp(&a.ends_on_paint()).then(apart(a).total_cmp(&apart(b))));
}

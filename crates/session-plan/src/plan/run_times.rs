//! How long each run of a block lasts, and the recovery after it.

use lane_distance::{LaneNumber, Track};
use wave_plan::RunTimes;
use workout_notation::{Gap, RunKind, Step};

use crate::people::bests::TargetError;
use crate::people::session::Session;
use crate::plan::crew::Entrant;
use crate::plan::estimate;
use crate::plan::fault::Planned;
use crate::plan::pairing;

/// How long a run lasts, and the recovery after it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Timing {
    /// The target; for a range, the slower, which the plan waits for.
    pub(crate) target_s: Option<f64>,
    /// Of a range the faster.
    pub(crate) target_from_s: Option<f64>,
    /// Why there is no target, where the step asks for one.
    pub(crate) no_target: Option<TargetError>,
    /// What the step gives behind the run.
    pub(crate) gap: Option<Gap>,
    /// The times that the timetable reckons with.
    pub(crate) times: RunTimes,
}

impl Timing {
    /// Whether the rest after it, or the run itself, was estimated.
    pub(crate) const fn is_estimated(&self, is_last: bool) -> bool {
        self.target_s.is_none() || self.gap.is_none() && !is_last
    }

    /// The rest that the step asks for, in seconds.
    pub(crate) fn rest_s(&self) -> Option<f64> {
        match self.gap? {
            Gap::Rest(rest_s) => Some(rest_s),
            // Started again before the end, the runner has no rest at all.
            Gap::Cycle(off_s) => self.target_s.map(|target_s| (off_s - target_s).max(0.0)),
        }
    }
}

/// The times of each run of somebody.
///
/// # Errors
///
/// A [`PlanFault`](crate::PlanFault) where the distance of a run cannot be had in the lane.
pub(crate) fn timings(
    track: &Track,
    session: &Session,
    steps: &[Step<'_>],
    lane: LaneNumber,
    entrant: &Entrant<'_>,
) -> Planned<Vec<Timing>> {
    let mut timings: Vec<Timing> = Vec::with_capacity(steps.len());
    for (index, step) in steps.iter().enumerate() {
        // Most repetitions are the one before again.
        let alike = index.checked_sub(1).filter(|&before| {
            let before = &steps[before];
            before.run.kind == step.run.kind
                && (before.pace, before.gap, before.recovery, before.effort, before.from, before.to)
                    == (step.pace, step.gap, step.recovery, step.effort, step.from, step.to)
        });
        if let Some(before) = alike {
            timings.push(timings[before].clone());
            continue;
        }
        timings.push(timing(session, step, pairing::distance_m(track, step, lane)?, entrant));
    }
    Ok(timings)
}

fn timing(session: &Session, step: &Step<'_>, distance_m: Option<f64>, entrant: &Entrant<'_>) -> Timing {
    let mut found = (None, None);
    let mut no_target = None;
    if let RunKind::Timed { seconds } = step.run.kind.value {
        found.0 = Some(seconds);
    } else if let Some(distance_m) = distance_m {
        match step.pace.map(|pace| entrant.target(session, &pace.value, distance_m)) {
            Some(Ok((only_s, None))) => found.0 = Some(only_s),
            Some(Ok((from_s, Some(to_s)))) => found = (Some(to_s), Some(from_s)),
            Some(Err(why)) => no_target = Some(why),
            None => {}
        }
        found.0 = found.0.or(entrant.athlete.and_then(|athlete| athlete.target_s));
    }
    let (target_s, target_from_s) = found;
    let run_m = distance_m.unwrap_or(400.0);
    let lasts_s = target_s.unwrap_or_else(|| estimate::run_s(step, run_m, entrant.bests(session)));
    let rest_s = match step.gap {
        Some(Gap::Rest(rest_s)) => rest_s,
        Some(Gap::Cycle(off_s)) => (off_s - lasts_s).max(0.0),
        None => estimate::rest_s(step, run_m),
    };
    let times = RunTimes { target_s: lasts_s, rest_s };
    Timing { target_s, target_from_s, no_target, gap: step.gap, times }
}

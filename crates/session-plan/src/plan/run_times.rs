//! How long each run of a block lasts, and the recovery after it.

use std::ops::Range;

use lane_distance::{LaneNumber, Track};
use wave_plan::RunTimes;
use workout_notation::{Gap, Pace, RunKind, Step};

use crate::people::bests::TargetError;
use crate::people::fastest::{IMPOSSIBLE_M_PER_S, fastest_flying_s, fastest_s};
use crate::people::session::Session;
use crate::plan::crew::Entrant;
use crate::plan::estimate;
use crate::plan::fault::{PlanFault, Planned};
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
    /// The times that the timetable reckons with, from when the runner sets off: with the run-in.
    pub(crate) times: RunTimes,
    /// How much of them is the run-in of a flying run, in seconds.
    pub(crate) run_in_s: f64,
}

impl Timing {
    /// Whether the rest after it, or the run itself, was estimated.
    pub(crate) const fn is_estimated(&self, is_last: bool) -> bool {
        self.target_s.is_none() || self.gap.is_none() && !is_last
    }

    /// Gives it another rest, in seconds.
    pub(crate) const fn set_rest(&mut self, rest_s: f64) {
        self.gap = Some(Gap::Rest(rest_s));
        self.times.rest_s = rest_s;
    }

    /// Gives it another rest where the step gives none, in seconds.
    pub(crate) const fn set_about_rest(&mut self, rest_s: f64) {
        if self.gap.is_none() {
            self.times.rest_s = rest_s;
        }
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
/// A [`PlanFault`] where the distance of a run cannot be had in the lane; and, unless the session is forced, where a
/// target is faster than anybody has ever run, or a cycle shorter than its run.
pub(crate) fn timings(
    track: &Track,
    session: &Session,
    steps: &[Step<'_>],
    lane: LaneNumber,
    entrant: &Entrant<'_>,
) -> Planned<Vec<Timing>> {
    let mut timings: Vec<Timing> = Vec::with_capacity(steps.len());
    let are_alike = steps.iter().all(|step| step.run.kind == steps[0].run.kind);
    // Somebody may do only the first of them.
    let most =
        entrant.athlete.and_then(|athlete| athlete.reps).map_or(steps.len(), |reps| reps.max(1) as usize);
    for (index, step) in steps.iter().enumerate().take(most) {
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
        let distance_m = pairing::distance_m(track, step, lane)?;
        let own_s = distance_m.and_then(|distance_m| own_target_s(step, distance_m, are_alike, entrant));
        let timing = timing(session, step, distance_m, own_s, entrant);
        check_is_time(step, distance_m, &timing, entrant)?;
        if !session.force {
            check(step, distance_m, &timing, entrant)?;
        }
        timings.push(timing);
    }
    Ok(timings)
}

/// The target that an athlete has of their own: what the block writes goes before it, an easy effort as well.
fn own_target_s(step: &Step<'_>, distance_m: f64, are_alike: bool, entrant: &Entrant<'_>) -> Option<f64> {
    let athlete = entrant.athlete.filter(|_| estimate::slower(step) <= 1.0)?;
    let is_flat = matches!(step.run.kind.value, RunKind::Plain(_));
    let of_distance_s = is_flat.then(|| athlete.target_over(distance_m)).flatten();
    of_distance_s.or(athlete.target_s.filter(|_| are_alike))
}

/// Refuses a target that is too short to be a time at all, forced or not: no watch shows it.
fn check_is_time(
    step: &Step<'_>,
    distance_m: Option<f64>,
    timing: &Timing,
    entrant: &Entrant<'_>,
) -> Planned<()> {
    let target_s = timing.target_from_s.or(timing.target_s);
    match (distance_m, target_s) {
        (Some(distance_m), Some(target_s)) if distance_m / target_s > IMPOSSIBLE_M_PER_S => {
            let who = entrant.athlete.filter(|_| !is_written(step)).map(|athlete| athlete.name.clone());
            Err(PlanFault::NoTime { who, distance_m, target_s }.at(target_span(step)))
        }
        _ => Ok(()),
    }
}

/// Whether a block writes the time of its runs, which is everybody's then.
fn is_written(step: &Step<'_>) -> bool {
    matches!(step.pace.map(|pace| pace.value), Some(Pace::Time { .. } | Pace::Rate { .. }))
}

/// Where the target of a run is written, else the run.
fn target_span(step: &Step<'_>) -> Range<usize> {
    step.pace.map_or_else(|| step.run.kind.span.clone(), |pace| pace.span.clone())
}

/// Questions a target that nobody has ever run, and a cycle that is over before its run.
fn check(step: &Step<'_>, distance_m: Option<f64>, timing: &Timing, entrant: &Entrant<'_>) -> Planned<()> {
    let who = || entrant.athlete.filter(|_| !is_written(step)).map(|athlete| athlete.name.clone());
    let least_s = distance_m.map_or(0.0, |distance_m| match step.run.kind.value {
        RunKind::Flying { .. } | RunKind::Exchange { .. } => fastest_flying_s(distance_m),
        _ => fastest_s(distance_m),
    });
    if let Some(distance_m) = distance_m
        && let Some(target_s) =
            timing.target_from_s.or(timing.target_s).filter(|target_s| *target_s < least_s)
    {
        return Err(PlanFault::TooFast { who: who(), distance_m, target_s }.at(target_span(step)));
    }
    if let Some(Gap::Cycle(cycle_s)) = timing.gap {
        let is_target = timing.target_s.is_some();
        let lasts_s = timing.target_s.map_or(least_s, |_| timing.times.target_s);
        if cycle_s < lasts_s {
            let who = who().filter(|_| is_target);
            return Err(PlanFault::CycleTooShort { who, cycle_s, lasts_s, is_target }.at_gap(step));
        }
    }
    Ok(())
}

fn timing(
    session: &Session,
    step: &Step<'_>,
    distance_m: Option<f64>,
    own_s: Option<f64>,
    entrant: &Entrant<'_>,
) -> Timing {
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
        found.0 = found.0.or(own_s);
    }
    let (target_s, target_from_s) = found;
    let run_m = distance_m.unwrap_or(400.0);
    let run_s =
        target_s.unwrap_or_else(|| estimate::run_s(step, run_m, entrant.bests(session), entrant.age()));
    let run_in_s = estimate::run_in_s(step, run_s);
    let lasts_s = run_in_s + run_s;
    let rest_s = match step.gap {
        Some(Gap::Rest(rest_s)) => rest_s,
        Some(Gap::Cycle(off_s)) => (off_s - lasts_s).max(0.0),
        None => estimate::rest_s(step, run_m),
    };
    let times = RunTimes { target_s: lasts_s, rest_s };
    Timing { target_s, target_from_s, no_target, gap: step.gap, times, run_in_s }
}

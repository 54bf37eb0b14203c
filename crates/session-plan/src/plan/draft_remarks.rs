//! What there is to say of a draft.

use lane_distance::{Pair, Placement};
use workout_notation::{Pace, RunKind};

use crate::people::bests::TargetError;
use crate::plan::draft::{Draft, DraftLane, DraftRun};
use crate::plan::fault::Planned;
use crate::plan::hurdle_run;
use crate::plan::nominal;
use crate::plan::pairing::{self, Prefer};
use crate::plan::remark::Remark;
use crate::plan::run_times::Timing;

impl Draft<'_> {
    /// Where else the first run could go, in the first of some lanes: on paint at both ends where the finish line was wanted,
    /// or to the finish line where the fewest tapes were. Nothing for runs that name their ends.
    pub(crate) fn other_choice(&self, lanes: &[u8]) -> Planned<Option<Remark>> {
        let Some((place, prefer)) = self.other else { return Ok(None) };
        let (track, step) = (self.track.as_ref(), &self.steps[0]);
        let mut theirs = self.lanes.iter().filter(|lane| lanes.contains(&lane.lane.get()));
        let Some(DraftLane { lane, runs }) = theirs.next() else { return Ok(None) };
        let is_free = step.from.is_none() && step.to.is_none() && step.together.is_none();
        let Some(Some(DraftRun { pair, .. })) = runs.first().filter(|_| is_free) else { return Ok(None) };
        let on_finish_line = prefer == Prefer::FewestTapes;
        let other = pairing::pairs(track, step, place, *lane, Prefer::default())?.into_iter().find(|other| {
            if on_finish_line {
                pair.finish.to_finish_m != 0.0 && other.finish.to_finish_m == 0.0
            } else {
                pair.ends_on_paint() < 2 && other.ends_on_paint() == 2
            }
        });
        let run_in = |other: &Pair| pairing::run_in(track, other, nominal::run_in_m(step.run.kind.value)?);
        Ok(other.map(|other| {
            let placement = |spot, reading| Box::new(Placement::from_reading(track, spot, reading));
            Remark::OtherChoice {
                lane: *lane,
                distance_m: other.distance_m,
                on_finish_line,
                run_in: run_in(&other).map(|spot| placement(spot, track.read(spot))),
                start: placement(other.start, other.start_reading),
                finish: placement(other.finish, other.finish_reading),
            }
        }))
    }

    /// What there is to say of its hurdles, once for each race.
    pub(crate) fn hurdles(&self) -> Vec<Remark> {
        let mut found: Vec<Remark> = Vec::new();
        let Some(DraftLane { lane, .. }) = self.lanes.first() else { return found };
        for step in &self.steps {
            let RunKind::Hurdles { race_m, part } = step.run.kind.value else { continue };
            let of_another = hurdle_run::of_another_race(&self.track, *lane, race_m, part);
            let fewer = hurdle_run::fewer(&self.track, *lane, race_m, part);
            for remark in fewer.into_iter().chain(of_another) {
                if !found.contains(&remark) {
                    found.push(remark);
                }
            }
        }
        found
    }

    /// Each pace that gives no target, with those who have none.
    pub(crate) fn no_targets(&self, is_squad: bool) -> Vec<Remark> {
        let mut found: Vec<(NoTargets<'_>, Vec<String>)> = Vec::new();
        for (entrant, timings) in self.entrants.iter().zip(&self.timings) {
            for own in self.no_targets_of(timings) {
                let name = entrant.name().to_owned();
                match found.iter_mut().find(|(known, _)| known.is_alike(&own)) {
                    Some((_, names)) => names.push(name),
                    None => found.push((own, vec![name])),
                }
            }
        }
        let remark = |(NoTargets { pace, why, to_m, .. }, mut athletes): (NoTargets<'_>, Vec<String>)| {
            if !is_squad || athletes.len() == self.entrants.len() {
                athletes.clear();
            }
            Remark::NoTarget { pace: pace.to_string(), why: why.clone(), to_m, athletes }
        };
        found.into_iter().map(remark).collect()
    }

    /// Each pace that gives one entrant no target.
    fn no_targets_of<'b>(&'b self, timings: &'b [Timing]) -> Vec<NoTargets<'b>> {
        let mut found: Vec<NoTargets<'_>> = Vec::new();
        for (step, timing) in self.steps.iter().zip(timings) {
            // A target of the athlete's own serves as well.
            let (Some(pace), Some(why), None) = (step.pace, &timing.no_target, timing.target_s) else {
                continue;
            };
            let (from_m, to_m) = match *why {
                TargetError::NoBest { metres } => (None, metres),
                TargetError::OutsideRiegel { from_m, to_m, .. } => (Some(from_m), to_m),
            };
            match found.iter_mut().find(|known| *known.pace == pace.value && known.from_m == from_m) {
                Some(known) if known.to_m.contains(&to_m) => {}
                Some(known) => known.to_m.push(to_m),
                None => found.push(NoTargets { pace: &pace.value, why, from_m, to_m: vec![to_m] }),
            }
        }
        found
    }
}

/// A pace that gives somebody no target.
struct NoTargets<'a> {
    pace: &'a Pace,
    /// Why it gives none over the first distance.
    why: &'a TargetError,
    /// The distance of the best that cannot be carried over; nothing where there is no best.
    from_m: Option<f64>,
    to_m: Vec<f64>,
}

impl NoTargets<'_> {
    fn is_alike(&self, other: &Self) -> bool {
        self.pace == other.pace && self.from_m == other.from_m && self.to_m == other.to_m
    }
}

//! The run that the runners go on to along their lane.
//!
//! Runs are exact, recoveries bend: a jog or a walk goes on to a place that is there already where one is near
//! enough, so that it needs no cone of its own.

use lane_distance::{Course, LaneNumber, MarkId, Pair, Place, Spot, Track};
use workout_notation::{RecoveryKind, RunKind, Step, TrackPart};

use crate::plan::fault::Planned;
use crate::plan::nominal;
use crate::plan::pairing::{self, EXCHANGE_RUN_IN_M, Prefer};
use crate::plan::track_part;

/// How much shorter than asked a recovery may be, as a part of it.
const UNDER: f64 = 0.05;
/// How much longer than asked it may be, as a part of it.
const OVER: f64 = 0.25;
/// How much a short one may differ all the same, in metres.
const SLACK_M: f64 = 3.0;

/// The next run in a lane.
#[derive(Clone, Copy)]
pub(crate) struct Next {
    pub(crate) pair: Pair,
    /// How far it is from the last finish on to its start, in metres.
    pub(crate) on_m: f64,
}

/// What a recovery goes on to, the same in every lane; what is wanted most comes first.
#[derive(Clone, Copy, PartialEq)]
enum Goal {
    /// The start of an earlier run that is alike, by its place in the block.
    SameRun(usize),
    /// The start or the finish of another earlier run.
    Start(usize),
    Finish(usize),
    Paint(MarkId),
}

impl Goal {
    const fn rank(self) -> u8 {
        match self {
            Self::SameRun(_) => 0,
            Self::Start(_) | Self::Finish(_) => 1,
            Self::Paint(_) => 2,
        }
    }
}

/// The next run of each lane where the way to it fixes its start; nothing where it starts at paint, or a hazard forbids it. `runs` are the
/// runs before it in each of the lanes.
///
/// A recovery ends at the start of an earlier run that is alike, else at any place that an earlier run used, else at a
/// line across the lane: at the nearest to where it should end, from 5 % before it to 25 % past it, or 3 m where that
/// is more. Lanes further out than the first have as much more room as their laps are longer: `300 jog 100` is a lap in
/// lane 1, and is one in every lane. Where there is no such place, the recovery is exactly as long as asked.
///
/// # Errors
///
/// A [`PlanFault`](crate::PlanFault) where the distance of the run cannot be had in a lane.
pub(crate) fn next_runs(
    track: &Track,
    steps: &[Step<'_>],
    lanes: &[LaneNumber],
    runs: &[Vec<Option<Pair>>],
) -> Planned<Option<Vec<Next>>> {
    let index = runs.first().map_or(0, Vec::len);
    let Some(recovery) = index.checked_sub(1).and_then(|before| steps[before].recovery) else {
        return Ok(None);
    };
    let own = &steps[index];
    if matches!(own.run.kind.value, RunKind::Hurdles { .. } | RunKind::Exchange { .. }) {
        let goes_on = recovery.is_onward() && recovery != RecoveryKind::Stand;
        return if goes_on { at_its_paint(track, own, lanes, runs) } else { Ok(None) };
    }
    if let RecoveryKind::JogPart(part) | RecoveryKind::WalkPart(part) = recovery {
        return behind_part(track, own, part.other(), lanes, runs);
    }
    let Some(asked_m) = recovery.on_m() else { return Ok(None) };
    let mut ways = Vec::with_capacity(lanes.len());
    for (&lane, runs) in lanes.iter().zip(runs) {
        let finish = runs.last().copied().flatten().and_then(|last| {
            // A chute leads nowhere.
            track.layout().on_course(last.finish, Course::Oval)
        });
        let (Some(finish), Some(distance_m), Ok(lap_m)) =
            (finish, pairing::distance_m(track, &steps[index], lane)?, track.lap_m(lane))
        else {
            return Ok(None);
        };
        ways.push(Onward { track, steps, own, runs, finish, distance_m, lap_m, asked_m });
    }
    if matches!(recovery, RecoveryKind::Jog(_) | RecoveryKind::Walk(_))
        && let Some(bent) = bent(&ways)
    {
        return Ok(Some(bent));
    }
    Ok(ways.iter().map(Onward::exactly).collect())
}

/// The next run over hurdles or through a takeover zone, which lie where they lie; nothing where the runners cannot go on to
/// it along their lane.
fn at_its_paint(
    track: &Track,
    step: &Step<'_>,
    lanes: &[LaneNumber],
    runs: &[Vec<Option<Pair>>],
) -> Planned<Option<Vec<Next>>> {
    let mut all = Vec::with_capacity(lanes.len());
    for (&lane, runs) in lanes.iter().zip(runs) {
        let on_oval = |spot: Spot| track.layout().on_course(spot, Course::Oval);
        let finish = runs.last().copied().flatten().and_then(|last| on_oval(last.finish));
        let pairs = pairing::pairs(track, step, Place::Anywhere, lane, Prefer::default())?;
        let Some(&pair) = pairs.first() else { return Ok(None) };
        let run_in_m =
            if matches!(step.run.kind.value, RunKind::Exchange { .. }) { EXCHANGE_RUN_IN_M } else { 0.0 };
        let stand = pairing::whole_way(track, &pair, run_in_m).start;
        let (Some(finish), Some(stand), Ok(lap_m)) = (finish, on_oval(stand), track.lap_m(lane)) else {
            return Ok(None);
        };
        all.push(Next { pair, on_m: (finish.to_finish_m - stand.to_finish_m).rem_euclid(lap_m) });
    }
    Ok(Some(all))
}

/// The next run where the runners go on to the next straight or the next bend; nothing where the track has none.
fn behind_part(
    track: &Track,
    step: &Step<'_>,
    part: TrackPart,
    lanes: &[LaneNumber],
    runs: &[Vec<Option<Pair>>],
) -> Planned<Option<Vec<Next>>> {
    let mut all = Vec::with_capacity(lanes.len());
    for (&lane, runs) in lanes.iter().zip(runs) {
        let last = runs.last().copied().flatten();
        let finish = last.and_then(|last| track.layout().on_course(last.finish, Course::Oval));
        let parts = pairing::track_runs(track, step, part, Place::Anywhere, lane)?;
        let next = finish.and_then(|finish| track_part::next(track, &parts, lane, finish.to_finish_m));
        let Some((over_part, on_m)) = next else { return Ok(None) };
        let pair = if step.run.kind.value == RunKind::Part(part) {
            Some(over_part)
        } else {
            let start = track.layout().on_course(over_part.start, Course::Oval);
            let distance_m = pairing::distance_m(track, step, lane)?;
            start.zip(distance_m).and_then(|(start, distance_m)| run_from(track, step, start, distance_m))
        };
        let Some(pair) = pair else { return Ok(None) };
        all.push(Next { pair, on_m });
    }
    Ok(Some(all))
}

/// The run of one who stands at a spot of the oval: a flying one begins after its run-in.
fn run_from(track: &Track, step: &Step<'_>, stand: Spot, distance_m: f64) -> Option<Pair> {
    let run_in_m = nominal::run_in_m(step.run.kind.value).filter(|run_in_m| *run_in_m > 0.0);
    let start = match run_in_m {
        Some(run_in_m) => pairing::on_from(track, stand, run_in_m)?.finish,
        None => stand,
    };
    pairing::on_from(track, start, distance_m)
}

/// The way on from the last run of a lane.
struct Onward<'a> {
    track: &'a Track,
    steps: &'a [Step<'a>],
    /// What the next run is.
    own: &'a Step<'a>,
    /// The runs before.
    runs: &'a [Option<Pair>],
    /// Where the last of them finished, on the oval.
    finish: Spot,
    /// How far the next run is, in metres.
    distance_m: f64,
    lap_m: f64,
    /// How long the recovery should be, in metres.
    asked_m: f64,
}

/// The best goal that all lanes can go on to, else the best of each; nothing where a lane has none.
fn bent(ways: &[Onward<'_>]) -> Option<Vec<Next>> {
    let goals: Vec<Vec<(Goal, Next)>> = ways.iter().map(Onward::goals).collect();
    let off_m = |(way, (_, next)): (&Onward<'_>, &(Goal, Next))| (next.on_m - way.asked_m).abs();
    let of_all = goals.first()?.iter().filter_map(|(goal, _)| {
        let same = |goals: &Vec<(Goal, Next)>| goals.iter().find(|(other, _)| other == goal).copied();
        let chosen = goals.iter().map(same).collect::<Option<Vec<_>>>()?;
        let worst_m = ways.iter().zip(&chosen).map(off_m).fold(0.0, f64::max);
        Some(((goal.rank(), worst_m), chosen))
    });
    let best = |a: (u8, f64), b: (u8, f64)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1));
    if let Some((_, chosen)) = of_all.min_by(|(a, _), (b, _)| best(*a, *b)) {
        return Some(chosen.into_iter().map(|(_, next)| next).collect());
    }
    let own = |(way, goals): (&Onward<'_>, &Vec<(Goal, Next)>)| {
        let score = |found: &(Goal, Next)| (found.0.rank(), off_m((way, found)));
        goals.iter().min_by(|a, b| best(score(a), score(b))).map(|(_, next)| *next)
    };
    ways.iter().zip(&goals).map(own).collect()
}

impl Onward<'_> {
    /// The run after a recovery of exactly the distance asked for; nothing where a hazard forbids it.
    fn exactly(&self) -> Option<Next> {
        let start = if self.asked_m > 0.0 {
            pairing::on_from(self.track, self.finish, self.asked_m)?.finish
        } else {
            self.finish
        };
        let pair = run_from(self.track, self.own, start, self.distance_m)?;
        pairing::is_free(self.track, self.own, &pair).then_some(Next { pair, on_m: self.asked_m })
    }

    /// Where the runners of an earlier run stood before it.
    fn stand(&self, step: &Step<'_>, pair: &Pair) -> Spot {
        let run_in_m = nominal::run_in_m(step.run.kind.value);
        run_in_m.and_then(|run_in_m| pairing::run_in(self.track, pair, run_in_m)).unwrap_or(pair.start)
    }

    /// How much longer than in the innermost lane a lap is, in metres: distances are written for that lane.
    fn longer_lap_m(&self) -> f64 {
        self.track.lap_m(LaneNumber::FIRST).map_or(0.0, |shortest_m| self.lap_m - shortest_m)
    }

    /// Every place that is there already and near enough.
    fn goals(&self) -> Vec<(Goal, Next)> {
        let more_m = self.longer_lap_m();
        let mut goals: Vec<(Goal, Next)> = Vec::new();
        let mut add = |found: Option<(Goal, Next)>| {
            // Runs that are alike come to few places.
            let Some(found) = found.filter(|(_, next)| pairing::is_free(self.track, self.own, &next.pair))
            else {
                return;
            };
            if goals.iter().all(|(_, known)| known.pair.start != found.1.pair.start) {
                goals.push(found);
            }
        };
        for (index, pair) in self.runs.iter().enumerate() {
            let Some(pair) = pair else { continue };
            let (step, own) = (&self.steps[index], self.own);
            let stand = self.stand(step, pair);
            if step.run.kind == own.run.kind && (step.from, step.to) == (own.from, own.to) {
                let on_m = self.near_m(stand, more_m);
                add(on_m.map(|on_m| (Goal::SameRun(index), Next { pair: *pair, on_m })));
            } else {
                add(self.goal(Goal::Start(index), stand, more_m));
            }
            add(self.goal(Goal::Finish(index), pair.finish, more_m));
        }
        let lane = self.finish.lane;
        for painted in self.track.start_lines(Course::Oval, lane) {
            let spot = Spot::on_oval(lane, painted.to_finish_m);
            add(self.goal(Goal::Paint(painted.mark), spot, more_m));
        }
        goals
    }

    fn goal(&self, goal: Goal, spot: Spot, more_m: f64) -> Option<(Goal, Next)> {
        let on_m = self.near_m(spot, more_m)?;
        let stand = self.track.layout().on_course(spot, Course::Oval)?;
        Some((goal, Next { pair: run_from(self.track, self.own, stand, self.distance_m)?, on_m }))
    }

    /// How far it is on to a spot, in metres, where that is near what is asked for.
    fn near_m(&self, spot: Spot, more_m: f64) -> Option<f64> {
        let spot = self.track.layout().on_course(spot, Course::Oval)?;
        let once_m = (self.finish.to_finish_m - spot.to_finish_m).rem_euclid(self.lap_m);
        let laps = ((self.asked_m - once_m) / self.lap_m).round().max(0.0);
        let on_m = once_m + laps * self.lap_m;
        let least_m = self.asked_m - (self.asked_m * UNDER).max(SLACK_M);
        let most_m = self.asked_m + (self.asked_m * OVER).max(SLACK_M) + more_m;
        // Half as far is another recovery.
        (least_m.max(self.asked_m / 2.0)..=most_m).contains(&on_m).then_some(on_m)
    }
}

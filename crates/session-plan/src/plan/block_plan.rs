//! One block laid out on a track.

use lane_distance::{Course, Pair, Place, Placement, Track};

use crate::people::bests::Bests;
use crate::people::session::{Group, Session};
use crate::people::venue::Venue;
use crate::plan::caution;
use crate::plan::chain;
use crate::plan::clock::{Clock, Timing};
use crate::plan::nominal::{self, Nominal};
use crate::plan::pairing;
use crate::plan::plan::{PlanBlock, Rep};
use crate::plan::split::splits;
use crate::plan::squad_block::sound_s;
use crate::plan::stride::with_strides;
use crate::plan::wherein::{Wherein, wherein};
use workout_notation::Problem;
use workout_notation::{Block, Body, RecoveryKind, RunKind, RunLength, Step};

/// Whose block it is.
pub(crate) struct Who<'a> {
    pub(crate) session: &'a Session,
    pub(crate) group: Option<&'a Group>,
}

impl Who<'_> {
    fn name(&self) -> Option<String> {
        self.group.map(|group| group.name.clone())
    }

    fn athletes(&self) -> Vec<String> {
        self.group.map_or_else(Vec::new, |group| {
            group.athletes.iter().map(|athlete| athlete.name.clone()).collect()
        })
    }

    /// The bests that targets are taken from.
    fn bests(&self) -> &Bests {
        match self.group {
            Some(group) if !group.bests.is_empty() => &group.bests,
            _ => &self.session.bests,
        }
    }
}

/// Lays a block out, and moves the clock on.
pub(crate) fn plan_block(
    venue: &Venue,
    track: &Track,
    block: &Block,
    who: &Who<'_>,
    clock: &mut Clock,
    warnings: &mut Vec<String>,
) -> Result<PlanBlock, Problem> {
    let mut planned = PlanBlock {
        text: block.text.clone(),
        group: who.name(),
        reps: Vec::new(),
        timed_s: Vec::new(),
        note: None,
        lasts_s: None,
        coach: None,
        remarks: Vec::new(),
    };
    let steps = block.steps();
    if let Body::Note { words, lasts_s } = &block.body {
        planned.note = Some(words.clone());
        planned.lasts_s = *lasts_s;
        clock.note(*lasts_s);
        return Ok(planned);
    }
    let Some(first) = steps.first() else { return Ok(planned) };
    let wherein = lanes_of(venue, track, block, first, who, warnings)?;
    let timings = timings(track, &steps, &wherein, who, &mut planned.remarks)?;
    let clocked = clock.run(&timings);
    let gaps_s: Vec<Option<f64>> = clocked.iter().map(|clocked| clocked.rest_s).collect();
    let together = first.together.is_some();
    let inside = wherein.lanes.iter().copied().min().unwrap_or(1);
    let mut chains = Vec::new();
    for &lane in &wherein.lanes {
        let chain = chain::chain(
            track,
            &steps,
            &wherein,
            if together { inside } else { lane },
            who.session.prefer,
            &gaps_s,
        )?;
        for line in &chain.said {
            if !planned.remarks.contains(line) {
                planned.remarks.push(line.clone());
            }
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
            let mut made_rep = match alike {
                Some(alike) => planned.reps[alike].clone(),
                None => rep(track, step, &pair, index, timing, clocked, who),
            };
            if alike.is_some() {
                again(&mut made_rep, step, index, timing, clocked);
            } else {
                // A group that starts together runs in the inside lane soon enough.
                let on_bends = track.bend_share(inside.start, inside.distance_m, inside.against);
                (made_rep.bend_m, made_rep.bends) = (on_bends.metres, on_bends.bends);
            }
            made.push((pair, index, timing.target_s));
            planned.reps.push(made_rep);
        }
    }
    if planned.reps.is_empty() {
        planned.note = Some(block.text.trim().to_owned());
        planned.lasts_s = timings.iter().map(|timing| timing.target_s).sum();
    }
    Ok(planned)
}

/// Where a block is run; a group's own lanes stand in for those that it does not name.
fn lanes_of(
    venue: &Venue,
    track: &Track,
    block: &Block,
    first: &Step<'_>,
    who: &Who<'_>,
    warnings: &mut Vec<String>,
) -> Result<Wherein, Problem> {
    let metres = match first.run.kind.value {
        RunKind::Plain(RunLength::Metres(metres)) | RunKind::Flying { metres, .. } => Some(metres),
        RunKind::Hurdles { race_m, .. } => Some(race_m),
        _ => None,
    };
    let mut found = wherein(track, &venue.rules, block.text.trim(), first, metres)?;
    let group_lanes = who.group.and_then(|group| group.lanes.clone()).filter(|_| first.lanes.is_none());
    match group_lanes {
        Some(lanes) => found.lanes = lanes,
        // A run by time is not laid out, and needs no lane.
        None if matches!(first.run.kind.value, RunKind::Timed { .. }) => {}
        None => {
            for line in found.said.drain(..) {
                if !warnings.contains(&line) {
                    warnings.push(line);
                }
            }
        }
    }
    Ok(found)
}

/// Targets and gaps of each run. A target that cannot be had is said, and left out.
fn timings(
    track: &Track,
    steps: &[Step<'_>],
    wherein: &Wherein,
    who: &Who<'_>,
    remarks: &mut Vec<String>,
) -> Result<Vec<Timing>, Problem> {
    let lane = wherein.lanes.first().copied().unwrap_or(1);
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
                Err(error) => {
                    let line = format!(
                        "No target for `@ {}`: {error}; give `bests` in the session file.",
                        pace.value
                    );
                    if !remarks.contains(&line) {
                        remarks.push(line);
                    }
                }
            }
        }
        timings.push(timing);
    }
    Ok(timings)
}

fn rep(
    track: &Track,
    step: &Step<'_>,
    pair: &Pair,
    index: usize,
    timing: &Timing,
    clocked: &crate::plan::clock::Clocked,
    who: &Who<'_>,
) -> Rep {
    let stride_m = who.session.stride_m;
    let told = |placement: Placement| with_strides(placement, stride_m);
    let kind = step.run.kind.value;
    let run_in = match kind {
        RunKind::Flying { run_in_m, .. } => pairing::run_in(track, pair, run_in_m),
        _ => None,
    };
    let start = told(Placement::from_reading(track, pair.start, pair.start_reading));
    let finish = told(Placement::from_reading(track, pair.finish, pair.finish_reading));
    let on_bends = track.bend_share(pair.start, pair.distance_m, pair.against);
    Rep {
        sound_s: sound_s(&start, &finish),
        rep: index as u32 + 1,
        set: step.set,
        group: who.name(),
        athletes: who.athletes(),
        wave: 1,
        lane: pair.start.lane,
        course: pair.start.course,
        distance_m: pair.distance_m,
        nominal: Nominal::of(track, kind, pair.start.lane, pair.distance_m),
        bend_m: on_bends.metres,
        bends: on_bends.bends,
        start,
        finish,
        run_in: run_in.map(|spot| told(Placement::of(track, spot))),
        run_in_m: nominal::run_in_m(kind),
        target_s: timing.target_s,
        target_from_s: timing.target_from_s,
        effort: step.effort.map(|effort| effort.value.clone()),
        go_s: clocked.go_s,
        done_s: clocked.done_s,
        rest_s: clocked.rest_s,
        recovery_m: recovery_m(step),
        the_other_way: pair.against,
        plus_minus_m: track.uncertainty_m(pair),
        splits: timing.target_s.map_or_else(Vec::new, |target_s| splits(track, pair, kind, target_s)),
        cautions: caution::of_run(track, pair),
    }
}

/// Makes a repetition that is another one again into the one of its own step: another number, another
/// time.
fn again(
    rep: &mut Rep,
    step: &Step<'_>,
    index: usize,
    timing: &Timing,
    clocked: &crate::plan::clock::Clocked,
) {
    rep.rep = index as u32 + 1;
    rep.set = step.set;
    rep.target_from_s = timing.target_from_s;
    rep.effort = step.effort.map(|effort| effort.value.clone());
    rep.go_s = clocked.go_s;
    rep.done_s = clocked.done_s;
    rep.rest_s = clocked.rest_s;
    rep.recovery_m = recovery_m(step);
}

/// How far the runners jog or walk on after a run, in metres.
const fn recovery_m(step: &Step<'_>) -> Option<f64> {
    match step.recovery {
        Some(RecoveryKind::Jog(metres) | RecoveryKind::Walk(metres)) => Some(metres),
        _ => None,
    }
}

/// One repetition of a squad, still without its athletes and times.
pub(crate) fn run_rep(
    track: &Track,
    step: &Step<'_>,
    pair: &Pair,
    index: usize,
    target_s: Option<f64>,
    session: &Session,
) -> Rep {
    let timing = Timing { target_s, target_from_s: None, gap: step.gap };
    let clocked = crate::plan::clock::Clocked { go_s: None, done_s: None, rest_s: None };
    rep(track, step, pair, index, &timing, &clocked, &Who { session, group: None })
}

/// The run of a lane further out in a group that starts together: on the curved line, and then in
/// the inside lane.
///
/// # Errors
///
/// A [`Problem`] where the lane is missing or closed.
fn group_start(track: &Track, step: &Step<'_>, inside: &Pair, lane: u8) -> Result<Pair, Problem> {
    if lane == inside.start.lane {
        return Ok(*inside);
    }
    pairing::check_lane(track, step, inside.start.course, lane)?;
    let curved = || track.layout().curved_start(inside.start.lane, inside.start.to_finish_m, lane);
    let start = match inside.start.course {
        Course::Oval => curved().unwrap_or_else(|| track.layout().abreast(inside.start, lane)),
        // On a straight the line is square across.
        _ => lane_distance::Spot { lane, ..inside.start },
    };
    Ok(Pair { start, start_reading: track.read(start), ..*inside })
}

/// The pairs of start and finish worth having for the first run of a block, best first: in the lane
/// that it names, else in the one that the house rules or the track give.
///
/// # Errors
///
/// A [`Problem`] with its place in the block's text, where the distance does not fit, the lane is
/// missing or closed, the block names several lanes, or it is not a run.
pub fn pairs(venue: &Venue, block: &Block) -> Result<Vec<Pair>, Problem> {
    let track = venue.track();
    let steps = block.steps();
    let Some(first) = steps.first() else {
        return Err(Problem::new(0..block.text.len(), "this is not a run")
            .with_help("write for example `150 in lane 2`"));
    };
    let session = Session::of_blocks("", Vec::new());
    let who = Who { session: &session, group: None };
    let found = lanes_of(venue, track, block, first, &who, &mut Vec::new())?;
    match found.lanes.as_slice() {
        [lane] => {
            let place: Place = found.place;
            let pairs = pairing::pairs(track, first, place, *lane, session.prefer)?;
            if pairs.is_empty() && matches!(first.run.kind.value, RunKind::Timed { .. }) {
                let span = first.run.kind.span.clone();
                return Err(Problem::new(span, "a run by time has no finish").with_help("write a distance"));
            }
            if let Some(pair) = pairs.first() {
                pairing::check_lane(track, first, pair.start.course, *lane)?;
            }
            Ok(pairs)
        }
        _ => Err(Problem::new(pairing::lane_span(first), "spots are looked for in one lane")
            .with_help("name one lane")),
    }
}

//! Where one run starts and finishes.

use lane_distance::{Course, LaneError, LaneNumber, Pair, Place, SearchError, Spot, Track};

use crate::plan::fault::{PlanFault, Planned};
use crate::plan::hurdle_run;
use crate::plan::nominal;
use crate::plan::track_part;
use workout_notation::{RunKind, RunLength, Spanned, Step, TrackPart};

/// Which pairs are wanted most.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Deserialize, schemars::JsonSchema)]
pub enum Prefer {
    /// The fewest tapes: both ends on paint before all.
    #[default]
    #[serde(rename = "fewest tapes")]
    FewestTapes,
    /// The finish on the finish line before all.
    #[serde(rename = "finish on the line")]
    FinishLine,
    /// Start and finish close together before all.
    #[serde(rename = "ends close together")]
    EndsClose,
}

/// How far a run is in a lane, in metres; nothing where only its time is known.
pub(crate) fn distance_m(track: &Track, step: &Step<'_>, lane: LaneNumber) -> Planned<Option<f64>> {
    if let Some((start, finish)) = fixed_ends(track, step, lane)? {
        return way_m(track, start, finish, step).map(Some);
    }
    Ok(match step.run.kind.value {
        RunKind::Plain(RunLength::Laps(laps)) | RunKind::InAndOut { length: RunLength::Laps(laps), .. } => {
            Some(laps * lap_m(track, step, lane)?)
        }
        RunKind::Plain(RunLength::Metres(metres))
        | RunKind::InAndOut { length: RunLength::Metres(metres), .. }
        | RunKind::Flying { metres, .. } => Some(metres),
        RunKind::Part(part) => {
            track_runs(track, step, part, Place::Anywhere, lane)?.first().map(|run| run.distance_m)
        }
        RunKind::Hurdles { .. } | RunKind::Exchange { .. } | RunKind::Timed { .. } => None,
    })
}

/// The runs over the straights or the bends that a place holds.
pub(crate) fn track_runs(
    track: &Track,
    step: &Step<'_>,
    part: TrackPart,
    place: Place,
    lane: LaneNumber,
) -> Planned<Vec<Pair>> {
    track_part::runs(track, part, place, lane).map_err(|error| PlanFault::Lane(error).at_lanes(step))
}

fn lap_m(track: &Track, step: &Step<'_>, lane: LaneNumber) -> Planned<f64> {
    track.lap_m(lane).map_err(|error| PlanFault::Lane(error).at_lanes(step))
}

/// The pairs of start and finish for a run in a lane, best first.
pub(crate) fn pairs(
    track: &Track,
    step: &Step<'_>,
    place: Place,
    lane: LaneNumber,
    prefer: Prefer,
) -> Planned<Vec<Pair>> {
    if let RunKind::Part(part) = step.run.kind.value {
        return track_runs(track, step, part, place, lane);
    }
    let Some(distance_m) = distance_m(track, step, lane)? else { return Ok(Vec::new()) };
    if let Some((start, finish)) = fixed_ends(track, step, lane)? {
        return unless_forbidden(track, step, pair(track, start, finish, distance_m)).map(|pair| vec![pair]);
    }
    let named = |words: Option<&Spanned<String>>| match words {
        Some(words) => {
            let found = track.landmark(words, lane).map(Some);
            found.map_err(|error| PlanFault::Landmark(error).at(words.span.clone()))
        }
        None => Ok(None),
    };
    let mut pairs = match (named(step.from)?, named(step.to)?) {
        (None, None) => {
            let found = track.search_at(place, lane, distance_m);
            found.map_err(|error| search_fault(error, step))?
        }
        (Some(start), None) => vec![unless_forbidden(track, step, from(track, step, start, distance_m)?)?],
        (None, Some(finish)) => vec![unless_forbidden(track, step, to(track, step, finish, distance_m)?)?],
        (Some(start), Some(finish)) => {
            vec![unless_forbidden(track, step, between(track, step, start, finish, distance_m)?)?]
        }
    };
    if let RunKind::Flying { run_in_m, .. } = step.run.kind.value {
        let had_place = !pairs.is_empty();
        pairs.retain(|pair| run_in(track, pair, run_in_m).is_some());
        if had_place && pairs.is_empty() {
            return Err(PlanFault::NoRoomForRunIn { distance_m, run_in_m }.at_run(step));
        }
        pairs.retain(|pair| is_free(track, step, pair));
    }
    match prefer {
        Prefer::FewestTapes => {}
        Prefer::FinishLine => pairs.sort_by_key(|pair| pair.finish.to_finish_m != 0.0),
        Prefer::EndsClose => {
            let apart = |pair: &Pair| track.point(pair.start).distance(track.point(pair.finish));
            pairs.sort_by(|a, b| apart(a).total_cmp(&apart(b)));
        }
    }
    Ok(pairs)
}

/// A run on the oval that starts at a mark or finishes there, where the track lets it.
pub(crate) fn at_mark(
    track: &Track,
    step: &Step<'_>,
    mark: &str,
    lane: LaneNumber,
    is_start: bool,
) -> Option<Pair> {
    let distance_m = distance_m(track, step, lane).ok().flatten()?;
    let spot = track.layout().on_course(track.landmark(mark, lane).ok()?, Course::Oval)?;
    let laid = if is_start { from } else { to };
    laid(track, step, spot, distance_m).ok().filter(|pair| is_free(track, step, pair))
}

/// Whether a run has room for its run-in and no hazard forbids it.
pub(crate) fn is_free(track: &Track, step: &Step<'_>, pair: &Pair) -> bool {
    let run_in_m = nominal::run_in_m(step.run.kind.value).unwrap_or(0.0);
    run_in(track, pair, run_in_m).is_some() && track.obstacle(&whole_way(track, pair, run_in_m)).is_none()
}

/// A run whose place is given, unless a hazard forbids it; an exchange with its run-in.
fn unless_forbidden(track: &Track, step: &Step<'_>, pair: Pair) -> Planned<Pair> {
    let way = match step.run.kind.value {
        RunKind::Exchange { .. } => whole_way(track, &pair, EXCHANGE_RUN_IN_M),
        _ => pair,
    };
    // The outgoing runner waits at the start.
    match track.obstacle(&way).or_else(|| track.obstacle(&pair)) {
        None => Ok(pair),
        Some(hazard) => {
            let (lane, hazard) = (pair.start.lane, hazard.kind);
            Err(PlanFault::HazardThere { lane, distance_m: pair.distance_m, hazard }.at_run(step))
        }
    }
}

/// How far before the place where the outgoing runner of an exchange stands the incoming one starts, in metres: enough to
/// be near top speed at the zone. Common practice, no source.
pub(crate) const EXCHANGE_RUN_IN_M: f64 = 40.0;

/// Where the run-in of a flying run begins; `None` without room for it.
pub(crate) fn run_in(track: &Track, pair: &Pair, run_in_m: f64) -> Option<Spot> {
    let start = pair.start;
    let sign = if pair.against { -1.0 } else { 1.0 };
    let to_finish_m = start.to_finish_m + sign * run_in_m;
    match track.layout().straight(start.course) {
        None => Some(Spot { to_finish_m: to_finish_m.rem_euclid(track.lap_m(start.lane).ok()?), ..start }),
        Some(ground) => {
            (0.0..=ground.length_m()).contains(&to_finish_m).then_some(Spot { to_finish_m, ..start })
        }
    }
}

/// A run with its run-in: from where its runner sets off.
pub(crate) fn whole_way(track: &Track, of: &Pair, run_in_m: f64) -> Pair {
    match run_in(track, of, run_in_m).filter(|_| run_in_m > 0.0) {
        Some(begins) => pair(track, begins, of.finish, run_in_m + of.distance_m),
        None => *of,
    }
}

/// A pair of two spots that are `distance_m` apart.
pub(crate) fn pair(track: &Track, start: Spot, finish: Spot, distance_m: f64) -> Pair {
    Pair {
        start,
        finish,
        distance_m,
        against: start.course != Course::Oval
            && start.course == finish.course
            && finish.to_finish_m > start.to_finish_m,
        start_reading: track.read(start),
        finish_reading: track.read(finish),
    }
}

/// The run of a distance from a spot on the oval.
pub(crate) fn on_from(track: &Track, start: Spot, distance_m: f64) -> Option<Pair> {
    let lap_m = track.lap_m(start.lane).ok()?;
    let to_finish_m = (start.to_finish_m - distance_m).rem_euclid(lap_m);
    let to_finish_m = if lap_m - to_finish_m < 1e-9 { 0.0 } else { to_finish_m };
    Some(pair(track, start, Spot { to_finish_m, ..start }, distance_m))
}

/// A run whose start and finish are named.
fn between(track: &Track, step: &Step<'_>, start: Spot, finish: Spot, distance_m: f64) -> Planned<Pair> {
    let lane = start.lane;
    let once_m = way_m(track, start, finish, step)?;
    let lap_m = track.lap_m(lane).unwrap_or(f64::INFINITY);
    let laps = ((distance_m - once_m) / lap_m).round().max(0.0);
    let real_m = once_m + laps * lap_m;
    if (real_m - distance_m).abs() > lane_distance::ON_PAINT_M {
        let span = step.to.map_or_else(|| step.run.kind.span.clone(), |to| to.span.clone());
        return Err(PlanFault::OtherDistance { lane, distance_m, real_m }.at(span));
    }
    Ok(pair(track, start, finish, distance_m))
}

/// A run whose start is named.
fn from(track: &Track, step: &Step<'_>, start: Spot, distance_m: f64) -> Planned<Pair> {
    let layout = track.layout();
    let leaves = || leaves_straight(track, step, start, distance_m);
    if let Some(start) = layout.on_course(start, Course::Oval) {
        return on_from(track, start, distance_m).ok_or_else(leaves);
    }
    // From a chute the run stays on its straight, or goes on along the oval.
    let to_finish_m = start.to_finish_m - distance_m;
    if to_finish_m >= 0.0 {
        return Ok(pair(track, start, Spot { to_finish_m, ..start }, distance_m));
    }
    let end = layout.on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval);
    let on = end.and_then(|end| on_from(track, end, -to_finish_m));
    Ok(pair(track, start, on.ok_or_else(leaves)?.finish, distance_m))
}

/// A run whose finish is named.
fn to(track: &Track, step: &Step<'_>, finish: Spot, distance_m: f64) -> Planned<Pair> {
    let layout = track.layout();
    // A short run to a line of the home straight may begin in its chute.
    let home = layout.on_course(finish, Course::HomeStraight);
    let room = layout.straight(Course::HomeStraight).map_or(0.0, |ground| ground.length_m());
    if let Some(home) = home.filter(|home| home.to_finish_m + distance_m <= room) {
        let start = Spot { to_finish_m: home.to_finish_m + distance_m, ..home };
        return Ok(pair(track, start, home, distance_m));
    }
    let on_oval = layout.on_course(finish, Course::Oval);
    let finish = on_oval.ok_or_else(|| leaves_straight(track, step, finish, distance_m))?;
    let lap_m = lap_m(track, step, finish.lane)?;
    let start = Spot { to_finish_m: (finish.to_finish_m + distance_m).rem_euclid(lap_m), ..finish };
    Ok(pair(track, start, finish, distance_m))
}

fn leaves_straight(track: &Track, step: &Step<'_>, spot: Spot, distance_m: f64) -> Spanned<PlanFault> {
    let length_m = track.layout().straight(spot.course).map_or(0.0, |ground| ground.length_m());
    PlanFault::LeavesStraight { distance_m, course: spot.course, length_m }.at_run(step)
}

/// Whether the track alone places a run: over hurdles, through a takeover zone, from end to end of a straight or a bend.
pub(crate) const fn is_placed_by_track(step: &Step<'_>) -> bool {
    matches!(step.run.kind.value, RunKind::Hurdles { .. } | RunKind::Exchange { .. } | RunKind::Part(_))
}

/// Start and finish of a run that paint alone places: over hurdles, or through a takeover zone; nothing for
/// every other run.
fn fixed_ends(track: &Track, step: &Step<'_>, lane: LaneNumber) -> Planned<Option<(Spot, Spot)>> {
    let place = |name: &str| {
        track.lane_number(lane.get()).map_err(|error| PlanFault::Lane(error).at_lanes(step))?;
        track.landmark(name, lane).map_err(|error| PlanFault::NoPaint(error).at_run(step))
    };
    Ok(match step.run.kind.value {
        RunKind::Hurdles { race_m, part } => {
            track.lane_number(lane.get()).map_err(|error| PlanFault::Lane(error).at_lanes(step))?;
            let ends = hurdle_run::ends(track, lane, race_m, part);
            Some(ends.map_err(|error| PlanFault::NoPaint(error).at_run(step))?)
        }
        RunKind::Exchange { zone } => {
            let nth = NTH[usize::from(zone.clamp(1, 3)) - 1];
            let exit = format!("{nth} 4x100 m takeover zone exit");
            match (place(&entry(zone)), former_entry(track, lane, zone)) {
                (Ok(entry), _) => Some((entry, place(&exit)?)),
                // The outgoing runner stands before a zone of former rules.
                (Err(_), Some(entry)) => {
                    let lap_m = lap_m(track, step, lane)?;
                    let along =
                        |metres: f64| Spot::on_oval(lane, (entry.to_finish_m + metres).rem_euclid(lap_m));
                    let exit = place(&exit).unwrap_or_else(|_| along(-FORMER_ZONE_M));
                    Some((along(BEFORE_FORMER_ZONE_M), exit))
                }
                (Err(fault), None) => return Err(fault),
            }
        }
        _ => None,
    })
}

/// The takeover zones of the 4x100 m, as marks are named.
const NTH: [&str; 3] = ["first", "second", "third"];

/// How long the takeover zones of former rules are, in metres: from memory.
const FORMER_ZONE_M: f64 = 20.0;

/// How far before those the outgoing runner may stand, in metres: from memory.
const BEFORE_FORMER_ZONE_M: f64 = 10.0;

/// How long a takeover zone is, and where the outgoing runner stands.
#[derive(Clone, Copy)]
pub(crate) struct Zone {
    pub(crate) zone_m: f64,
    pub(crate) before_zone_m: f64,
}

/// A takeover zone as it is painted in a lane: the one of 30 m, or that of former rules where a track has no other.
pub(crate) fn zone(track: &Track, lane: LaneNumber, zone: u8) -> Zone {
    match (track.landmark(&entry(zone), lane), former_entry(track, lane, zone)) {
        (Err(_), Some(_)) => Zone { zone_m: FORMER_ZONE_M, before_zone_m: BEFORE_FORMER_ZONE_M },
        _ => Zone { zone_m: FORMER_ZONE_M + BEFORE_FORMER_ZONE_M, before_zone_m: 0.0 },
    }
}

/// The mark at the entry of a zone of 30 m.
fn entry(zone: u8) -> String {
    format!("{} 4x100 m takeover zone entry", NTH[usize::from(zone.clamp(1, 3)) - 1])
}

/// The entry of a zone of former rules, where it is painted.
fn former_entry(track: &Track, lane: LaneNumber, zone: u8) -> Option<Spot> {
    let nth = NTH[usize::from(zone.clamp(1, 3)) - 1];
    track.landmark(&format!("{nth} former 4x100 m takeover zone entry"), lane).ok()
}

fn way_m(track: &Track, start: Spot, finish: Spot, step: &Step<'_>) -> Planned<f64> {
    track.distance_m(start, finish).map_err(|error| PlanFault::NoRoute(error).at_run(step))
}

fn search_fault(error: SearchError, step: &Step<'_>) -> Spanned<PlanFault> {
    let fault = match error {
        SearchError::Lane(error) => return PlanFault::Lane(error).at_lanes(step),
        error => PlanFault::Search(error),
    };
    match (&fault, step.place) {
        (PlanFault::Search(SearchError::NoStraight { .. }), Some(place)) => fault.at(place.span.clone()),
        _ => fault.at_run(step),
    }
}

/// Whether a lane may be run in at all, for runs that are not searched.
pub(crate) fn check_lane(track: &Track, step: &Step<'_>, course: Course, lane: LaneNumber) -> Planned<()> {
    track.check_lane(course, lane).map_err(|error: LaneError| PlanFault::Lane(error).at_lanes(step))
}

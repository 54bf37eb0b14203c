//! Where one run starts and finishes.

use lane_distance::{Course, LandmarkError, LaneError, Pair, Place, SearchError, Spot, Track};

use workout_notation::Problem;
use workout_notation::{RunKind, RunLength, Step};

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
pub(crate) fn distance_m(track: &Track, step: &Step<'_>, lane: u8) -> Result<Option<f64>, Problem> {
    let metres = |length: RunLength| match length {
        RunLength::Metres(metres) => Ok(metres),
        RunLength::Laps(laps) => track
            .lap_m(lane)
            .map(|lap_m| laps * lap_m)
            .map_err(|error| Problem::new(lane_span(step), error.to_string())),
    };
    Ok(match step.run.kind.value {
        RunKind::Plain(length) | RunKind::InAndOut { length, .. } => Some(metres(length)?),
        RunKind::Flying { metres, .. } => Some(metres),
        RunKind::Hurdles { .. } | RunKind::Exchange { .. } => {
            let (start, finish) = fixed_ends(track, step, lane)?;
            Some(way_m(track, start, finish, step)?)
        }
        RunKind::Timed { .. } => None,
    })
}

/// The pairs of start and finish for a run in a lane, best first.
pub(crate) fn pairs(
    track: &Track,
    step: &Step<'_>,
    place: Place,
    lane: u8,
    prefer: Prefer,
) -> Result<Vec<Pair>, Problem> {
    let Some(distance_m) = distance_m(track, step, lane)? else { return Ok(Vec::new()) };
    let kind = step.run.kind.value;
    if matches!(kind, RunKind::Hurdles { .. } | RunKind::Exchange { .. }) {
        let (start, finish) = fixed_ends(track, step, lane)?;
        return Ok(vec![pair(track, start, finish, distance_m)]);
    }
    let mut pairs = match (step.from, step.to) {
        (None, None) => {
            let found = track.search_at(place, lane, distance_m);
            found.map_err(|error| search_problem(&error, step))?
        }
        (from, to) => vec![with_ends(track, step, lane, distance_m, from.is_some(), to.is_some())?],
    };
    if let RunKind::Flying { run_in_m, .. } = kind {
        let flying =
            pairs.iter().copied().filter(|pair| run_in(track, pair, run_in_m).is_some()).collect::<Vec<_>>();
        if flying.is_empty() {
            let message =
                format!("no place has room for {distance_m} m and a run-in of {run_in_m} m before it");
            return Err(Problem::new(step.run.kind.span.clone(), message).with_help("shorten the run-in"));
        }
        pairs = flying;
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

/// Where the run-in of a flying run begins; nothing where there is no room for it.
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

/// A run whose start, finish or both are named.
fn with_ends(
    track: &Track,
    step: &Step<'_>,
    lane: u8,
    distance_m: f64,
    from: bool,
    to: bool,
) -> Result<Pair, Problem> {
    let spot = |words: Option<&workout_notation::Spanned<String>>| match words {
        Some(words) => landmark(track, words, lane, words.span.clone()).map(Some),
        None => Ok(None),
    };
    let (start, finish) = (spot(step.from.filter(|_| from))?, spot(step.to.filter(|_| to))?);
    let layout = track.layout();
    let length_problem = |spot: Spot| {
        let length_m = layout.straight(spot.course).map_or(0.0, |ground| ground.length_m());
        let message = format!(
            "{distance_m} m from there do not fit on the {}, which is {length_m:.2} m long",
            spot.course
        );
        Problem::new(step.run.kind.span.clone(), message)
    };
    match (start, finish) {
        (Some(start), Some(finish)) => {
            let once_m = way_m(track, start, finish, step)?;
            let lap_m = track.lap_m(lane).unwrap_or(f64::INFINITY);
            let laps = ((distance_m - once_m) / lap_m).round().max(0.0);
            let real_m = once_m + laps * lap_m;
            if (real_m - distance_m).abs() > lane_distance::ON_PAINT_M {
                let span = step.to.map_or_else(|| step.run.kind.span.clone(), |to| to.span.clone());
                let message =
                    format!("from there to there it is {real_m:.2} m in lane {lane}, not {distance_m} m");
                return Err(
                    Problem::new(span, message).with_help("leave out one end, or change the distance")
                );
            }
            Ok(pair(track, start, finish, distance_m))
        }
        (Some(start), None) => match layout.on_course(start, Course::Oval) {
            // From a chute the run stays on its straight, or goes on along the oval.
            None => {
                let to_finish_m = start.to_finish_m - distance_m;
                if to_finish_m >= 0.0 {
                    return Ok(pair(track, start, Spot { to_finish_m, ..start }, distance_m));
                }
                let end = layout.on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval);
                let on = end.and_then(|end| on_from(track, end, -to_finish_m));
                let finish = on.ok_or_else(|| length_problem(start))?.finish;
                Ok(pair(track, start, finish, distance_m))
            }
            Some(start) => on_from(track, start, distance_m).ok_or_else(|| length_problem(start)),
        },
        (None, Some(finish)) => {
            // A short run to a line of the home straight may begin in its chute.
            let home = layout.on_course(finish, Course::HomeStraight);
            let room = layout.straight(Course::HomeStraight).map_or(0.0, |ground| ground.length_m());
            if let Some(home) = home.filter(|home| home.to_finish_m + distance_m <= room) {
                let start = Spot { to_finish_m: home.to_finish_m + distance_m, ..home };
                return Ok(pair(track, start, home, distance_m));
            }
            let finish = layout.on_course(finish, Course::Oval).ok_or_else(|| length_problem(finish))?;
            let lap_m =
                track.lap_m(lane).map_err(|error| Problem::new(lane_span(step), error.to_string()))?;
            let start = Spot { to_finish_m: (finish.to_finish_m + distance_m).rem_euclid(lap_m), ..finish };
            Ok(pair(track, start, finish, distance_m))
        }
        (None, None) => Err(Problem::new(step.run.kind.span.clone(), "no end of the run is known")),
    }
}

/// Start and finish of a run that paint alone places: over hurdles, or through a takeover zone.
fn fixed_ends(track: &Track, step: &Step<'_>, lane: u8) -> Result<(Spot, Spot), Problem> {
    let span = || step.run.kind.span.clone();
    track.check_lane_exists(lane).map_err(|error| Problem::new(lane_span(step), error.to_string()))?;
    let place = |name: &str| {
        track.landmark(name, lane).map_err(|error| {
            Problem::new(span(), error.to_string())
                .with_help("choose a track whose paint has it, or name the distance")
        })
    };
    match step.run.kind.value {
        RunKind::Hurdles { race_m, to_hurdle } => {
            let first = place(&format!("{race_m} m hurdle tick 1"))?;
            let course = match (first.course, track.layout().on_course(first, Course::HomeStraight)) {
                _ if race_m > 200.0 => Course::Oval,
                (_, Some(home)) => home.course,
                (course, None) => course,
            };
            let start = match course {
                Course::Oval => {
                    let lap_m = track
                        .lap_m(lane)
                        .map_err(|error| Problem::new(lane_span(step), error.to_string()))?;
                    Spot::on_oval(lane, race_m.rem_euclid(lap_m))
                }
                course => Spot { course, lane, to_finish_m: race_m },
            };
            let finish = match to_hurdle {
                None => place("finish line")?,
                Some(hurdle) => place(&format!("{race_m} m hurdle tick {hurdle}"))?,
            };
            let finish = track.layout().on_course(finish, course).unwrap_or(finish);
            Ok((start, finish))
        }
        RunKind::Exchange { zone } => {
            let nth = ["first", "second", "third"][usize::from(zone.clamp(1, 3)) - 1];
            Ok((
                place(&format!("{nth} 4x100 m takeover zone entry"))?,
                place(&format!("{nth} 4x100 m takeover zone exit"))?,
            ))
        }
        _ => Err(Problem::new(span(), "no paint places this run")),
    }
}

fn way_m(track: &Track, start: Spot, finish: Spot, step: &Step<'_>) -> Result<f64, Problem> {
    track
        .distance_m(start, finish)
        .map_err(|error| Problem::new(step.run.kind.span.clone(), error.to_string()))
}

fn landmark(track: &Track, name: &str, lane: u8, span: std::ops::Range<usize>) -> Result<Spot, Problem> {
    track.landmark(name, lane).map_err(|error| {
        let help = match &error {
            LandmarkError::Unknown { near, .. } | LandmarkError::Ambiguous { near, .. } => {
                near.first().map(|near| format!("write for example `{near}`"))
            }
            _ => None,
        };
        let problem = Problem::new(span, error.to_string());
        match help {
            Some(help) => problem.with_help(help),
            None => problem,
        }
    })
}

pub(crate) fn lane_span(step: &Step<'_>) -> std::ops::Range<usize> {
    step.lanes.map_or_else(|| step.run.kind.span.clone(), |lanes| lanes.span.clone())
}

fn search_problem(error: &SearchError, step: &Step<'_>) -> Problem {
    let distance = || step.run.kind.span.clone();
    let message = error.to_string();
    match error {
        SearchError::Distance { .. } => Problem::new(distance(), message),
        SearchError::TooLong { length_m, .. } | SearchError::TooLongForBend { length_m, .. } => {
            Problem::new(distance(), message).with_help(format!("write at most {} m", length_m.floor()))
        }
        SearchError::NoStraight { .. } => {
            Problem::new(step.place.map_or_else(distance, |place| place.span.clone()), message)
        }
        SearchError::Lane(LaneError::Missing { open, .. } | LaneError::Closed { open, .. }) => {
            let problem = Problem::new(lane_span(step), message);
            match open.first() {
                Some(open) => problem.with_help(format!("write for example `in lane {open}`")),
                None => problem,
            }
        }
    }
}

/// Whether a lane may be run in at all, for runs that are not searched.
pub(crate) fn check_lane(track: &Track, step: &Step<'_>, course: Course, lane: u8) -> Result<(), Problem> {
    track.check_lane(course, lane).map_err(|error| search_problem(&SearchError::Lane(error), step))
}

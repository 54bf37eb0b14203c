//! Times that a coach can take while a run goes by.

use std::sync::Arc;

use lane_distance::{Course, Pair, Track};
use serde::Serialize;

use workout_notation::RunKind;

/// A place on the way of a run, and when the runner should pass it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Split {
    /// How far from the start, in metres.
    pub from_start_m: f64,
    /// When the runner should pass it, in seconds from the start.
    pub time_s: f64,
    /// The painted mark there; nothing at a round distance without one.
    pub mark: Option<Arc<str>>,
    /// Whether it is one of the round distances, every 100 m, or a turn of an in-and-out run.
    pub round: bool,
}

/// How close a mark must lie to a round distance to be that place, in metres.
const SAME_PLACE_M: f64 = 0.05;

/// The splits of a run at an even pace: every 100 m (or every turn), and every painted mark of the
/// lane that the runner passes. Of a run of more than a lap, only the marks of the last lap.
pub(crate) fn splits(track: &Track, pair: &Pair, kind: RunKind, target_s: f64) -> Vec<Split> {
    let distance_m = pair.distance_m;
    let every_m: Vec<f64> = match kind {
        RunKind::InAndOut { turns, .. } => turns.changes_m(distance_m).collect(),
        _ => (1..)
            .map(|n| f64::from(n) * 100.0)
            .take_while(|from_start_m| *from_start_m < distance_m - SAME_PLACE_M)
            .collect(),
    };
    let at = |from_start_m: f64, mark: Option<Arc<str>>, round: bool| Split {
        from_start_m,
        time_s: target_s * from_start_m / distance_m,
        mark,
        round,
    };
    let mut splits: Vec<Split> =
        every_m.into_iter().map(|from_start_m| at(from_start_m, None, true)).collect();
    let start = pair.start;
    let lap_m = match start.course {
        Course::Oval => track.lap_m(start.lane).unwrap_or(f64::INFINITY),
        _ => f64::INFINITY,
    };
    for painted in track.painted(start.course, start.lane) {
        let ahead_m = start.to_finish_m - painted.to_finish_m;
        let mut from_start_m = if pair.against { -ahead_m } else { ahead_m };
        if lap_m.is_finite() {
            from_start_m = from_start_m.rem_euclid(lap_m);
            // Of several laps, the last time that the mark is passed.
            from_start_m += ((distance_m - from_start_m) / lap_m).floor().max(0.0) * lap_m;
        }
        if from_start_m <= SAME_PLACE_M || from_start_m >= distance_m - SAME_PLACE_M {
            continue;
        }
        let Some(name) = track.mark(painted.mark).map(|mark| mark.name.clone()) else { continue };
        let round = splits.iter_mut().find(|split| {
            split.round && split.mark.is_none() && (split.from_start_m - from_start_m).abs() <= SAME_PLACE_M
        });
        match round {
            Some(split) => split.mark = Some(name),
            None => splits.push(at(from_start_m, Some(name), false)),
        }
    }
    splits.sort_by(|a, b| a.from_start_m.total_cmp(&b.from_start_m));
    splits
}

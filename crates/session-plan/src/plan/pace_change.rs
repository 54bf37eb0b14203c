//! Where a run changes from fast to easy, or back.

use lane_distance::{Course, Pair, Placement, Spot, Track};
use workout_notation::RunKind;

/// A place where a run changes from fast to easy, or back.
#[derive(Clone, Debug, PartialEq)]
pub struct PaceChange {
    /// How far from the start, in metres.
    pub from_start_m: f64,
    /// Where that is.
    pub spot: Placement,
}

/// How far from its start a run changes, in metres, each time; never where it is all alike.
fn changes_m(kind: RunKind, distance_m: f64) -> Vec<f64> {
    match kind {
        RunKind::InAndOut { turns, .. } => turns.changes_m(distance_m).collect(),
        _ => Vec::new(),
    }
}

/// The places where a run changes, in the order in which they are met; a stride tells their tapes in steps.
pub(crate) fn pace_changes(
    track: &Track,
    kind: RunKind,
    pair: &Pair,
    stride_m: Option<f64>,
) -> Vec<PaceChange> {
    let start = pair.start;
    let change = |from_start_m: f64| {
        let sign = if pair.against { 1.0 } else { -1.0 };
        let to_finish_m = start.to_finish_m + sign * from_start_m;
        let spot = match start.course {
            Course::Oval => track.layout().measure(start.lane).within_lap_m(to_finish_m),
            _ => to_finish_m,
        };
        // A run from a chute that leaves its straight goes on along the oval.
        let at = if start.course != Course::Oval && spot < 0.0 {
            let end = track.layout().on_course(Spot { to_finish_m: 0.0, ..start }, Course::Oval)?;
            Spot { to_finish_m: track.layout().measure(end.lane).within_lap_m(end.to_finish_m + spot), ..end }
        } else {
            Spot { to_finish_m: spot, ..start }
        };
        let spot = Placement::of(track, at);
        let spot = stride_m.map_or_else(|| spot.clone(), |stride_m| spot.clone().with_strides(stride_m));
        Some(PaceChange { from_start_m, spot })
    };
    changes_m(kind, pair.distance_m).into_iter().filter_map(change).collect()
}

//! Where the outer lanes of a group that starts together stand.

use lane_distance::{Course, LaneNumber, Pair, Spot, Track};
use workout_notation::Step;

use crate::plan::fault::Planned;
use crate::plan::pairing;

/// The run of a lane further out in a group that starts together: on the curved line, and then in
/// the inside lane.
///
/// # Errors
///
/// A [`PlanFault`] where the lane is missing or closed.
pub(crate) fn group_start(track: &Track, step: &Step<'_>, inside: &Pair, lane: LaneNumber) -> Planned<Pair> {
    if lane == inside.start.lane {
        return Ok(*inside);
    }
    pairing::check_lane(track, step, inside.start.course, lane)?;
    let curved = || track.layout().curved_start(inside.start.lane, inside.start.to_finish_m, lane);
    let start = match inside.start.course {
        Course::Oval => curved().unwrap_or_else(|| track.layout().abreast(inside.start, lane)),
        // On a straight the line is square across.
        _ => Spot { lane, ..inside.start },
    };
    Ok(Pair { start, start_reading: track.read(start), ..*inside })
}

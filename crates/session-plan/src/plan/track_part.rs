//! Runs from one end of a straight or a bend to the other.

use lane_distance::{Course, LaneError, LaneNumber, Pair, Place, Track};
use workout_notation::TrackPart;

/// The runs over the parts of a kind that a place holds, the one to begin with first.
///
/// # Errors
///
/// A [`LaneError`] where the oval has no such lane, or it is closed.
pub(crate) fn runs(
    track: &Track,
    part: TrackPart,
    place: Place,
    lane: LaneNumber,
) -> Result<Vec<Pair>, LaneError> {
    let mut runs = match part {
        TrackPart::Straight => track.straight_runs(lane)?,
        TrackPart::Bend => track.bend_runs(lane)?,
    };
    if let (TrackPart::Straight, Place::On(course) | Place::Against(course)) = (part, place)
        && course != Course::Oval
    {
        runs.retain(|run| run.start.course == course);
    }
    if matches!((part, place), (TrackPart::Straight, Place::Against(_))) {
        for run in &mut runs {
            std::mem::swap(&mut run.start, &mut run.finish);
            std::mem::swap(&mut run.start_reading, &mut run.finish_reading);
            run.against = true;
        }
    }
    Ok(runs)
}

/// Of runs over the parts of a kind the next that begins past a place in their lane, and how far that is in metres;
/// `to_finish_m` is how far it is from there to the finish line along the oval.
pub(crate) fn next(track: &Track, runs: &[Pair], lane: LaneNumber, to_finish_m: f64) -> Option<(Pair, f64)> {
    let line = track.layout().measure(lane);
    let on_m = |run: &Pair| {
        let start = track.layout().on_course(run.start, Course::Oval)?;
        Some((*run, line.within_lap_m(to_finish_m - start.to_finish_m)))
    };
    runs.iter().filter_map(on_m).min_by(|(_, a), (_, b)| a.total_cmp(b))
}

//! Where a run over hurdles starts and finishes.

use lane_distance::{Course, LandmarkError, LaneNumber, Spot, Track};
use workout_notation::HurdlePart;

use crate::plan::remark::Remark;

/// Races over hurdles on the straight, in metres, the one that is taken first in front where none is named.
const SPRINTS_M: [f64; 6] = [110.0, 100.0, 80.0, 75.0, 70.0, 60.0];

/// Races over hurdles round the bends, in metres.
const ROUND_M: [f64; 2] = [400.0, 300.0];

/// The longest run that is a sprint, in metres.
const LONGEST_SPRINT_M: f64 = 110.0;

/// How far a run over hurdles goes, in metres, as far as its text says.
pub(crate) const fn said_m(race_m: Option<f64>, part: HurdlePart) -> Option<f64> {
    match part {
        HurdlePart::First { run_m, .. } | HurdlePart::Last { run_m, .. } => Some(run_m),
        HurdlePart::Whole | HurdlePart::To(_) | HurdlePart::Between { .. } => race_m,
    }
}

/// Whether a run over hurdles belongs on the straight.
pub(crate) fn is_sprint(race_m: Option<f64>, part: HurdlePart) -> bool {
    said_m(race_m, part).is_none_or(|metres| metres <= LONGEST_SPRINT_M)
}

/// The race whose hurdles stand in the lane for a run, in metres: the one named where it is painted, else one of the
/// same kind that is.
pub(crate) fn spacing_m(track: &Track, lane: LaneNumber, race_m: Option<f64>, part: HurdlePart) -> f64 {
    let is_painted = |race_m: &f64| tick(track, lane, *race_m, 1).is_ok();
    let alike: &[f64] = if is_sprint(race_m, part) { &SPRINTS_M } else { &ROUND_M };
    let least_m = said_m(race_m, part).unwrap_or(0.0);
    let named = race_m.filter(is_painted);
    let longer = || alike.iter().copied().find(|race_m| is_painted(race_m) && *race_m >= least_m);
    named.or_else(longer).or(race_m).unwrap_or(alike[0])
}

/// Start and finish of a run over hurdles in a lane.
///
/// # Errors
///
/// [`LandmarkError`] where the track has no paint for its hurdles.
pub(crate) fn ends(
    track: &Track,
    lane: LaneNumber,
    race_m: Option<f64>,
    part: HurdlePart,
) -> Result<(Spot, Spot), LandmarkError> {
    let spacing_m = spacing_m(track, lane, race_m, part);
    let first = tick(track, lane, spacing_m, 1)?;
    let course = match (first.course, track.layout().on_course(first, Course::HomeStraight)) {
        _ if spacing_m > 200.0 => Course::Oval,
        (_, Some(home)) => home.course,
        (course, None) => course,
    };
    let lap_m = track.layout().measure(lane).lap_m();
    let at = |to_finish_m: f64| match course {
        Course::Oval => Spot::on_oval(lane, to_finish_m.rem_euclid(lap_m)),
        course => Spot { course, lane, to_finish_m },
    };
    let on_course = |spot: Spot| track.layout().on_course(spot, course).unwrap_or(spot);
    let hurdle = |number: u8| tick(track, lane, spacing_m, number).map(on_course);
    let start = at(spacing_m);
    let finish = || track.landmark("finish line", lane).map(on_course);
    Ok(match part {
        // A training distance over the hurdles of a longer race.
        HurdlePart::Whole => match race_m.filter(|race_m| *race_m < spacing_m) {
            Some(run_m) => (start, at(spacing_m - run_m)),
            None => (start, finish()?),
        },
        HurdlePart::To(last) => (start, hurdle(last)?),
        HurdlePart::Between { first, last } => (hurdle(first.saturating_sub(1).max(1))?, hurdle(last)?),
        HurdlePart::First { run_m, .. } => (start, at(spacing_m - run_m)),
        HurdlePart::Last { run_m, .. } => (at(run_m), finish()?),
    })
}

/// What there is to say of the hurdles of a run in a lane: that they are those of another race, or of one that is not named.
pub(crate) fn of_another_race(
    track: &Track,
    lane: LaneNumber,
    asked_m: Option<f64>,
    part: HurdlePart,
) -> Option<Remark> {
    let race_m = spacing_m(track, lane, asked_m, part);
    let [first, second] = [1, 2].map(|number| Some(tick(track, lane, race_m, number).ok()?.to_finish_m));
    let (first_m, second_m) = (first?, second?);
    let is_named = asked_m == Some(race_m) || said_m(asked_m, part) == Some(race_m);
    (!is_named).then_some(Remark::HurdlesOfAnotherRace {
        asked_m,
        race_m,
        to_first_m: race_m - first_m,
        between_m: first_m - second_m,
    })
}

/// That fewer hurdles stand within a run than it is to go over: `200 over 8 hurdles`.
pub(crate) fn fewer(
    track: &Track,
    lane: LaneNumber,
    asked_m: Option<f64>,
    part: HurdlePart,
) -> Option<Remark> {
    let (run_m, asked, is_last) = match part {
        HurdlePart::First { run_m, hurdles } => (run_m, hurdles, false),
        HurdlePart::Last { run_m, hurdles } => (run_m, hurdles, true),
        HurdlePart::Whole | HurdlePart::To(_) | HurdlePart::Between { .. } => return None,
    };
    let race_m = spacing_m(track, lane, asked_m, part);
    let is_within =
        |spot: &Spot| if is_last { spot.to_finish_m < run_m } else { race_m - spot.to_finish_m < run_m };
    let hurdles = (1..=MOST_HURDLES).map_while(|number| tick(track, lane, race_m, number).ok());
    let there = hurdles.filter(is_within).count() as u8;
    (there < asked).then_some(Remark::FewerHurdles { asked, there, run_m })
}

/// The most hurdles of a race.
const MOST_HURDLES: u8 = 10;

fn tick(track: &Track, lane: LaneNumber, race_m: f64, number: u8) -> Result<Spot, LandmarkError> {
    track.landmark(&format!("{race_m} m hurdle tick {number}"), lane)
}

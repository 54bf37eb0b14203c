//! Where a block is run: its place and its lanes.

use std::collections::BTreeSet;

use lane_distance::{Course, LaneError, LaneNumber, Place, Track};

use crate::people::house_rules::{Activity, Direction, HouseRules, LaneRule};
use crate::people::wind::{Wind, WindFrom};
use crate::plan::block_at::BlockAt;
use crate::plan::fault::{PlanFault, Planned};
use crate::plan::hurdle_run;
use crate::plan::warning::Warning;
use workout_notation::{RunKind, RunLength, RunPlace, Step, TrackPart};

/// Where a run is laid.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Location {
    pub(crate) place: Place,
    /// The lanes, the one to be used first in front.
    pub(crate) lanes: Vec<LaneNumber>,
    /// Why these lanes, where the workout does not name them; or which house rule it breaks.
    pub(crate) warnings: Vec<Warning>,
}

/// Who shares the lanes of a block that names none.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Share<'a> {
    /// All run in the same lane.
    OneLane {
        /// Those that everybody has, if the session gives some.
        of_all: Option<&'a [u8]>,
        /// Those that others have, which are left to them where there are more.
        taken: &'a BTreeSet<u8>,
    },
    /// A squad uses every lane that it may.
    AllLanes,
}

/// How long a straight and a bend are for the house rules, in metres: nearly every track has them so long or a little
/// longer.
const STRAIGHT_M: f64 = 80.0;
const BEND_M: f64 = 110.0;

/// How far a run is, in metres, where that is known before its lane.
const fn known_m(step: &Step<'_>) -> Option<f64> {
    match step.run.kind.value {
        RunKind::Plain(RunLength::Metres(metres)) | RunKind::Flying { metres, .. } => Some(metres),
        RunKind::Hurdles { race_m, part } => hurdle_run::said_m(race_m, part),
        RunKind::Part(TrackPart::Straight) => Some(STRAIGHT_M),
        RunKind::Part(TrackPart::Bend) => Some(BEND_M),
        _ => None,
    }
}

/// How far a run is for the house rules, in metres.
pub(crate) fn ruled_m(step: &Step<'_>) -> f64 {
    // A lap's length is not known before its lane: nearly every rule calls it a long run.
    known_m(step).unwrap_or(400.0)
}

/// The house rule for a run, if there is one.
pub(crate) fn rule_of<'a>(rules: &'a HouseRules, step: &Step<'_>) -> Option<&'a LaneRule> {
    let activity = match step.run.kind.value {
        // A takeover zone lies where it lies, in every lane.
        RunKind::Exchange { .. } => return None,
        RunKind::Hurdles { .. } => Activity::Hurdles,
        _ => Activity::Runs,
    };
    rules.rule(activity, ruled_m(step))
}

/// Where a run is laid: by its own words, else in the lanes of those who run it, else by the house rules,
/// else in the innermost open lane or, for a squad, in all that are open.
///
/// # Errors
///
/// A [`PlanFault`] where no lane is open, or where one of `own_lanes` is not the number of a lane.
pub(crate) fn location(
    track: &Track,
    rules: &HouseRules,
    wind: Option<&Wind>,
    at: BlockAt,
    step: &Step<'_>,
    own_lanes: Option<Vec<u8>>,
    share: Share<'_>,
) -> Planned<Location> {
    let on_straight = match step.run.kind.value {
        RunKind::Hurdles { race_m, part } => hurdle_run::is_sprint(race_m, part),
        RunKind::Flying { .. } => true,
        _ => false,
    };
    let (ruled_m, rule) = (ruled_m(step), rule_of(rules, step));
    let fits = |place: &Place| match place {
        Place::On(course) => {
            track.layout().straight(*course).is_some_and(|ground| ruled_m <= ground.length_m())
        }
        _ => true,
    };
    let has_ends = step.from.is_some() || step.to.is_some();
    let ruled_place = rule.and_then(|rule| rule.place()).filter(|place| fits(place) && !has_ends);
    // Nobody gets up to full speed on a bend where a straight has room for it.
    let flying_place = match step.run.kind.value {
        RunKind::Flying { metres, run_in_m } if !has_ends => {
            let home = track.layout().straight(Course::HomeStraight);
            home.filter(|home| metres + run_in_m <= home.length_m()).map(|_| Place::On(Course::HomeStraight))
        }
        _ => None,
    };
    let mut warnings = Vec::new();
    let own_place = step.place.and_then(|place| match place.value {
        RunPlace::At(place) => Some(place),
        RunPlace::Wind { on, against } => {
            let course = on.unwrap_or(Course::HomeStraight);
            let felt = wind.and_then(|wind| wind.felt_on(course));
            if felt.is_none() {
                warnings.push(Warning::WindAssumed { at, against });
            }
            // A wind that is not known is taken to be from behind on the home straight.
            let usual = if course == Course::BackStraight { WindFrom::Ahead } else { WindFrom::Behind };
            let is_ahead = felt.unwrap_or(usual) == WindFrom::Ahead;
            match on {
                _ if is_ahead == against => on.map(Place::On),
                _ if fits(&Place::On(course)) => Some(Place::Against(course)),
                _ => {
                    warnings.push(Warning::TooLongForWind { at, against });
                    None
                }
            }
        }
    });
    let place = own_place.or(ruled_place).or(flying_place).unwrap_or_default();
    if matches!(place, Place::Against(_)) && rules.direction == Direction::Anticlockwise {
        warnings.push(Warning::Clockwise { at });
    }
    if let Some(lanes) = step.lanes {
        if let Some(rule) = rule {
            let allowed = |lane: &LaneNumber| rule.lanes.contains(&lane.get());
            let outside: Vec<LaneNumber> = lanes.iter().copied().filter(|lane| !allowed(lane)).collect();
            if !outside.is_empty() {
                warnings.push(Warning::RuleBroken { at, rule: rule.clone(), lanes: outside });
            }
        }
        return Ok(Location { place, lanes: lanes.value.clone(), warnings });
    }
    if let Some(lanes) = own_lanes {
        let lanes = lane_numbers(track, step, place, &lanes)?;
        return Ok(Location { place, lanes, warnings });
    }
    let course = match place {
        Place::On(course) | Place::Against(course) => course,
        Place::Bend => Course::Oval,
        Place::Anywhere if on_straight => Course::HomeStraight,
        // With the oval closed, a short run still has the home straight.
        Place::Anywhere
            if track.open_lanes(Course::Oval).is_empty() && fits(&Place::On(Course::HomeStraight)) =>
        {
            Course::HomeStraight
        }
        Place::Anywhere => Course::Oval,
    };
    let open = track.open_lanes(course);
    let ruled = rule.into_iter().flat_map(|rule| rule.lane_numbers());
    let ruled: Vec<LaneNumber> = ruled.filter(|lane| open.contains(lane)).collect();
    let is_ruled = !ruled.is_empty();
    let lanes = if is_ruled { ruled } else { open };
    let Some(&first) = lanes.first() else { return Err(PlanFault::NoLaneOpen(course).at_run(step)) };
    let Share::OneLane { of_all, taken } = share else { return Ok(Location { place, lanes, warnings }) };
    let is_given = |lane: &&LaneNumber| of_all.is_none_or(|lanes| lanes.contains(&lane.get()));
    let given: Vec<LaneNumber> = lanes.iter().filter(is_given).copied().collect();
    let free = given.iter().find(|lane| !taken.contains(&lane.get()));
    let lane = free.or(given.first()).copied().unwrap_or(first);
    // Where everybody has one lane, it is named.
    if of_all.is_some_and(|lanes| lanes == [lane.get()]) {
        return Ok(Location { place, lanes: vec![lane], warnings });
    }
    warnings.push(match rule.cloned() {
        None if lane == first => Warning::InnermostLane { at, lane },
        None => Warning::FreeLane { at, lane },
        Some(rule) if is_ruled => Warning::RuledLane { at, lane, rule },
        Some(rule) => Warning::RuledLanesClosed { at, lane, rule },
    });
    Ok(Location { place, lanes: vec![lane], warnings })
}

/// The lanes of those who run, checked: a session file or a flag may give any number.
fn lane_numbers(track: &Track, step: &Step<'_>, place: Place, lanes: &[u8]) -> Planned<Vec<LaneNumber>> {
    let course = match place {
        Place::On(course) | Place::Against(course) => course,
        _ => Course::Oval,
    };
    let known = |&lane: &u8| {
        let missing = || LaneError::Missing { lane, course, open: track.open_lanes(course) };
        LaneNumber::new(lane).ok_or_else(|| PlanFault::Lane(missing()).at_lanes(step))
    };
    lanes.iter().map(known).collect()
}

//! Where a block is run: its place and its lanes.

use lane_distance::{Course, LaneList, Place, Track};

use crate::people::house_rules::{Activity, Direction, HouseRules};
use workout_notation::Problem;
use workout_notation::{RunKind, Step};

/// Where a run is laid.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Wherein {
    pub(crate) place: Place,
    pub(crate) lanes: Vec<u8>,
    /// Why these lanes, where the workout does not name them; or which house rule it breaks.
    pub(crate) said: Vec<String>,
}

/// Where a run is laid: by its own words, else by the house rules, else in the innermost open lane.
///
/// # Errors
///
/// A [`Problem`] where no lane is open.
pub(crate) fn wherein(
    track: &Track,
    rules: &HouseRules,
    text: &str,
    step: &Step<'_>,
    distance_m: Option<f64>,
) -> Result<Wherein, Problem> {
    let (activity, on_straight) = match step.run.kind.value {
        RunKind::Hurdles { race_m, .. } => (Activity::Hurdles, race_m < 200.0),
        RunKind::Flying { .. } => (Activity::Runs, true),
        _ => (Activity::Runs, false),
    };
    // A lap's length is not known before its lane: nearly every rule calls it a long run.
    let ruled_m = distance_m.unwrap_or(400.0);
    let rule = rules.rule(activity, ruled_m);
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
    let place = step.place.map(|place| place.value).or(ruled_place).or(flying_place).unwrap_or_default();
    let mut said = Vec::new();
    if matches!(place, Place::Against(_)) && rules.direction == Direction::Anticlockwise {
        said.push(format!("`{text}` breaks a house rule: run anticlockwise, on the straights as well."));
    }
    if let Some(lanes) = step.lanes {
        if let Some(rule) = rule {
            let outside: Vec<u8> = lanes.iter().copied().filter(|lane| !rule.lanes.contains(lane)).collect();
            if !outside.is_empty() {
                said.push(format!(
                    "`{text}` breaks a house rule: {}, not in {}.",
                    rule.line(),
                    LaneList(&outside)
                ));
            }
        }
        return Ok(Wherein { place, lanes: lanes.value.clone(), said });
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
    let ruled =
        rule.and_then(|rule| rule.lanes.iter().find(|lane| open.contains(lane)).map(|lane| (*lane, rule)));
    let (lane, because) = match (ruled, rule, open.first()) {
        (Some((lane, rule)), ..) => {
            (lane, format!(": lane {lane} is used, by the house rule \"{}\".", rule.line()))
        }
        (None, Some(rule), Some(&lane)) => {
            let line = rule.line();
            (
                lane,
                format!(
                    ", and none of the house rule \"{line}\" is open: lane {lane}, the innermost open lane, is used."
                ),
            )
        }
        (None, None, Some(&lane)) => (lane, format!(": lane {lane}, the innermost open lane, is used.")),
        (None, _, None) => {
            let message = format!("no lane of the {course} is open");
            return Err(Problem::new(step.run.kind.span.clone(), message)
                .with_help("open a lane, or run on another day"));
        }
    };
    said.push(format!("`{text}` names no lane{because}"));
    Ok(Wherein { place, lanes: vec![lane], said })
}

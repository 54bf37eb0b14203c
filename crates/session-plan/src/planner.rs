//! From a session and a venue to a plan.

use lane_distance::{Course, LaneError, LaneList, Pair, Place, Placement, SearchError, Track};

use crate::caution;
use crate::house_rules::{Direction, HouseRules};
use crate::notation::{Block, MOST_REPS};
use crate::plan::{Plan, PlanBlock, PlanLane, PlanTrack, Rep};
use crate::problem::Problem;
use crate::session::Session;
use crate::setup;
use crate::venue::Venue;

/// What cannot be laid out on the track, and in which block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanError {
    /// The block, counted from 0.
    pub block: usize,
    /// What is wrong, with its place in the block's text.
    pub problem: Problem,
}

/// Lays a session out on the track of a venue.
///
/// Each repetition gets the best of the pairs of [`Track::search_at`]. Where a block names no lane,
/// the house rules choose, then the innermost open lane; the plan says which and why. Where a block
/// breaks a house rule, the plan says which.
///
/// # Errors
///
/// Every block that names a lane that is missing or closed, or a run that does not fit.
pub fn plan(venue: &Venue, session: &Session) -> Result<Plan, Vec<PlanError>> {
    let track = &venue.track_at(session.hours.as_ref());
    let mut warnings = Vec::new();
    let mut errors = Vec::new();
    let mut blocks = Vec::new();
    let mut reps_so_far = 0;
    for (index, block) in session.blocks.iter().enumerate() {
        reps_so_far += block.count;
        if reps_so_far > MOST_REPS {
            let message = format!("the session has more than {MOST_REPS} repetitions");
            let problem =
                Problem::new(0..block.text.len(), message).with_help("split it into several sessions");
            errors.push(PlanError { block: index, problem });
            break;
        }
        // Only the first block's clock is known: nobody has said how long the break after it is.
        match plan_block(track, &venue.rules, block, index == 0, &mut warnings) {
            Ok(planned) => blocks.push(planned),
            Err(problem) => errors.push(PlanError { block: index, problem }),
        }
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    let lanes = (1..=track.layout().lanes_of(Course::Oval))
        .filter_map(|lane| Some(PlanLane { lane, lap_m: track.lap_m(lane).ok()? }))
        .collect();
    let etiquette = if venue.rules == HouseRules::default() { Vec::new() } else { venue.rules.etiquette() };
    Ok(Plan {
        title: session.title.clone(),
        date: session.date,
        track: PlanTrack {
            name: track.name().to_owned(),
            closed_lanes: track.closed_lanes().to_vec(),
            lanes,
        },
        setup: setup::walk(track, &blocks),
        blocks,
        etiquette,
        cautions: caution::general(track),
        warnings,
    })
}

/// Where a block is run: its place, and its lanes.
pub(crate) struct Where {
    pub(crate) place: Place,
    pub(crate) lanes: Vec<u8>,
}

fn plan_block(
    track: &Track,
    rules: &HouseRules,
    block: &Block,
    from_zero: bool,
    warnings: &mut Vec<String>,
) -> Result<PlanBlock, Problem> {
    let Where { place, lanes } = place_and_lanes(track, rules, block, warnings)?;
    let mut pairs = Vec::with_capacity(lanes.len());
    for lane in lanes {
        pairs.push(best_pair(track, block, place, lane)?);
    }
    let target_s = block.target.as_ref().map(|target| target.seconds);
    let rest_s = block.rest.as_ref().map(|rest| rest.seconds);
    let mut go_s = from_zero.then_some(0.0);
    let mut reps = Vec::new();
    for rep in 1..=block.count {
        let done_s = go_s.zip(target_s).map(|(go, target)| go + target);
        let rest_s = rest_s.filter(|_| rep < block.count);
        for pair in &pairs {
            reps.push(Rep {
                rep,
                group: None,
                athletes: Vec::new(),
                wave: 1,
                lane: pair.start.lane,
                course: pair.start.course,
                distance_m: pair.distance_m,
                start: Placement::told(track, pair.start, pair.start_reading),
                finish: Placement::told(track, pair.finish, pair.finish_reading),
                target_s,
                go_s,
                done_s,
                rest_s,
                the_other_way: pair.against,
                plus_minus_m: track.sure_m(pair),
                cautions: caution::of_run(track, pair),
            });
        }
        go_s = done_s.zip(rest_s).map(|(done, rest)| done + rest);
    }
    Ok(PlanBlock { text: block.text.clone(), reps })
}

/// Where a block is run, by its own words, else by the house rules, else in the innermost open lane.
///
/// # Errors
///
/// A [`Problem`] where no lane is open.
pub(crate) fn place_and_lanes(
    track: &Track,
    rules: &HouseRules,
    block: &Block,
    warnings: &mut Vec<String>,
) -> Result<Where, Problem> {
    let distance_m = block.distance.metres;
    let rule = rules.for_run(distance_m);
    let fits = |place: &Place| match place {
        Place::On(course) => {
            track.layout().straight(*course).is_some_and(|ground| distance_m <= ground.length_m())
        }
        _ => true,
    };
    let ruled_place = rule.and_then(|rule| rule.place()).filter(fits);
    let place = block.place.as_ref().map(|words| words.place).or(ruled_place).unwrap_or_default();
    if matches!(place, Place::Against(_)) && rules.direction == Direction::Anticlockwise {
        warnings.push(format!(
            "`{}` breaks a house rule: run anticlockwise, on the straights as well.",
            block.text.trim()
        ));
    }
    let course = course_of(track, place, distance_m);
    let open = track.open_lanes(course);
    if let Some(lanes) = &block.lanes {
        if let Some(rule) = rule.filter(|rule| lanes.numbers.iter().any(|lane| !rule.lanes.contains(lane))) {
            let outside: Vec<u8> =
                lanes.numbers.iter().copied().filter(|lane| !rule.lanes.contains(lane)).collect();
            warnings.push(format!(
                "`{}` breaks a house rule: {}, not in {}.",
                block.text.trim(),
                rule.line(),
                LaneList(&outside)
            ));
        }
        return Ok(Where { place, lanes: lanes.numbers.clone() });
    }
    let ruled = rule.and_then(|rule| {
        let lane = rule.lanes.iter().find(|lane| open.contains(lane))?;
        Some((*lane, rule))
    });
    let lane = match (ruled, rule, open.first()) {
        (Some((lane, rule)), ..) => {
            warnings.push(format!(
                "`{}` names no lane: lane {lane} is used, by the house rule \"{}\".",
                block.text.trim(),
                rule.line()
            ));
            lane
        }
        (None, Some(rule), Some(&lane)) => {
            warnings.push(format!(
                "`{}` names no lane, and none of the house rule \"{}\" is open: lane {lane}, the innermost open lane, is used.",
                block.text.trim(),
                rule.line()
            ));
            lane
        }
        (None, None, Some(&lane)) => {
            warnings.push(format!(
                "`{}` names no lane: lane {lane}, the innermost open lane, is used.",
                block.text.trim()
            ));
            lane
        }
        (None, _, None) => {
            let message = format!("no lane of the {course} is open");
            return Err(Problem::new(block.distance.span.clone(), message)
                .with_help("open a lane, or run on another day"));
        }
    };
    Ok(Where { place, lanes: vec![lane] })
}

/// The course whose lanes count for a run at a place: the home straight has more of them.
fn course_of(track: &Track, place: Place, distance_m: f64) -> Course {
    match place {
        Place::On(course) | Place::Against(course) => course,
        Place::Bend => Course::Oval,
        Place::Anywhere => match track.open_lanes(Course::Oval).as_slice() {
            // With the oval closed, a short run still has the home straight.
            [] if track
                .layout()
                .straight(Course::HomeStraight)
                .is_some_and(|home| distance_m <= home.length_m()) =>
            {
                Course::HomeStraight
            }
            _ => Course::Oval,
        },
    }
}

/// The pairs of start and finish worth having for one repetition of a block, best first: in the lane
/// that it names, else in the one that the house rules or the track give.
///
/// # Errors
///
/// A [`Problem`] with its place in the block's text, where the distance does not fit, the lane is
/// missing or closed, or the block names several lanes.
pub fn pairs(venue: &Venue, block: &Block) -> Result<Vec<Pair>, Problem> {
    let track = venue.track();
    let Where { place, lanes } = place_and_lanes(track, &venue.rules, block, &mut Vec::new())?;
    match (lanes.as_slice(), &block.lanes) {
        ([lane], _) => found(track, block, place, *lane),
        (_, words) => {
            let span = words.as_ref().map_or_else(|| block.distance.span.clone(), |words| words.span.clone());
            Err(Problem::new(span, "spots are looked for in one lane").with_help("name one lane"))
        }
    }
}

fn found(track: &Track, block: &Block, place: Place, lane: u8) -> Result<Vec<Pair>, Problem> {
    let distance = || block.distance.span.clone();
    let lane_words = || block.lanes.as_ref().map_or_else(distance, |lanes| lanes.span.clone());
    track.search_at(place, lane, block.distance.metres).map_err(|error| {
        let message = error.to_string();
        match error {
            SearchError::Distance { .. } => Problem::new(distance(), message),
            SearchError::TooLong { length_m, .. } | SearchError::TooLongForBend { length_m, .. } => {
                Problem::new(distance(), message).with_help(format!("write at most {} m", length_m.floor()))
            }
            SearchError::NoStraight { .. } => {
                let span = block.place.as_ref().map_or_else(distance, |place| place.span.clone());
                Problem::new(span, message)
            }
            SearchError::Lane(LaneError::Missing { open, .. } | LaneError::Closed { open, .. }) => {
                let problem = Problem::new(lane_words(), message);
                match open.first() {
                    Some(open) => problem.with_help(format!("write for example `in lane {open}`")),
                    None => problem,
                }
            }
        }
    })
}

fn best_pair(track: &Track, block: &Block, place: Place, lane: u8) -> Result<Pair, Problem> {
    found(track, block, place, lane)?.first().copied().ok_or_else(|| {
        let message = format!(
            "no place is left for {} m in lane {lane}: hazards in use or a closed stretch are in the way",
            block.distance.metres
        );
        Problem::new(block.distance.span.clone(), message).with_help("try another lane or another distance")
    })
}

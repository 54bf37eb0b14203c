//! From a session and a track to a plan.

use lane_distance::{Course, LaneError, LaneList, Pair, Placement, SearchError, Track};

use crate::caution;
use crate::notation::{Block, MOST_REPS};
use crate::plan::{Plan, PlanBlock, PlanLane, PlanTrack, Rep};
use crate::problem::Problem;
use crate::session::Session;
use crate::setup;

/// What cannot be laid out on the track, and in which block.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanError {
    /// The block, counted from 0.
    pub block: usize,
    /// What is wrong, with its place in the block's text.
    pub problem: Problem,
}

/// Lays a session out on a track.
///
/// Each repetition gets the best of the pairs of [`Track::search`]. Where a block names no lane, the
/// innermost open lane is used, and a warning says so.
///
/// # Errors
///
/// Every block that names a lane that is missing or closed, or a run that does not fit.
pub fn plan(track: &Track, session: &Session) -> Result<Plan, Vec<PlanError>> {
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
        match plan_block(track, block, index == 0, &mut warnings) {
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
        cautions: caution::general(track),
        warnings,
    })
}

fn plan_block(
    track: &Track,
    block: &Block,
    from_zero: bool,
    warnings: &mut Vec<String>,
) -> Result<PlanBlock, Problem> {
    let lanes = match &block.lanes {
        Some(lanes) => lanes.numbers.clone(),
        None => vec![innermost_open(track, block, warnings)?],
    };
    let mut pairs = Vec::with_capacity(lanes.len());
    for lane in lanes {
        pairs.push((lane, best_pair(track, block, lane)?));
    }
    let target_s = block.target.as_ref().map(|target| target.seconds);
    let rest_s = block.rest.as_ref().map(|rest| rest.seconds);
    let mut go_s = from_zero.then_some(0.0);
    let mut reps = Vec::new();
    for rep in 1..=block.count {
        let done_s = go_s.zip(target_s).map(|(go, target)| go + target);
        let rest_s = rest_s.filter(|_| rep < block.count);
        for (lane, pair) in &pairs {
            reps.push(Rep {
                rep,
                group: None,
                athletes: Vec::new(),
                wave: 1,
                lane: *lane,
                course: pair.start.course,
                distance_m: pair.distance_m,
                start: Placement::told(track, pair.start, pair.start_reading),
                finish: Placement::told(track, pair.finish, pair.finish_reading),
                target_s,
                go_s,
                done_s,
                rest_s,
            });
        }
        go_s = done_s.zip(rest_s).map(|(done, rest)| done + rest);
    }
    Ok(PlanBlock { text: block.text.clone(), reps })
}

/// The innermost open lane where the block's distance fits.
fn innermost_open(track: &Track, block: &Block, warnings: &mut Vec<String>) -> Result<u8, Problem> {
    let Some(&lane) = track.open_lanes(Course::Oval).first() else {
        let message = "no lane of the oval is open";
        return Err(Problem::new(block.distance.span.clone(), message)
            .with_help(format!("open there: {}", open_everywhere(track))));
    };
    warnings.push(format!("`{}` names no lane: lane {lane}, the innermost open lane, is used.", block.text));
    Ok(lane)
}

fn open_everywhere(track: &Track) -> String {
    LaneList(&track.open_lanes(Course::HomeStraight)).to_string() + " on the home straight"
}

/// The pairs of start and finish worth having for one repetition of a block in a lane, best first.
///
/// # Errors
///
/// A [`Problem`] with its place in the block's text, where the distance does not fit or the lane is
/// missing or closed.
pub fn pairs(track: &Track, block: &Block, lane: u8) -> Result<Vec<Pair>, Problem> {
    let lane_span =
        || block.lanes.as_ref().map_or_else(|| block.distance.span.clone(), |lanes| lanes.span.clone());
    track.search(lane, block.distance.metres).map_err(|error| {
        let message = error.to_string();
        match error {
            SearchError::Distance { .. } | SearchError::TooLong { .. } => {
                Problem::new(block.distance.span.clone(), message)
            }
            SearchError::Lane(LaneError::Missing { open, .. } | LaneError::Closed { open, .. }) => {
                let problem = Problem::new(lane_span(), message);
                match open.first() {
                    Some(open) => problem.with_help(format!("write for example `in lane {open}`")),
                    None => problem,
                }
            }
        }
    })
}

fn best_pair(track: &Track, block: &Block, lane: u8) -> Result<Pair, Problem> {
    pairs(track, block, lane)?.first().copied().ok_or_else(|| {
        let message = format!("no place is left for {} m in lane {lane}", block.distance.metres);
        Problem::new(block.distance.span.clone(), message)
    })
}

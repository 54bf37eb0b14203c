//! A workout, from its text to its plan.

use anyhow::{Context as _, Result, anyhow, ensure};
use kurbo::Point;
use lane_distance::{LaneNumber, Track};
use session_plan::{Plan, Session, Venue};
use workout_notation::Block;

use crate::spots::SAME_M;
use crate::stopwatch::beside;
use crate::table::{note, row};
use crate::traced_lane::{FoundPair, TracedLane};

pub(crate) const WORKOUT: &str = "6 x 200 in lane 2";

/// The plan of a workout.
pub(crate) fn planned(venue: &Venue, text: &str) -> Result<Plan> {
    let block = Block::parse(text).map_err(|problems| anyhow!("{text}: {problems:?}"))?;
    session_plan::plan(venue, &Session::of_block(text, block)).map_err(|faults| anyhow!("{text}: {faults:?}"))
}

/// The standard track.
pub(crate) fn standard() -> Result<Venue> {
    Ok(Venue::from(Track::built_in("standard").context("the standard track comes with the program")?))
}

pub(crate) fn rows() -> Result<()> {
    let venue = standard()?;
    let traced = TracedLane::new(venue.track(), LaneNumber::of::<2>())?;
    check(&planned(&venue, WORKOUT)?, &by_hand(&traced, WORKOUT)?)?;
    let ours = || planned(&venue, WORKOUT).ok();
    let other = || by_hand(&traced, WORKOUT).ok();
    row("a workout: 6 x 200 in lane 2", beside(15, ours, other))?;
    note("beside: the text split at its words, then kurbo as above for each run; nothing else. Ours reads")?;
    note("any notation, and gives cones, walk, cautions and remarks as well.")?;
    note("same: lane, start and finish of each of the 6 runs, to 1 mm")
}

/// Each run of a text like `6 x 200 in lane 2`: its lane, and where it starts and finishes.
fn by_hand(traced: &TracedLane, text: &str) -> Result<Vec<(u8, FoundPair)>> {
    let (count, run) = text.split_once(" x ").context("no count")?;
    let (metres, lane) = run.split_once(" in lane ").context("no lane")?;
    let (count, metres, lane): (usize, f64, u8) = (count.parse()?, metres.parse()?, lane.parse()?);
    (0..count).map(|_| Ok((lane, traced.to_finish_line(metres)?))).collect()
}

fn check(plan: &Plan, by_hand: &[(u8, FoundPair)]) -> Result<()> {
    let reps: Vec<_> = plan.blocks.iter().flat_map(|block| &block.reps).collect();
    ensure!(reps.len() == by_hand.len(), "{} runs, by hand {}", reps.len(), by_hand.len());
    for (rep, (lane, found)) in reps.into_iter().zip(by_hand) {
        ensure!(rep.lane == *lane, "run {} is in lane {}, by hand in lane {lane}", rep.rep, rep.lane);
        for (ours, theirs) in [(&rep.start, found.start), (&rep.finish, found.finish)] {
            let apart_m = Point::new(ours.x_m, ours.y_m).distance(theirs);
            ensure!(apart_m < SAME_M, "run {}: the places lie {apart_m} m apart", rep.rep);
        }
    }
    Ok(())
}

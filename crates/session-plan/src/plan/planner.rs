//! From a session and a venue to a plan.

use std::sync::Arc;

use chrono::TimeDelta;
use lane_distance::Course;

use crate::people::session::Session;
use crate::people::venue::Venue;
use crate::plan::caution::cautions;
use crate::plan::clash::clashes;
use crate::plan::coach_place::CoachPlace;
use crate::plan::evening::{Evening, evening};
use crate::plan::fault::PlanError;
use crate::plan::kept::Kept;
use crate::plan::plan::{Plan, PlanLane, PlanTrack};
use crate::plan::plan_block::PlanBlock;
use crate::plan::remark::Remark;
use crate::plan::setup_walk::{SetupWalk, USUAL_STRIDE_M, walk};
use crate::plan::warning::Warning;

/// A sound that needs so long spoils a time that is started by it, in seconds.
const LATE_S: f64 = 0.05;

/// Lays a session out on the track of a venue.
///
/// Each run gets the best of the pairs of [`lane_distance::Track::search_at`], unless the way from
/// the run before it fixes its start. Where a block names no lane, the house rules choose, then the
/// innermost open lane; the plan says which and why. Where a block breaks a house rule, the plan says
/// which.
///
/// # Errors
///
/// Every block that names a lane that is missing or closed, or a run that does not fit.
pub fn plan(venue: &Venue, session: &Session) -> Result<Plan, Vec<PlanError>> {
    plan_with(venue, session, Kept::default())
}

/// Lays a session out anew after a late change, such as an athlete who is absent or a lane that has
/// been closed: as [`plan`] does, and of the plans that are as good, one in which as many as can be
/// stay in the waves that `before` gave them.
///
/// # Errors
///
/// As for [`plan`].
pub fn replan(venue: &Venue, session: &Session, before: &Plan) -> Result<Plan, Vec<PlanError>> {
    plan_with(venue, session, Kept::of(before))
}

fn plan_with(venue: &Venue, session: &Session, kept: Kept) -> Result<Plan, Vec<PlanError>> {
    let ground = Arc::new(venue.track_at(session.hours.as_ref()));
    let track = ground.as_ref();
    let Evening { mut blocks, mut warnings, ends_s, is_about } = evening(venue, track, session, &kept)?;
    let lanes = track
        .layout()
        .lane_numbers(Course::Oval)
        .filter_map(|lane| Some(PlanLane { lane, lap_m: track.lap_m(lane).ok()? }))
        .collect();
    warnings.extend(ends_s.and_then(|ends_s| past_booking(session, ends_s)));
    for block in &mut blocks {
        block.coach = CoachPlace::of(track, &block.reps);
        if block.coach.is_none() && !block.reps.is_empty() {
            block.remarks.push(Remark::NoPlaceForCoach);
        }
    }
    let setup = walk(track, &blocks, session.stride_m.unwrap_or(USUAL_STRIDE_M));
    if !session.groups.is_empty() {
        warnings.extend(clashes(&blocks, &session.squad.timing));
        warnings.extend(late_sound(&blocks));
    }
    Ok(Plan {
        title: session.title.clone(),
        date: session.date,
        begins: session.hours.map(|hours| hours.from),
        booked_until: session.hours.map(|hours| hours.to),
        ends: session.hours.zip(ends_s).map(|(hours, ends_s)| hours.from + seconds(ends_s)),
        lasts_s: ends_s,
        is_about,
        wind: session.wind.clone(),
        track: PlanTrack {
            name: track.name().to_owned(),
            timezone: venue.timezone,
            closed_lanes: track.closed_lanes().to_vec(),
            lanes,
            ground: Arc::clone(&ground),
        },
        groups: session.groups.iter().map(|group| group.name.clone()).collect(),
        walk: SetupWalk::of(track, &setup, session.stride_m),
        setup,
        blocks,
        notes: session.notes.clone(),
        rules: venue.rules.clone(),
        cautions: cautions(track),
        warnings,
    })
}

fn past_booking(session: &Session, ends_s: f64) -> Option<Warning> {
    let hours = session.hours?;
    let over_s = ends_s - hours.length().num_seconds() as f64;
    (over_s > 0.0).then(|| Warning::PastBooking {
        ends: hours.from + seconds(ends_s),
        over_s,
        booked_from: hours.from,
        booked_until: hours.to,
    })
}

/// The start of the squads' runs that a whistle at the finish reaches last, where the delay spoils a time.
fn late_sound(blocks: &[PlanBlock]) -> Option<Warning> {
    let runs = blocks.iter().flat_map(|block| &block.reps).filter(|rep| !rep.athletes.is_empty());
    let last = runs.max_by(|a, b| a.sound_s.total_cmp(&b.sound_s))?;
    (last.sound_s >= LATE_S)
        .then_some(Warning::LateSound { distance_m: last.distance_m, late_s: last.sound_s })
}

fn seconds(seconds: f64) -> TimeDelta {
    TimeDelta::milliseconds((seconds * 1000.0).round() as i64)
}

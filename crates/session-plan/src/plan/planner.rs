//! From a session and a venue to a plan.

use std::sync::Arc;

use chrono::TimeDelta;
use lane_distance::{Course, Track};

use crate::people::hours::Hours;
use crate::people::session::Session;
use crate::people::venue::Venue;
use crate::plan::caution::{Caution, cautions};
use crate::plan::change::changes;
use crate::plan::clash::clashes;
use crate::plan::coach_place::CoachPlace;
use crate::plan::day_track::DayTrack;
use crate::plan::evening::{Evening, evening};
use crate::plan::fault::PlanError;
use crate::plan::kept::Kept;
use crate::plan::one_coach::one_coach;
use crate::plan::overrun::Overrun;
use crate::plan::plan::{Plan, PlanLane, PlanTrack};
use crate::plan::plan_block::PlanBlock;
use crate::plan::remark::Remark;
use crate::plan::retrial::Retrial;
use crate::plan::setup_walk::{SettingOut, SetupWalk, USUAL_STRIDE_M};
use crate::plan::standing_hurdles::through_hurdles;
use crate::plan::warning::Warning;

/// A sound that needs so long spoils a time that is started by it, in seconds.
const LATE_S: f64 = 0.05;

/// Lays a session out on the track of a venue.
///
/// Each run gets the best of the pairs of [`lane_distance::Track::search_at`], unless the way from
/// the run before it fixes its start. Where a block names no lane, the house rules choose, then the
/// innermost open lane; the plan says which and why. Where a block breaks a house rule, the plan says
/// which. After [late changes](crate::LateChanges) as many as can be stay in the waves that they had without them.
///
/// # Errors
///
/// Every block that names a lane that is missing or closed, or a run that does not fit.
pub fn plan(venue: &Venue, session: &Session) -> Result<Plan, Vec<PlanError>> {
    if !session.has_late_changes() {
        return plan_with(venue, session, &Kept::default());
    }
    // What could not be planned before has no waves to keep.
    let before = plan_with(venue, &session.as_written(), &Kept::default()).ok();
    let before = before.as_ref().map(Kept::of).unwrap_or_default();
    let anew = plan_with(venue, session, &Kept::default());
    match &anew {
        Ok(plan) if Kept::of(plan) != before => plan_with(venue, session, &before),
        // Everybody stays without a word.
        _ => anew,
    }
}

/// Lays a session out anew after a late change, such as an athlete who is absent or a lane that has
/// been closed: as [`plan`] does, and of the plans that are as good, one in which as many as can be
/// stay in the waves that `before` gave them.
///
/// # Errors
///
/// As for [`plan`].
pub fn replan(venue: &Venue, session: &Session, before: &Plan) -> Result<Plan, Vec<PlanError>> {
    plan_with(venue, session, &Kept::of(before))
}

fn plan_with(venue: &Venue, written: &Session, kept: &Kept) -> Result<Plan, Vec<PlanError>> {
    let (venue, session) = (&after_changes(venue, written), &written.of_present());
    let begins = session.begins();
    let hours = in_hours(session);
    let ground = Arc::new(venue.track_at(hours.as_ref()));
    let track = ground.as_ref();
    let day = DayTrack::new(venue, hours);
    let Evening { mut blocks, mut warnings, moved, ends_s, is_about } =
        evening(venue, &day, session, kept, None)?;
    let overrun = ends_s
        .and_then(|ends_s| Retrial { venue, track, hours, session, kept, blocks: &blocks }.overrun(ends_s));
    let lanes = track
        .layout()
        .lane_numbers(Course::Oval)
        .filter_map(|lane| Some(PlanLane { lane, lap_m: track.lap_m(lane).ok()? }))
        .collect();
    warnings.extend(overrun.as_ref().and_then(|overrun| past_booking(session, overrun)));
    for block in &mut blocks {
        block.coach = CoachPlace::of(track, &block.reps);
        if block.coach.is_none() && !block.reps.is_empty() {
            block.remarks.push(Remark::NoPlaceForCoach);
        }
    }
    one_coach(track, &mut blocks, &session.squad.timing);
    let stride_m = session.stride_m.unwrap_or(USUAL_STRIDE_M);
    let SettingOut { cones, painted } =
        SettingOut::of(track, &blocks, stride_m, session.cones, session.groups.is_empty());
    if !session.groups.is_empty() {
        warnings.extend(without_guide(written));
        warnings.extend(clashes(&blocks, &session.squad.timing));
        warnings.extend(through_hurdles(track, &blocks));
        warnings.extend(late_sound(&blocks));
    }
    Ok(Plan {
        title: session.title.clone(),
        date: session.date,
        begins,
        booked_until: session.hours.map(|hours| hours.to),
        ends: begins.zip(ends_s).map(|(begins, ends_s)| begins + seconds(ends_s)),
        lasts_s: ends_s,
        is_about,
        changes: changes(written, moved),
        overrun,
        wind: session.wind_now().cloned(),
        page: session.page.clone(),
        track: PlanTrack {
            name: track.name().to_owned(),
            timezone: venue.timezone,
            closed_lanes: track.closed_lanes().to_vec(),
            lanes,
            ground: Arc::clone(&ground),
        },
        groups: session.groups.iter().map(|group| group.name.clone()).collect(),
        walk: SetupWalk::of(track, &cones, session.stride_m),
        setup: cones,
        painted,
        notes: session.notes.clone(),
        rules: venue.rules.clone(),
        cautions: cautions_of(track, &blocks),
        blocks,
        warnings,
    })
}

/// What to take care of on a track in some blocks; that the venue comes first stays last.
fn cautions_of(track: &Track, blocks: &[PlanBlock]) -> Vec<Caution> {
    let mut cautions = cautions(track);
    if blocks.iter().flat_map(|block| &block.reps).any(|rep| rep.handover.is_some()) {
        cautions.insert(cautions.len() - 1, Caution::BatonPractice);
    }
    cautions
}

/// The venue with the lanes that have been closed and the hazards that have come into use.
fn after_changes(venue: &Venue, session: &Session) -> Venue {
    let mut venue =
        venue.clone().with_lanes_closed(&session.late.closed).with_closures(&session.late.closures);
    let to = Hours::last_of_day();
    for begun in &session.late.hazards {
        let from = begun.from.or(session.begins()).unwrap_or_default();
        venue = venue.with_hazard_in(begun.hazard, Hours { from, to });
    }
    venue
}

/// The athletes who are there, and whose guides are not.
fn without_guide(session: &Session) -> impl Iterator<Item = Warning> + '_ {
    let is_absent = |name: &String| session.late.without.contains(name);
    let athletes = session.groups.iter().flat_map(|group| &group.athletes);
    athletes.filter(move |athlete| !is_absent(&athlete.name)).filter_map(move |athlete| {
        let guide = athlete.guide.clone().filter(is_absent)?;
        Some(Warning::NoGuide { athlete: athlete.name.clone(), guide })
    })
}

/// When the track is the squad's: from the start of the session to the end of its booking, or to that of the day.
fn in_hours(session: &Session) -> Option<Hours> {
    let last = Hours::last_of_day();
    let from = session.begins().filter(|from| *from < last)?;
    Some(Hours { from, to: session.hours.map_or(last, |hours| hours.to) })
}

fn past_booking(session: &Session, overrun: &Overrun) -> Option<Warning> {
    let hours = session.hours?;
    Some(Warning::PastBooking {
        ends: overrun.ends,
        over_s: overrun.over_s,
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

//! From a session and a venue to a plan.

use std::sync::Arc;

use chrono::TimeDelta;
use lane_distance::Course;

use crate::people::session::{BETWEEN_BLOCKS_S, Session};
use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::block_layout::plan_block;
use crate::plan::caution::cautions;
use crate::plan::clash::clashes;
use crate::plan::clock::Clock;
use crate::plan::coach_place::CoachPlace;
use crate::plan::fault::{PlanError, PlanFault};
use crate::plan::kept::Kept;
use crate::plan::plan::{Plan, PlanLane, PlanTrack};
use crate::plan::plan_block::PlanBlock;
use crate::plan::remark::Remark;
use crate::plan::setup_walk::{SetupWalk, USUAL_STRIDE_M, walk};
use crate::plan::squad_block::{self, Party};
use crate::plan::warning::Warning;
use crate::plan::who::Who;
use workout_notation::{Block, MOST_REPS};

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
    let mut planned = Planned { kept, ..Planned::default() };
    if session.groups.iter().any(|group| !group.athletes.is_empty()) {
        planned.add_squads(venue, track, session);
    } else if session.groups.is_empty() {
        planned.add(venue, track, &session.blocks, &Who { session, group: None }, None);
    }
    // Groups without athletes have a clock of their own each.
    for (index, group) in session.groups.iter().enumerate().filter(|(_, group)| group.athletes.is_empty()) {
        let blocks = group.blocks.as_ref().unwrap_or(&session.blocks);
        let own = group.blocks.as_ref().map(|_| index);
        planned.add(venue, track, blocks, &Who { session, group: Some(group) }, own);
    }
    if !planned.errors.is_empty() {
        return Err(planned.errors);
    }
    let lanes = track
        .layout()
        .lane_numbers(Course::Oval)
        .filter_map(|lane| Some(PlanLane { lane, lap_m: track.lap_m(lane).ok()? }))
        .collect();
    let mut warnings = planned.warnings;
    if planned.has_break && session.between_blocks_s.is_none() {
        warnings.push(Warning::BreakAssumed { break_s: BETWEEN_BLOCKS_S });
    }
    let ends_s = planned.ends_s;
    warnings.extend(ends_s.and_then(|ends_s| past_booking(session, ends_s)));
    let mut blocks = planned.blocks;
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

/// What has been laid out so far.
#[derive(Default)]
struct Planned {
    /// The waves of a plan that was made before.
    kept: Kept,
    blocks: Vec<PlanBlock>,
    errors: Vec<PlanError>,
    warnings: Vec<Warning>,
    reps: u32,
    has_break: bool,
    /// The end of the last group, if all are known.
    ends_s: Option<f64>,
    is_end_unknown: bool,
}

impl Planned {
    /// The blocks of squads: those of all parties with the same place in their lists at once.
    fn add_squads(&mut self, venue: &Venue, track: &lane_distance::Track, session: &Session) {
        let parties: Vec<Party<'_>> = (squad_block::parties(session).into_iter())
            .filter(|party| party.groups.iter().any(|group| !group.athletes.is_empty()))
            .collect();
        let mut clock = Clock::new(session.between_blocks_s.unwrap_or(BETWEEN_BLOCKS_S));
        let rounds = parties.iter().map(|party| party.blocks.len()).max().unwrap_or(0);
        for round in 0..rounds {
            if !self.add_round(venue, track, session, &parties, round, &mut clock) {
                return;
            }
        }
        self.end_at(clock.now_s());
    }

    /// One block of each party, all begun at the same time; false where the session is too long.
    fn add_round(
        &mut self,
        venue: &Venue,
        track: &lane_distance::Track,
        session: &Session,
        parties: &[Party<'_>],
        round: usize,
        clock: &mut Clock,
    ) -> bool {
        let mut made: Vec<(usize, PlanBlock)> = Vec::new();
        let mut of = Vec::new();
        let mut tasks = Vec::new();
        let mut ends: Vec<Clock> = Vec::new();
        for (place, party) in parties.iter().enumerate() {
            let Some(block) = party.blocks.get(round) else { continue };
            let at = BlockAt { group: party.group, block: round };
            let error = |fault| PlanError { at, fault };
            if !self.has_room(at, block) {
                return false;
            }
            match squad_block::task(venue, track, session, party, (at, block), &mut self.warnings) {
                Ok(Some(task)) => {
                    of.push(place);
                    tasks.push(task);
                }
                // What waves cannot run is done by each group together; what is no run by everybody.
                Ok(None) => {
                    let groups = if block.count() == 0 { &party.groups[..1] } else { &party.groups[..] };
                    for group in groups {
                        let mut own = *clock;
                        let is_own = block.count() > 0 || party.group.is_some();
                        let who = Who { session, group: is_own.then_some(*group) };
                        match plan_block(venue, track, (at, block), &who, &mut own, &mut self.warnings) {
                            Ok(planned) => made.push((place, planned)),
                            Err(fault) => self.errors.push(error(fault)),
                        }
                        ends.push(own);
                    }
                }
                Err(fault) => self.errors.push(error(fault)),
            }
        }
        if !tasks.is_empty() {
            let mut own = *clock;
            let begins_s = own.begin_runs();
            match squad_block::plan_tasks(track, session, &tasks, &self.kept, begins_s) {
                Ok((blocks, end_s)) => {
                    made.extend(of.into_iter().zip(blocks));
                    own.end_runs(end_s);
                }
                Err(error) => self.errors.push(error),
            }
            ends.push(own);
        }
        made.sort_by_key(|(place, _)| *place);
        self.blocks.extend(made.into_iter().map(|(_, planned)| planned));
        // The next round begins when the last of this one is done.
        let end_s = ends.iter().try_fold(0.0_f64, |latest, end| end.now_s().map(|end_s| latest.max(end_s)));
        if let Some(last) = ends.pop() {
            *clock = last;
            clock.end_runs(end_s);
        }
        self.has_break |= clock.has_break && clock.now_s().is_some();
        true
    }

    fn add(
        &mut self,
        venue: &Venue,
        track: &lane_distance::Track,
        blocks: &[Block],
        who: &Who<'_>,
        group: Option<usize>,
    ) {
        let mut clock = Clock::new(who.session.between_blocks_s.unwrap_or(BETWEEN_BLOCKS_S));
        for (index, block) in blocks.iter().enumerate() {
            let at = BlockAt { group, block: index };
            if !self.has_room(at, block) {
                return;
            }
            match plan_block(venue, track, (at, block), who, &mut clock, &mut self.warnings) {
                Ok(planned) => self.blocks.push(planned),
                Err(fault) => self.errors.push(PlanError { at, fault }),
            }
        }
        self.has_break |= clock.has_break && clock.now_s().is_some();
        self.end_at(clock.now_s());
    }

    /// Counts the repetitions of a block; false, and an error, where they are too many.
    fn has_room(&mut self, at: BlockAt, block: &Block) -> bool {
        self.reps = self.reps.saturating_add(block.count());
        let has_room = self.reps <= MOST_REPS;
        if !has_room {
            self.errors.push(PlanError { at, fault: PlanFault::TooManyReps.at(0..block.text.len()) });
        }
        has_room
    }

    fn end_at(&mut self, now_s: Option<f64>) {
        match now_s {
            Some(now_s) if !self.is_end_unknown => self.ends_s = Some(self.ends_s.unwrap_or(0.0).max(now_s)),
            _ => (self.ends_s, self.is_end_unknown) = (None, true),
        }
        // A session of notes alone, or of nothing, has no end worth telling.
        if self.ends_s == Some(0.0) {
            self.ends_s = None;
        }
    }
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

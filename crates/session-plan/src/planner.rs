//! From a session and a venue to a plan.

use chrono::TimeDelta;
use lane_distance::Course;

use crate::block_plan::{Who, plan_block};
use crate::caution;
use crate::clock::Clock;
use crate::house_rules::HouseRules;
use crate::notation::{Block, MOST_REPS};
use crate::plan::{Plan, PlanBlock, PlanLane, PlanTrack};
use crate::plan_words::clock;
use crate::problem::Problem;
use crate::session::{BETWEEN_BLOCKS_S, Group, Session};
use crate::setup;
use crate::venue::Venue;

/// What cannot be laid out on the track, and where it is written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanError {
    /// The group whose block it is, counted from 0; nothing for a block of the session.
    pub group: Option<usize>,
    /// The block, counted from 0.
    pub block: usize,
    /// What is wrong, with its place in the block's text.
    pub problem: Problem,
}

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
    let track = &venue.track_at(session.hours.as_ref());
    let mut planned = Planned::default();
    // Without groups everybody does the same; with them each group has a clock of its own.
    let groups: Vec<Option<(usize, &Group)>> = match session.groups.as_slice() {
        [] => vec![None],
        groups => groups.iter().enumerate().map(Some).collect(),
    };
    for group in groups {
        let own = group.and_then(|(index, group)| Some((index, group.blocks.as_ref()?)));
        let blocks = own.map_or(&session.blocks, |(_, blocks)| blocks);
        let who = Who { session, group: group.map(|(_, group)| group) };
        planned.add(venue, track, blocks, &who, own.map(|(index, _)| index));
    }
    if !planned.errors.is_empty() {
        return Err(planned.errors);
    }
    let lanes = (1..=track.layout().lanes_of(Course::Oval))
        .filter_map(|lane| Some(PlanLane { lane, lap_m: track.lap_m(lane).ok()? }))
        .collect();
    let etiquette = if venue.rules == HouseRules::default() { Vec::new() } else { venue.rules.etiquette() };
    let mut warnings = planned.warnings;
    if planned.has_break && session.between_blocks_s.is_none() {
        let assumed = clock(BETWEEN_BLOCKS_S);
        warnings.push(format!(
            "Between blocks {assumed} are assumed; `between_blocks` in the session file says better."
        ));
    }
    let ends_s = planned.ends_s;
    warnings.extend(ends_s.and_then(|ends_s| past_booking(session, ends_s)));
    let blocks = planned.blocks;
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
        },
        setup: setup::walk(track, &blocks),
        blocks,
        notes: session.notes.clone(),
        etiquette,
        cautions: caution::general(track),
        warnings,
    })
}

/// What has been laid out so far.
#[derive(Default)]
struct Planned {
    blocks: Vec<PlanBlock>,
    errors: Vec<PlanError>,
    warnings: Vec<String>,
    reps: u32,
    has_break: bool,
    /// The end of the last group, if all are known.
    ends_s: Option<f64>,
    is_end_unknown: bool,
}

impl Planned {
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
            self.reps = self.reps.saturating_add(block.count());
            if self.reps > MOST_REPS {
                let message = format!("the session has more than {MOST_REPS} repetitions");
                let problem =
                    Problem::new(0..block.text.len(), message).with_help("split it into several sessions");
                self.errors.push(PlanError { group, block: index, problem });
                return;
            }
            match plan_block(venue, track, block, who, &mut clock, &mut self.warnings) {
                Ok(planned) => self.blocks.push(planned),
                Err(problem) => self.errors.push(PlanError { group, block: index, problem }),
            }
        }
        self.has_break |= clock.has_break && clock.now_s().is_some();
        match clock.now_s() {
            Some(now_s) if !self.is_end_unknown => self.ends_s = Some(self.ends_s.unwrap_or(0.0).max(now_s)),
            _ => (self.ends_s, self.is_end_unknown) = (None, true),
        }
        // A session of notes alone, or of nothing, has no end worth telling.
        if self.ends_s == Some(0.0) {
            self.ends_s = None;
        }
    }
}

fn past_booking(session: &Session, ends_s: f64) -> Option<String> {
    let hours = session.hours?;
    let over_s = ends_s - hours.length().num_seconds() as f64;
    (over_s > 0.0).then(|| {
        format!(
            "The session ends at {}, {} after the booking, {hours}, is over.",
            (hours.from + seconds(ends_s)).format("%H:%M"),
            clock(over_s)
        )
    })
}

fn seconds(seconds: f64) -> TimeDelta {
    TimeDelta::milliseconds((seconds * 1000.0).round() as i64)
}

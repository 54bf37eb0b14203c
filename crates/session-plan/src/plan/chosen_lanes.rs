//! The lanes that a block is laid out in.

use std::collections::BTreeSet;

use lane_distance::{LaneNumber, Track};
use workout_notation::{Block, RunKind, Spanned, Step};

use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::chain;
use crate::plan::crew::{Crew, Entrant};
use crate::plan::fault::Planned;
use crate::plan::lane_move::{LaneMove, LaneMover, move_own_lanes};
use crate::plan::location::{Location, Share, location, rule_of, ruled_m};
use crate::plan::pairing::Prefer;
use crate::plan::trial::TrialChange;

/// The lanes of a block, and why.
pub(crate) struct ChosenLanes {
    pub(crate) location: Location,
    /// Whether the block names its lanes, or those who run it have their own.
    pub(crate) are_named: bool,
    /// Whether they are those that the session gives everybody.
    pub(crate) are_of_all: bool,
    /// The lanes that have been closed late, and what took their place.
    pub(crate) moved: Vec<LaneMove>,
}

impl ChosenLanes {
    /// The lanes that a trial, the block or those who run it name, else those that the track offers. Lanes that have
    /// been closed late give their place to open ones.
    ///
    /// # Errors
    ///
    /// As for [`location`].
    pub(crate) fn of(
        venue: &Venue,
        track: &Track,
        crew: &Crew<'_>,
        (at, block): (BlockAt, &Block),
        steps: &[Step<'_>],
        entrants: &[Entrant<'_>],
    ) -> Planned<Self> {
        let (session, rules) = (crew.session, &venue.rules);
        // The longest run says which rule holds, and what has room for it.
        let longest =
            steps.iter().filter(|step| !is_by_time(step)).max_by(|a, b| ruled_m(a).total_cmp(&ruled_m(b)));
        let first = &Step { run: longest.unwrap_or(&steps[0]).run, ..steps[0] };
        let wind = session.wind_now();
        let mut own_lanes = crew.own_lanes();
        let named: Option<Vec<u8>> = match (crew.tried(at), first.lanes) {
            (Some(TrialChange::Lanes(lanes)), _) => Some(lanes.iter().map(|lane| lane.get()).collect()),
            (_, Some(lanes)) => Some(lanes.iter().map(|lane| lane.get()).collect()),
            (_, None) => own_lanes.clone(),
        };
        let fits = |lane: u8| {
            let one = Step { lanes: None, ..*first };
            let location = location(track, rules, wind, at, &one, Some(vec![lane]), Share::AllLanes);
            let chains = location.and_then(|location| {
                chain::chains(track, steps, &location, &location.lanes, Prefer::FewestTapes)
            });
            chains.is_ok()
        };
        let rule = rule_of(rules, first);
        let is_tried = matches!(crew.tried(at), Some(TrialChange::Lanes(_)));
        let are_of_all = first.lanes.is_none() && !is_tried && !crew.has_lanes();
        let needs_two = entrants.iter().any(|entrant| entrant.lanes_beside() > 0);
        let mover =
            LaneMover { track, session, at, block, step: first, rule, needs_two, are_of_all, fits: &fits };
        let (lanes, mut moved) = named.map_or_else(Default::default, |named| mover.lanes(&named));
        let new_lanes = first.lanes.map(|named| Spanned {
            value: lanes.iter().copied().filter_map(LaneNumber::new).collect::<Vec<_>>(),
            span: named.span.clone(),
        });
        let moved_first = Step { lanes: new_lanes.as_ref(), ..*first };
        if !lanes.is_empty() && first.lanes.is_none() {
            own_lanes = Some(lanes);
        }
        let are_named = first.lanes.is_some() || own_lanes.is_some();
        let is_spread = crew.has_names() && first.together.is_none();
        // A group that starts together is soon on the inside.
        let taken = if first.together.is_none() { &crew.taken } else { &BTreeSet::new() };
        let share = if is_spread {
            Share::AllLanes
        } else {
            Share::OneLane { of_all: session.squad.lanes.as_deref(), taken }
        };
        let mut location = location(track, rules, wind, at, &moved_first, own_lanes, share)?;
        // Hazards may forbid a lane that nobody asked for.
        if !are_named && is_spread && !track.hazards().is_empty() {
            let open: Vec<LaneNumber> =
                location.lanes.iter().copied().filter(|lane| fits(lane.get())).collect();
            if !open.is_empty() {
                location.lanes = open;
            }
        }
        if !are_named {
            let own = entrants.iter().filter_map(|entrant| entrant.athlete?.lanes.as_ref()).flatten();
            move_own_lanes(session, (at, block), own.copied(), (track, &location.lanes), &mut moved);
        }
        Ok(Self { location, are_named, are_of_all, moved })
    }
}

const fn is_by_time(step: &Step<'_>) -> bool {
    matches!(step.run.kind.value, RunKind::Timed { .. })
}

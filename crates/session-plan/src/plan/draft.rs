//! A part of a block laid out for those who do it, before it has times.

use std::ops::Range;
use std::sync::Arc;

use lane_distance::{LaneNumber, Pair, Place, Track};
use wave_plan::Mode;
use workout_notation::{Block, RecoveryKind, RunKind, Stance, Step};

use crate::people::session::GROUP_OF;
use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::block_part::{hands_on, is_exchange, run_in_m};
use crate::plan::chain::{self, Chain};
use crate::plan::chosen_lanes::ChosenLanes;
use crate::plan::crew::{Crew, Entrant};
use crate::plan::estimate;
use crate::plan::fault::{PlanFault, Planned};
use crate::plan::group_start::group_start;
use crate::plan::lane_move::LaneMove;
use crate::plan::pairing::{self, EXCHANGE_RUN_IN_M, Prefer};
use crate::plan::recovery_remarks::Ways;
use crate::plan::relay::Relay;
use crate::plan::remark::Remark;
use crate::plan::run_times::{Timing, timings};
use crate::plan::together::are_together;
use crate::plan::trial::TrialChange;
use crate::plan::warning::Warning;

/// Up to this distance a lane has one runner unless the session says otherwise, in metres.
const SPRINT_M: f64 = 400.0;

/// Where somebody times, runs from this distance on finish on the finish line, in metres.
const FINISH_LINE_FROM_M: f64 = 120.0;

/// A part of a block laid out for those who do it: the whole block, unless it mixes exchanges with other runs.
pub(crate) struct Draft<'a> {
    /// The track with the hazards in use while it is run.
    pub(crate) track: Arc<Track>,
    pub(crate) at: BlockAt,
    pub(crate) block: &'a Block,
    pub(crate) steps: Vec<Step<'a>>,
    /// The place of its first run in the block, from 0.
    pub(crate) first_run: usize,
    /// Whether another part of the block follows.
    pub(crate) is_followed: bool,
    pub(crate) entrants: Vec<Entrant<'a>>,
    /// The teams of exchanges, each of which is an entrant.
    pub(crate) relay: Option<Relay<'a>>,
    /// The times of each of the entrants.
    pub(crate) timings: Vec<Vec<Timing>>,
    /// Its runs in each lane; nothing for a run by time.
    pub(crate) lanes: Vec<DraftLane>,
    /// Whether the block names its lanes, or those who run it have their own.
    pub(crate) has_own_lanes: bool,
    /// Whether it takes its lanes from those that all share, of the track or of the session.
    pub(crate) takes_share: bool,
    /// How far its longest run is, in metres.
    pub(crate) longest_m: f64,
    pub(crate) mode: Mode,
    /// Whether everybody stays in one lane.
    pub(crate) keeps_lanes: bool,
    /// Whether its runners go on along their lane from a finish to the next start.
    pub(crate) goes_on: bool,
    /// Where it is laid and what is preferred, where the other choice is worth a word.
    pub(crate) other: Option<(Place, Prefer)>,
    pub(crate) remarks: Vec<Remark>,
    /// The ways between the runs of the whole block, where this part begins it.
    pub(crate) ways: Option<Ways<'a>>,
    /// The lanes that have been closed late, and what took their place.
    pub(crate) moved: Vec<LaneMove>,
}

/// The runs of a block in one lane.
pub(crate) struct DraftLane {
    pub(crate) lane: LaneNumber,
    pub(crate) runs: Vec<Option<DraftRun>>,
}

/// One run in one lane.
#[derive(Clone, Copy, PartialEq)]
pub(crate) struct DraftRun {
    pub(crate) pair: Pair,
    /// The run in the inside lane that a group which starts together is soon on.
    pub(crate) inside: Pair,
    /// How far the runners go on along their lane after it, in metres; nothing where they do not.
    pub(crate) recovery_m: Option<f64>,
}

impl<'a> Draft<'a> {
    /// Lays out a part of a block that has runs.
    ///
    /// # Errors
    ///
    /// A [`PlanFault`] where a lane is missing or closed, or a run does not fit.
    pub(crate) fn new(
        venue: &Venue,
        ground: Arc<Track>,
        crew: &Crew<'a>,
        (at, block, part): (BlockAt, &'a Block, &Range<usize>),
        warnings: &mut Vec<Warning>,
    ) -> Planned<Self> {
        let track = ground.as_ref();
        let all = block.steps();
        let first = all.first().ok_or_else(|| PlanFault::NotARun.at(0..block.text.len()))?;
        let starts_together = first.together.is_some();
        let is_squad = crew.has_names();
        let entrants = crew.entrants();
        let ChosenLanes { mut location, are_named, are_of_all, moved } =
            ChosenLanes::of(venue, track, crew, (at, block), &all, &entrants)?;
        // A run by time is not laid out, and needs no lane.
        if !matches!(first.run.kind.value, RunKind::Timed { .. }) {
            location.warnings.iter().for_each(|warning| push_new(warnings, warning.clone()));
        }
        let lane = location.lanes.first().copied().unwrap_or(LaneNumber::FIRST);
        let mut own = (entrants.iter())
            .map(|entrant| timings(track, crew.session, &all, lane, entrant))
            .collect::<Planned<Vec<_>>>()?;
        if let Some(TrialChange::Rest(rest_s)) = crew.tried(at) {
            own.iter_mut().flatten().for_each(|timing| timing.set_rest(*rest_s));
        }
        let gaps_s: Vec<Option<f64>> = (0..all.len())
            .map(|run| own.iter().filter_map(|own| own.get(run)?.rest_s()).reduce(f64::min))
            .collect();
        let relay = Relay::of(crew, &all, part, &entrants);
        let is_alone_at_zone =
            is_squad && !starts_together && entrants.len() == 1 && all.iter().any(is_exchange);
        let (entrants, mut timings) = match &relay {
            Some(relay) => (relay.entrants(), relay.timings(track, crew.session, &all, lane, &own)?),
            // Somebody may be done before.
            None => (entrants.into_iter().zip(own))
                .map(|(entrant, own)| {
                    (entrant, own.into_iter().take(part.end).skip(part.start).collect::<Vec<_>>())
                })
                .filter(|(_, own)| !own.is_empty())
                .unzip(),
        };
        let mut longest_m: f64 = 0.0;
        for step in &all {
            longest_m = longest_m.max(pairing::distance_m(track, step, lane)?.unwrap_or(0.0));
        }
        let is_on_line = is_squad && (longest_m >= FINISH_LINE_FROM_M || crew.shares_watch);
        let usual = if is_on_line { Prefer::FinishLine } else { Prefer::FewestTapes };
        let prefer = crew.session.prefer.unwrap_or(usual);
        let inside = location.lanes.iter().copied().min().unwrap_or(LaneNumber::FIRST);
        let goes_on = all.iter().any(|step| step.recovery.is_some_and(RecoveryKind::is_onward));
        let is_abreast = crew
            .session
            .squad
            .mode
            .map_or(longest_m <= SPRINT_M, |mode| matches!(mode, Mode::OneToALane { .. }));
        let chains = if starts_together {
            chain::chains(track, &all, &location, &[inside], prefer)?
        } else if is_squad && is_abreast && !are_named && !goes_on {
            let runners = entrants.iter().map(|entrant| 1 + usize::from(entrant.lanes_beside())).sum();
            let have_room = |lanes: &[LaneNumber]| have_room(&entrants, lanes);
            chain::chains_together(track, &all, &mut location, prefer, runners, have_room)?
        } else {
            chain::chains(track, &all, &location, &location.lanes, prefer)?
        };
        // Where recoveries bend, the way is not as far as asked.
        for (run, step) in all.iter().enumerate().take(part.end).skip(part.start) {
            let way_m = chains.iter().filter_map(|chain| chain.recoveries_m[run]).reduce(f64::max);
            let Some(on_s) = way_m.and_then(|way_m| estimate::on_s(step, way_m)) else { continue };
            timings
                .iter_mut()
                .filter_map(|of| of.get_mut(run - part.start))
                .for_each(|timing| timing.set_about_rest(on_s));
        }
        let mut lanes = Vec::with_capacity(location.lanes.len());
        for (place, &lane) in location.lanes.iter().enumerate() {
            let Chain { pairs, recoveries_m, .. } = &chains[if starts_together { 0 } else { place }];
            let run = |run: usize| {
                let Some(inside) = pairs[run] else { return Ok(None) };
                let pair =
                    if starts_together { group_start(track, &all[run], &inside, lane)? } else { inside };
                Ok(Some(DraftRun { pair, inside, recovery_m: recoveries_m[run] }))
            };
            let runs = part.clone().map(run).collect::<Planned<Vec<_>>>()?;
            lanes.push(DraftLane { lane, runs });
        }
        let (is_first, is_followed) = (part.start == 0, part.end < all.len());
        let of_exchange_m = if hands_on(crew, &all) { EXCHANGE_RUN_IN_M } else { 0.0 };
        let run_ins_m: Vec<f64> = all.iter().map(|step| run_in_m(step, of_exchange_m)).collect();
        let mut draft = Self {
            track: Arc::clone(&ground),
            at,
            block,
            steps: all[part.clone()].to_vec(),
            ways: is_first.then_some(Ways { steps: all, chains, gaps_s, run_ins_m, is_squad }),
            first_run: part.start,
            is_followed,
            entrants,
            relay,
            timings,
            lanes,
            has_own_lanes: are_named,
            takes_share: !are_named || are_of_all,
            longest_m,
            mode: Mode::Together,
            keeps_lanes: false,
            goes_on: is_squad && !starts_together && goes_on,
            other: (crew.session.prefer.is_none() && is_first).then_some((location.place, prefer)),
            remarks: Vec::new(),
            moved,
        };
        // A check mark lies in one lane, and nobody needs to make room for one alone.
        let is_alone = draft.entrants.len() == 1;
        let usually_keeps = draft.relay.is_some() || has_gear(&draft.steps) || is_alone;
        draft.keeps_lanes = crew.session.squad.keeps_lanes.unwrap_or(usually_keeps);
        if is_squad
            && !starts_together
            && draft.lanes.iter().any(|lane| lane.runs.iter().any(Option::is_some))
        {
            draft.share_lanes(crew);
        }
        let no_targets = draft.no_targets(is_squad);
        draft.remarks.extend(no_targets);
        let hurdles = draft.hurdles();
        draft.remarks.extend(hurdles);
        if is_alone_at_zone && is_first {
            draft.remarks.push(Remark::NobodyToHandTo { athlete: draft.entrants[0].name().to_owned() });
        }
        Ok(draft)
    }

    /// Decides how its entrants share its lanes.
    fn share_lanes(&mut self, crew: &Crew<'_>) {
        let longest_m = self.longest_m;
        let by_distance = if longest_m <= SPRINT_M {
            Mode::OneToALane { most: None }
        } else {
            Mode::GroupToALane { most: GROUP_OF }
        };
        // Who goes on along a lane comes to the next start in it: nobody changes lanes, and all go together.
        let each = (0..self.entrants.len())
            .map(|entrant| 1 + usize::from(self.lanes_beside(entrant)))
            .sum::<usize>()
            .div_ceil(self.lanes.len().max(1));
        let by_recovery = match each {
            // A pack needs one lane.
            _ if !self.goes_on || longest_m > SPRINT_M && !self.has_own_lanes => by_distance,
            0 | 1 if self.is_together() => Mode::OneToALane { most: None },
            // Where starts in several lanes lie apart each lane has its own go.
            each => Mode::GroupToALane { most: each.clamp(1, GROUP_OF) },
        };
        self.mode = match (crew.session.squad.mode, &self.relay) {
            // A team has a lane for itself, and two of it run at once.
            (Some(Mode::OneToALane { most: Some(most) }), Some(_)) => {
                Mode::OneToALane { most: Some((most / 2).max(1)) }
            }
            (_, Some(_)) => Mode::OneToALane { most: None },
            (asked, None) => asked.unwrap_or(by_recovery),
        };
    }

    /// Whether nobody who runs it has a name.
    pub(crate) fn is_nameless(&self) -> bool {
        self.entrants.iter().all(|entrant| entrant.athlete.is_none())
    }

    /// Whether all its lanes start each run from one mark or finish it on one line.
    fn is_together(&self) -> bool {
        (0..self.steps.len()).all(|run| {
            let runs = self.lanes.iter().filter_map(|lane| Some(lane.runs[run]?.pair));
            are_together(&runs.collect::<Vec<_>>())
        })
    }

    /// How far before its zone the runner who brings the baton of an exchange sets off, in metres.
    pub(crate) const fn exchange_run_in_m(&self) -> f64 {
        if self.relay.is_some() { EXCHANGE_RUN_IN_M } else { 0.0 }
    }

    /// The block with the lanes that it is really run in, where those that it names have been closed.
    pub(crate) fn block_as_run(&self) -> Block {
        if self.moved.is_empty() {
            return self.block.clone();
        }
        let mut lanes: Vec<LaneNumber> = self.lanes.iter().map(|lane| lane.lane).collect();
        lanes.sort_unstable();
        self.block.in_lanes(&lanes)
    }

    /// Whether a run is the last of the block.
    pub(crate) fn is_last(&self, run: usize) -> bool {
        !self.is_followed && run + 1 == self.steps.len()
    }

    /// Whether it is the whole block.
    pub(crate) const fn is_whole(&self) -> bool {
        self.first_run == 0 && !self.is_followed
    }
}

/// Whether everybody may run in one of some lanes, with a guide in the next where there is one.
fn have_room(entrants: &[Entrant<'_>], lanes: &[LaneNumber]) -> bool {
    entrants.iter().all(|entrant| {
        let own = entrant.athlete.and_then(|athlete| athlete.lanes.as_ref());
        let is_own = |lane: u8| own.is_none_or(|own| own.contains(&lane));
        let is_there = |lane: u8| lanes.iter().any(|known| known.get() == lane);
        lanes.iter().any(|lane| is_own(lane.get()) && is_there(lane.get() + entrant.lanes_beside()))
    })
}

/// Whether its lanes have something in them that stays there: hurdles, or starting blocks.
fn has_gear(steps: &[Step<'_>]) -> bool {
    steps.iter().any(|step| {
        step.stance.is_some_and(|stance| stance.value == Stance::Blocks)
            || matches!(step.run.kind.value, RunKind::Hurdles { .. })
    })
}

fn push_new<T: PartialEq>(list: &mut Vec<T>, item: T) {
    if !list.contains(&item) {
        list.push(item);
    }
}

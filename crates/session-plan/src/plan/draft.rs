//! A block laid out for those who do it, before it has times.

use std::sync::Arc;

use lane_distance::{Course, LaneNumber, Pair, Place, Placement, Spot, Track};
use wave_plan::{Ground, Itinerary, Mode, Runner, Stretch};
use workout_notation::{Block, RecoveryKind, RunKind, Spanned, Stance, Step};

use crate::people::bests::TargetError;
use crate::people::session::GROUP_OF;
use crate::people::venue::Venue;
use crate::plan::block_at::BlockAt;
use crate::plan::chain::{self, Chain};
use crate::plan::crew::{Crew, Entrant};
use crate::plan::estimate;
use crate::plan::fault::{PlanFault, Planned};
use crate::plan::lane_move::{LaneMove, LaneMover, move_own_lanes};
use crate::plan::location::{Share, location, rule_of};
use crate::plan::pairing::{self, Prefer};
use crate::plan::recovery_remarks;
use crate::plan::relay::{RUN_IN_M, Relay, are_exchanges};
use crate::plan::remark::Remark;
use crate::plan::run_times::{Timing, timings};
use crate::plan::together::are_together;
use crate::plan::trial::TrialChange;
use crate::plan::warning::Warning;

/// Up to this distance a lane has one runner unless the session says otherwise, in metres.
const SPRINT_M: f64 = 400.0;

/// Where somebody times, runs from this distance on finish on the finish line, in metres.
const FINISH_LINE_FROM_M: f64 = 120.0;

/// A block laid out for those who do it.
pub(crate) struct Draft<'a> {
    /// The track with the hazards in use while it is run.
    pub(crate) track: Arc<Track>,
    pub(crate) at: BlockAt,
    pub(crate) block: &'a Block,
    pub(crate) steps: Vec<Step<'a>>,
    pub(crate) entrants: Vec<Entrant<'a>>,
    /// The teams of exchanges, each of which is an entrant.
    pub(crate) relay: Option<Relay<'a>>,
    /// The times of each of the entrants.
    pub(crate) timings: Vec<Vec<Timing>>,
    /// Its runs in each lane; nothing for a run by time.
    pub(crate) lanes: Vec<DraftLane>,
    /// Whether the block names its lanes, or those who run it have their own.
    pub(crate) has_own_lanes: bool,
    /// How far its longest run is, in metres.
    pub(crate) longest_m: f64,
    pub(crate) mode: Mode,
    /// Whether everybody stays in one lane.
    pub(crate) keeps_lanes: bool,
    /// Whether its runners go on along their lane from a finish to the next start.
    pub(crate) goes_on: bool,
    pub(crate) remarks: Vec<Remark>,
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
    /// Lays out a block that has runs.
    ///
    /// # Errors
    ///
    /// A [`PlanFault`] where a lane is missing or closed, or a run does not fit.
    pub(crate) fn new(
        venue: &Venue,
        ground: Arc<Track>,
        crew: &Crew<'a>,
        (at, block): (BlockAt, &'a Block),
        warnings: &mut Vec<Warning>,
    ) -> Planned<Self> {
        let track = ground.as_ref();
        let steps = block.steps();
        let first = steps.first().ok_or_else(|| PlanFault::NotARun.at(0..block.text.len()))?;
        let starts_together = first.together.is_some();
        let is_squad = crew.has_names();
        let mut own_lanes = crew.own_lanes();
        let crew_name = crew.name();
        let tried = crew.trial.and_then(|trial| trial.of(at, crew_name.as_deref()));
        // Lanes that have been closed late give their place to open ones.
        let named: Option<Vec<u8>> = match (tried, first.lanes) {
            (Some(TrialChange::Lanes(lanes)), _) => Some(lanes.iter().map(|lane| lane.get()).collect()),
            (_, Some(lanes)) => Some(lanes.iter().map(|lane| lane.get()).collect()),
            (_, None) => own_lanes.clone(),
        };
        let rule = rule_of(&venue.rules, first);
        let wind = crew.session.wind_now();
        let entrants = crew.entrants();
        let fits = |lane: u8| {
            let one = Step { lanes: None, ..*first };
            let location = location(track, &venue.rules, wind, at, &one, Some(vec![lane]), Share::AllLanes);
            let chains = location.and_then(|location| {
                chain::chains(track, &steps, &location, &location.lanes, Prefer::FewestTapes)
            });
            chains.is_ok()
        };
        let (step, session, needs_two) =
            (first, crew.session, entrants.iter().any(|entrant| entrant.lanes_beside() > 0));
        let mover = LaneMover { track, session, at, block, step, rule, needs_two, fits: &fits };
        let (lanes, mut moved) = named.map_or_else(Default::default, |named| mover.lanes(&named));
        let new_lanes = first.lanes.map(|named| Spanned {
            value: lanes.iter().copied().filter_map(LaneNumber::new).collect::<Vec<_>>(),
            span: named.span.clone(),
        });
        let moved_first = Step { lanes: new_lanes.as_ref(), ..*first };
        if !lanes.is_empty() && first.lanes.is_none() {
            own_lanes = Some(lanes);
        }
        let has_own_lanes = first.lanes.is_some() || own_lanes.is_some();
        let share = if is_squad && !starts_together { Share::AllLanes } else { Share::OneLane };
        let location = location(track, &venue.rules, wind, at, &moved_first, own_lanes, share)?;
        // A run by time is not laid out, and needs no lane.
        if !matches!(first.run.kind.value, RunKind::Timed { .. }) {
            location.warnings.iter().for_each(|warning| push_new(warnings, warning.clone()));
        }
        let lane = location.lanes.first().copied().unwrap_or(LaneNumber::FIRST);
        let own_lanes = entrants.iter().filter_map(|entrant| entrant.athlete?.lanes.as_ref()).flatten();
        if !has_own_lanes {
            move_own_lanes(crew.session, (at, block), own_lanes.copied(), &location.lanes, &mut moved);
        }
        let relay = Relay::of(crew, &steps, &entrants);
        let mut timings = match &relay {
            Some(relay) => relay.timings(track, crew.session, &steps, lane)?,
            None => (entrants.iter())
                .map(|entrant| timings(track, crew.session, &steps, lane, entrant))
                .collect::<Planned<Vec<_>>>()?,
        };
        let entrants = relay.as_ref().map_or(entrants, Relay::entrants);
        if let Some(TrialChange::Rest(rest_s)) = tried {
            timings.iter_mut().flatten().for_each(|timing| timing.set_rest(*rest_s));
        }
        let mut longest_m: f64 = 0.0;
        for step in &steps {
            longest_m = longest_m.max(pairing::distance_m(track, step, lane)?.unwrap_or(0.0));
        }
        let is_on_line = is_squad && (longest_m >= FINISH_LINE_FROM_M || crew.shares_watch);
        let usual = if is_on_line { Prefer::FinishLine } else { Prefer::FewestTapes };
        let prefer = crew.session.prefer.unwrap_or(usual);
        let gaps_s: Vec<Option<f64>> = (0..steps.len())
            .map(|run| timings.iter().filter_map(|timings| timings.get(run)?.rest_s()).reduce(f64::min))
            .collect();
        let inside = location.lanes.iter().copied().min().unwrap_or(LaneNumber::FIRST);
        let chained = if starts_together { vec![inside] } else { location.lanes.clone() };
        let chains = chain::chains(track, &steps, &location, &chained, prefer)?;
        // Where recoveries bend, the way is not as far as asked.
        for (run, step) in steps.iter().enumerate() {
            let way_m = chains.iter().filter_map(|chain| chain.recoveries_m[run]).reduce(f64::max);
            let Some(on_s) = way_m.and_then(|way_m| estimate::on_s(step, way_m)) else { continue };
            timings
                .iter_mut()
                .filter_map(|of| of.get_mut(run))
                .for_each(|timing| timing.set_about_rest(on_s));
        }
        let mut lanes = Vec::with_capacity(location.lanes.len());
        for (place, &lane) in location.lanes.iter().enumerate() {
            let Chain { pairs, recoveries_m, .. } = &chains[if starts_together { 0 } else { place }];
            let run = |((step, inside), recovery_m): ((&Step<'a>, &Option<Pair>), &Option<f64>)| {
                let Some(inside) = *inside else { return Ok(None) };
                let pair = if starts_together { group_start(track, step, &inside, lane)? } else { inside };
                Ok(Some(DraftRun { pair, inside, recovery_m: *recovery_m }))
            };
            let runs = steps.iter().zip(pairs).zip(recoveries_m).map(run).collect::<Planned<Vec<_>>>()?;
            lanes.push(DraftLane { lane, runs });
        }
        let mut draft = Self {
            track: Arc::clone(&ground),
            at,
            block,
            entrants,
            timings,
            lanes,
            has_own_lanes,
            longest_m,
            mode: Mode::Together,
            goes_on: false,
            // A check mark lies in one lane.
            keeps_lanes: crew
                .session
                .squad
                .keeps_lanes
                .unwrap_or_else(|| relay.is_some() || has_gear(&steps)),
            relay,
            remarks: Vec::new(),
            moved,
            steps,
        };
        if is_squad
            && !starts_together
            && draft.lanes.iter().any(|lane| lane.runs.iter().any(Option::is_some))
        {
            let by_distance = if longest_m <= SPRINT_M {
                Mode::OneToALane { most: None }
            } else {
                Mode::GroupToALane { most: GROUP_OF }
            };
            // Who goes on along a lane comes to the next start in it: nobody changes lanes, and all go together.
            draft.goes_on =
                draft.steps.iter().any(|step| step.recovery.and_then(RecoveryKind::on_m).is_some());
            let each = (0..draft.entrants.len())
                .map(|entrant| 1 + usize::from(draft.lanes_beside(entrant)))
                .sum::<usize>()
                .div_ceil(draft.lanes.len().max(1));
            let by_recovery = match each {
                _ if !draft.goes_on => by_distance,
                0 | 1 if draft.is_together() => Mode::OneToALane { most: None },
                // Where starts in several lanes lie apart each lane has its own go.
                each => Mode::GroupToALane { most: each.clamp(1, GROUP_OF) },
            };
            draft.mode = match (crew.session.squad.mode, &draft.relay) {
                // A team has a lane for itself, and two of it run at once.
                (Some(Mode::OneToALane { most: Some(most) }), Some(_)) => {
                    Mode::OneToALane { most: Some((most / 2).max(1)) }
                }
                (_, Some(_)) => Mode::OneToALane { most: None },
                (asked, None) => asked.unwrap_or(by_recovery),
            };
        }
        draft.remark(track, &chains, &gaps_s, is_squad);
        if let ([alone], true) = (draft.entrants.as_slice(), are_exchanges(crew, &draft.steps))
            && draft.relay.is_none()
        {
            draft.remarks.push(Remark::NobodyToHandTo { athlete: alone.name().to_owned() });
        }
        if crew.session.prefer.is_none() {
            let other = draft.other_choice(location.place, prefer)?;
            draft.remarks.extend(other);
        }
        Ok(draft)
    }

    /// Whether all its lanes start each run from one mark or finish it on one line.
    fn is_together(&self) -> bool {
        (0..self.steps.len()).all(|run| {
            let runs = self.lanes.iter().filter_map(|lane| Some(lane.runs[run]?.pair));
            are_together(&runs.collect::<Vec<_>>())
        })
    }

    /// Where else the first run could go, in its first lane: on paint at both ends where the finish line was wanted,
    /// or to the finish line where the fewest tapes were. Nothing for runs that name their ends.
    fn other_choice(&self, place: Place, prefer: Prefer) -> Planned<Option<Remark>> {
        let (track, step) = (self.track.as_ref(), &self.steps[0]);
        let Some(DraftLane { lane, runs }) = self.lanes.first() else { return Ok(None) };
        let is_free = step.from.is_none() && step.to.is_none() && step.together.is_none();
        let Some(Some(DraftRun { pair, .. })) = runs.first().filter(|_| is_free) else { return Ok(None) };
        let on_finish_line = prefer == Prefer::FewestTapes;
        let other = pairing::pairs(track, step, place, *lane, Prefer::default())?.into_iter().find(|other| {
            if on_finish_line {
                pair.finish.to_finish_m != 0.0 && other.finish.to_finish_m == 0.0
            } else {
                pair.ends_on_paint() < 2 && other.ends_on_paint() == 2
            }
        });
        Ok(other.map(|other| {
            let placement = |spot, reading| Box::new(Placement::from_reading(track, spot, reading));
            Remark::OtherChoice {
                lane: *lane,
                distance_m: other.distance_m,
                on_finish_line,
                start: placement(other.start, other.start_reading),
                finish: placement(other.finish, other.finish_reading),
            }
        }))
    }

    /// Each pace that gives no target, with those who have none.
    fn no_targets(&self, is_squad: bool) -> Vec<Remark> {
        let mut found: Vec<(String, &TargetError, Vec<String>)> = Vec::new();
        for (entrant, timings) in self.entrants.iter().zip(&self.timings) {
            for (step, timing) in self.steps.iter().zip(timings) {
                // A target of the athlete's own serves as well.
                let (Some(pace), Some(why), None) = (step.pace, &timing.no_target, timing.target_s) else {
                    continue;
                };
                let (pace, name) = (pace.value.to_string(), entrant.name());
                match found.iter_mut().find(|known| known.0 == pace && known.1 == why) {
                    Some((_, _, names)) if names.iter().any(|known| known == name) => {}
                    Some((_, _, names)) => names.push(name.to_owned()),
                    None => found.push((pace, why, vec![name.to_owned()])),
                }
            }
        }
        let remark = |(pace, why, mut athletes): (String, &TargetError, Vec<String>)| {
            if !is_squad || athletes.len() == self.entrants.len() {
                athletes.clear();
            }
            Remark::NoTarget { pace, why: why.clone(), athletes }
        };
        found.into_iter().map(remark).collect()
    }

    /// What there is to say of its times and of the ways between its runs.
    fn remark(&mut self, track: &Track, chains: &[Chain], gaps_s: &[Option<f64>], is_squad: bool) {
        self.remarks = recovery_remarks::of_block(track, &self.steps, chains, gaps_s, self.run_in_m());
        let no_targets = self.no_targets(is_squad);
        self.remarks.extend(no_targets);
        // What is said of one lane of a squad holds for all.
        let told = if is_squad { 1 } else { chains.len() };
        for chain in &chains[..told.min(chains.len())] {
            for remark in recovery_remarks::of_lane(track, &self.steps, chain, self.run_in_m()) {
                push_new(&mut self.remarks, remark);
            }
        }
    }

    /// How far before the start of its runs the incoming runners of exchanges begin, in metres.
    const fn run_in_m(&self) -> f64 {
        if self.relay.is_some() { RUN_IN_M } else { 0.0 }
    }

    /// What the schedule needs to know of it: how long something else is done first, and the lanes that it may use.
    pub(crate) fn itinerary(&self, after_s: f64, lanes: Vec<u8>) -> Itinerary {
        let track = self.track.as_ref();
        let stretch = |run: usize| {
            let pairs = || self.lanes.iter().filter_map(move |lane| Some((lane.lane, lane.runs[run]?.pair)));
            let distance_m = pairs().map(|(_, pair)| self.run_in_m() + pair.distance_m).reduce(f64::max)?;
            let laps_m = pairs()
                .filter(|(_, pair)| pair.start.course == Course::Oval)
                .filter_map(|(lane, _)| track.lap_m(lane).ok());
            Some(Stretch {
                distance_m,
                ground: Ground::from_laps(laps_m),
                finish_m: pairs().map(|(lane, pair)| (lane.get(), finish_m(track, &pair))).collect(),
                is_reversed: pairs().any(|(_, pair)| pair.against),
            })
        };
        let runner = |(entrant, timings): (usize, &Vec<Timing>)| Runner {
            name: self.entrants[entrant].name().to_owned(),
            times: timings.iter().map(|timing| timing.times).collect(),
            lanes: self.lanes_of(entrant),
            lanes_beside: self.lanes_beside(entrant),
        };
        Itinerary {
            after_s,
            runs: (0..self.steps.len()).map(stretch).collect(),
            lanes,
            mode: self.mode,
            keeps_lanes: self.goes_on || self.keeps_lanes,
            runners: self.timings.iter().enumerate().map(runner).collect(),
        }
    }

    /// How long the slowest would take alone, in seconds.
    pub(crate) fn alone_s(&self) -> f64 {
        let alone_s = |timings: &Vec<Timing>| {
            let rests_s: f64 = timings.iter().rev().skip(1).map(|timing| timing.times.rest_s).sum();
            timings.iter().map(|timing| timing.times.target_s).sum::<f64>() + rests_s
        };
        self.timings.iter().map(alone_s).fold(0.0, f64::max)
    }

    /// Whether every target and every rest between its runs is given.
    pub(crate) fn is_timed(&self) -> bool {
        let last = self.steps.len().saturating_sub(1);
        let is_estimated = |(run, timing): (usize, &Timing)| timing.is_estimated(run == last);
        !self.timings.iter().any(|timings| timings.iter().enumerate().any(is_estimated))
    }
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

/// How far past the finish line a run finishes, in metres along its lane in the direction of running. On a
/// straight it is before the line or on it.
fn finish_m(track: &Track, pair: &Pair) -> f64 {
    let layout = track.layout();
    let on_oval = layout.on_course(pair.finish, Course::Oval).unwrap_or(pair.finish);
    let past_m = layout.from_finish_m(on_oval);
    let is_straight = pair.finish.course != Course::Oval;
    let lap_m = if is_straight && past_m > 0.0 { track.lap_m(pair.finish.lane).unwrap_or(0.0) } else { 0.0 };
    let finish_m = past_m - lap_m;
    if pair.against { -finish_m } else { finish_m }
}

/// The run of a lane further out in a group that starts together: on the curved line, and then in
/// the inside lane.
///
/// # Errors
///
/// A [`PlanFault`] where the lane is missing or closed.
fn group_start(track: &Track, step: &Step<'_>, inside: &Pair, lane: LaneNumber) -> Planned<Pair> {
    if lane == inside.start.lane {
        return Ok(*inside);
    }
    pairing::check_lane(track, step, inside.start.course, lane)?;
    let curved = || track.layout().curved_start(inside.start.lane, inside.start.to_finish_m, lane);
    let start = match inside.start.course {
        Course::Oval => curved().unwrap_or_else(|| track.layout().abreast(inside.start, lane)),
        // On a straight the line is square across.
        _ => Spot { lane, ..inside.start },
    };
    Ok(Pair { start, start_reading: track.read(start), ..*inside })
}

//! Exchange zones in pairs: who runs with whom, and where each begins.

use std::ops::Range;
use std::sync::Arc;

use lane_distance::{LaneNumber, Pair, Placement, Track};
use workout_notation::{Gap, RunKind, Step};

use crate::people::session::Session;
use crate::people::sprint_speed::SprintSpeed;
use crate::plan::block_part::{hands_on, is_exchange};
use crate::plan::caution;
use crate::plan::check_mark::CheckMark;
use crate::plan::crew::{Crew, Entrant};
use crate::plan::estimate;
use crate::plan::fault::{PlanFault, Planned};
use crate::plan::handover::Handover;
use crate::plan::nominal::OtherLength;
use crate::plan::pairing::{self, EXCHANGE_RUN_IN_M, Zone};
use crate::plan::relay_team::{RelayTeam, relay_teams};
use crate::plan::remark::Remark;
use crate::plan::rep::Rep;
use crate::plan::run_times::Timing;

/// Those who do a block of exchanges, in teams: each team is one entry of a wave, in one lane.
pub(crate) struct Relay<'a> {
    athletes: Vec<Entrant<'a>>,
    /// Those who hand on at least once.
    teams: Vec<Team>,
    /// The part of the block that it does.
    runs: Range<usize>,
    /// Who does less than they could, because all others of their team are done.
    held_back: Vec<Remark>,
}

/// A team, by the places of its athletes among all.
struct Team {
    members: Vec<usize>,
    /// Who brings the baton in each run, and who takes it: as many as the team does.
    turns: Vec<(usize, usize)>,
}

impl Team {
    /// Athletes do no more runs than they should; the others of a team go on among themselves while there are two. The
    /// team has done `before` exchanges in other parts of the block.
    fn of(team: &RelayTeam<usize>, athletes: &[Entrant<'_>], runs: &Range<usize>, before: usize) -> Self {
        let does = |athlete: usize, run: usize| {
            let most = athletes[athlete].athlete.and_then(|athlete| athlete.reps);
            most.is_none_or(|most| run < most.max(1) as usize)
        };
        let turn = |(nth, run): (usize, usize)| {
            Some(team.of_those(|athlete| does(athlete, run))?.handing(before + nth))
        };
        let turns = runs.clone().enumerate().map_while(turn).collect();
        Self { members: team.members.clone(), turns }
    }
}

impl<'a> Relay<'a> {
    /// The teams of a part of a block; nothing for a part that has no exchanges, and where nobody has anybody to hand
    /// to.
    pub(crate) fn of(
        crew: &Crew<'a>,
        steps: &[Step<'_>],
        runs: &Range<usize>,
        athletes: &[Entrant<'a>],
    ) -> Option<Self> {
        if !hands_on(crew, steps) || !steps[runs.clone()].iter().all(is_exchange) {
            return None;
        }
        let place = |name: &String| athletes.iter().position(|athlete| athlete.name() == name);
        let listed = crew.groups.iter().flat_map(|group| &group.relay);
        let listed: Vec<Vec<usize>> = listed.map(|team| team.iter().filter_map(place).collect()).collect();
        let everybody: Vec<usize> = (0..athletes.len()).collect();
        let before = steps[..runs.start].iter().filter(|step| is_exchange(step)).count();
        let teams = relay_teams(listed, &everybody);
        let mut teams: Vec<Team> = teams.iter().map(|team| Team::of(team, athletes, runs, before)).collect();
        let held_back = teams.iter().filter_map(|team| held_back(team, athletes, (runs, steps))).collect();
        teams.retain(|team| !team.turns.is_empty());
        Some(Self { athletes: athletes.to_vec(), teams, runs: runs.clone(), held_back })
    }

    /// One of each team, for whom the team is planned.
    pub(crate) fn entrants(&self) -> Vec<Entrant<'a>> {
        self.teams.iter().map(|team| self.athletes[team.members[0]]).collect()
    }

    /// The members of a team.
    pub(crate) fn members(&self, team: usize) -> impl Iterator<Item = Entrant<'a>> {
        self.teams[team].members.iter().map(|&member| self.athletes[member])
    }

    /// Who brings the baton in a run and who takes it.
    pub(crate) fn handing(&self, team: usize, run: usize) -> [Entrant<'a>; 2] {
        let (incoming, outgoing) = self.teams[team].turns[run];
        [self.athletes[incoming], self.athletes[outgoing]]
    }

    /// How many lanes a team needs next to its own, for guides.
    pub(crate) fn lanes_beside(&self, team: usize) -> u8 {
        self.members(team).map(|member| member.lanes_beside()).max().unwrap_or(0)
    }

    /// The lanes that all of a team may run in, if not all lanes.
    pub(crate) fn lanes(&self, team: usize) -> Option<Vec<u8>> {
        let own = self.members(team).filter_map(|member| member.athlete?.lanes.clone());
        own.reduce(|lanes, own| lanes.into_iter().filter(|lane| own.contains(lane)).collect())
    }

    /// The times of each team, given those of each athlete: a run lasts from the incoming runner's start until the baton
    /// leaves the zone.
    ///
    /// # Errors
    ///
    /// Where a cycle is too short, and where the members of a team have no lane in common.
    pub(crate) fn timings(
        &self,
        track: &Track,
        session: &Session,
        steps: &[Step<'_>],
        lane: LaneNumber,
        own: &[Vec<Timing>],
    ) -> Planned<Vec<Vec<Timing>>> {
        let mut all = Vec::with_capacity(self.teams.len());
        for (number, team) in self.teams.iter().enumerate() {
            if self.lanes(number).is_some_and(|lanes| lanes.is_empty()) {
                let athletes = self.members(number).map(|member| member.name().to_owned()).collect();
                return Err(PlanFault::NoCommonLane { athletes }.at_lanes(&steps[0]));
            }
            let mut times = Vec::with_capacity(team.turns.len());
            for (run, &(incoming, outgoing)) in self.runs.clone().zip(&team.turns) {
                let step = &steps[run];
                let mut timing = own[incoming][run].clone();
                let zone_m = pairing::distance_m(track, step, lane)?.unwrap_or(0.0);
                let asked = timing.target_s.map(|target_s| zone_m / target_s);
                let speeds = self.speeds(session, (incoming, outgoing), asked);
                timing.times.target_s = lasts_s(speeds, zone_m, timing.target_s).ceil();
                match timing.gap {
                    Some(Gap::Cycle(cycle_s)) => {
                        let lasts_s = timing.times.target_s;
                        let is_target = timing.target_s.is_some();
                        if is_target && cycle_s < lasts_s && !session.force {
                            let fault = PlanFault::CycleTooShort { who: None, cycle_s, lasts_s, is_target };
                            return Err(fault.at_gap(step));
                        }
                        timing.times.rest_s = (cycle_s - lasts_s).max(0.0);
                    }
                    Some(Gap::Rest(_)) => {}
                    None => timing.times.rest_s = estimate::rest_s(step, EXCHANGE_RUN_IN_M + zone_m),
                }
                times.push(timing);
            }
            all.push(times);
        }
        Ok(all)
    }

    /// How fast the incoming and the outgoing runner are: the incoming one as the block says, where it gives a target
    /// through the zone, and the outgoing one alike where nothing else is known.
    fn speeds(
        &self,
        session: &Session,
        (incoming, outgoing): (usize, usize),
        zone_m_per_s: Option<f64>,
    ) -> (SprintSpeed, SprintSpeed) {
        let of = |athlete: usize| SprintSpeed::from_bests(self.athletes[athlete].bests(session));
        match zone_m_per_s.map(SprintSpeed::from_end) {
            None => (of(incoming), of(outgoing)),
            Some(asked) => (asked, Some(of(outgoing)).filter(|known| !known.is_usual).unwrap_or(asked)),
        }
    }

    /// Who does less than they could, because all others of their team are done.
    pub(crate) fn held_back(&self) -> &[Remark] {
        &self.held_back
    }

    /// What there is to say of the check marks of its runs, if they have any.
    pub(crate) fn remark(&self, session: &Session, reps: &[Rep]) -> Option<Remark> {
        let handovers: Vec<&Handover> = reps.iter().filter_map(|rep| rep.handover.as_ref()).collect();
        let about: Vec<&str> = (handovers.iter().filter(|handover| handover.check_mark.is_about))
            .flat_map(|handover| [handover.incoming.as_str(), handover.outgoing.as_str()])
            .collect();
        let is_unknown = |athlete: &&Entrant<'_>| {
            about.contains(&athlete.name()) && SprintSpeed::from_bests(athlete.bests(session)).is_usual
        };
        let unknown: Vec<String> =
            self.athletes.iter().filter(is_unknown).map(|athlete| athlete.name().to_owned()).collect();
        let of_nobody = unknown.len() == self.athletes.len();
        let unknown = if of_nobody { Vec::new() } else { unknown };
        (!handovers.is_empty()).then_some(Remark::CheckMarksAreAStart { unknown, of_nobody })
    }

    /// Makes a run through a zone the exchange of a team.
    pub(crate) fn set_handover(
        &self,
        (track, session, step): (&Track, &Session, &Step<'_>),
        pair: &Pair,
        (team, run): (usize, usize),
        rep: &mut Rep,
    ) {
        let RunKind::Exchange { zone } = step.run.kind.value else { return };
        let (incoming, outgoing) = self.teams[team].turns[run];
        let asked = rep.target_s.map(|target_s| pair.distance_m / target_s);
        let check_mark = check_mark(self.speeds(session, (incoming, outgoing), asked));
        let before = |back_m: f64| pairing::run_in(track, pair, back_m);
        let (Some(spot), Some(begins)) = (before(check_mark.back_m), before(EXCHANGE_RUN_IN_M)) else {
            return;
        };
        let placement = |spot| {
            let placement = Placement::of(track, spot);
            match session.stride_m {
                Some(stride_m) => placement.with_strides(stride_m),
                None => placement,
            }
        };
        let Zone { zone_m, before_zone_m } = pairing::zone(track, pair.start.lane, zone);
        let name = |athlete: usize| self.athletes[athlete].name().to_owned();
        rep.handover = Some(Handover {
            zone,
            zone_m,
            before_zone_m,
            incoming: name(incoming),
            outgoing: name(outgoing),
            check_mark,
            spot: placement(spot),
        });
        (rep.run_in, rep.run_in_m) = (Some(placement(begins)), Some(EXCHANGE_RUN_IN_M));
        let why = OtherLength::ZoneWithRunIn { distance_m: pair.distance_m, run_in_m: EXCHANGE_RUN_IN_M };
        rep.nominal.why = Some(why);
        // The clock starts with the incoming runner: no time is known at the paint of the zone.
        rep.splits = Arc::default();
        rep.cautions = caution::of_run(track, &pairing::whole_way(track, pair, EXCHANGE_RUN_IN_M));
    }
}

/// Who of a team does less of some runs than they could, because all others of it are done.
fn held_back(
    team: &Team,
    athletes: &[Entrant<'_>],
    (runs, steps): (&Range<usize>, &[Step<'_>]),
) -> Option<Remark> {
    let Team { members, turns } = team;
    if turns.len() == runs.len() {
        return None;
    }
    let after = runs.start + turns.len();
    let is_done = |&&member: &&usize| {
        let most = athletes[member].athlete.and_then(|athlete| athlete.reps);
        most.is_some_and(|most| most.max(1) as usize <= after)
    };
    let (done, others): (Vec<&usize>, Vec<&usize>) = members.iter().partition(is_done);
    let ([.., done], [alone]) = (done.as_slice(), others.as_slice()) else { return None };
    let name = |athlete: usize| athletes[athlete].name().to_owned();
    // The last exchange may be in a part before.
    let after = steps[..after].iter().rposition(is_exchange).map_or(0, |last| last + 1);
    let goes_on = !steps[after..].iter().all(is_exchange);
    Some(Remark::DoneWithPartner { athlete: name(**alone), because_of: name(**done), after, goes_on })
}

fn check_mark((incoming, outgoing): (SprintSpeed, SprintSpeed)) -> CheckMark {
    let mark = CheckMark::from_speeds(incoming.end_m_per_s, outgoing.top_m_per_s, EXCHANGE_RUN_IN_M);
    CheckMark { is_about: incoming.is_usual || outgoing.is_usual, ..mark }
}

/// How long an exchange lasts, in seconds: the run-in, then the zone in its target or at what the two can run.
fn lasts_s((incoming, outgoing): (SprintSpeed, SprintSpeed), zone_m: f64, target_s: Option<f64>) -> f64 {
    let run_in = incoming.getting_up();
    match target_s {
        Some(target_s) => run_in.time_s(EXCHANGE_RUN_IN_M) + target_s,
        None => {
            let mark = check_mark((incoming, outgoing));
            let on_m = (zone_m - mark.exchange_m).max(0.0);
            run_in.time_s(EXCHANGE_RUN_IN_M + mark.exchange_m - mark.arms_m) + on_m / outgoing.top_m_per_s
        }
    }
}

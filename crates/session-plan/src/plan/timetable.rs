//! Blocks of a crew with their times.

use std::collections::BTreeSet;

use wave_plan::{ItineraryPlan, Mode, WavePlan};
use workout_notation::{Gap, RunKind};

use crate::people::session::{Athlete, Session};
use crate::plan::block_part::run_in_m;
use crate::plan::caution;
use crate::plan::crew::{Crew, Entrant};
use crate::plan::day_track::DayTrack;
use crate::plan::draft::{Draft, DraftRun};
use crate::plan::kept::Kept;
use crate::plan::nominal;
use crate::plan::own_time::{ALIKE_S, LAP_M, OwnTime};
use crate::plan::pairing;
use crate::plan::plan_block::PlanBlock;
use crate::plan::relay::Relay;
use crate::plan::remark::{Remark, SetTakes};
use crate::plan::rep::{Guide, Rep, RepTimes};
use crate::plan::run_times::Timing;
use crate::plan::split::splits;
use crate::plan::together::are_together;

/// A block that takes this many times as long as one athlete alone deserves a remark.
const MUCH_LONGER: f64 = 1.5;

/// A block that is laid out, and when its waves go.
pub(crate) struct Timetable<'a> {
    pub(crate) day: &'a DayTrack<'a>,
    pub(crate) crew: &'a Crew<'a>,
    pub(crate) draft: &'a Draft<'a>,
    pub(crate) planned: &'a ItineraryPlan,
    /// The lanes that it may use.
    pub(crate) lanes: &'a [u8],
    /// Whether anything before it was estimated.
    pub(crate) begins_about: bool,
}

/// Repetitions that are alike but for their times and who runs them.
struct Alike {
    run: DraftRun,
    kind: RunKind,
    target_s: Option<f64>,
    /// Where the first of them is in the block.
    rep: usize,
}

impl Timetable<'_> {
    /// Whether estimated times are shown: where an evening has hours, athletes or several groups. A workout alone gets
    /// none.
    fn shows_estimates(&self) -> bool {
        shows_estimates(self.crew.session, self.crew)
    }

    /// The block with its repetitions.
    pub(crate) fn block(&self, kept: &Kept) -> PlanBlock {
        let draft = self.draft;
        let read = draft.block_as_run();
        let mut block = PlanBlock::empty(draft.at, &read, self.crew.name(), self.crew.group_names());
        let kinds = draft.steps.iter().map(|step| step.run.kind.value);
        block.timed_s.extend(kinds.filter_map(|kind| match kind {
            RunKind::Timed { seconds } => Some(seconds),
            _ => None,
        }));
        let mut alike: Vec<Alike> = Vec::new();
        for run in 0..draft.steps.len() {
            for (number, wave) in
                self.planned.waves.iter().enumerate().filter(|(_, wave)| run < wave.go_s.len())
            {
                self.add_reps(wave, (number, run), &mut block.reps, &mut alike);
            }
        }
        let used = block.reps.iter().map(|rep| rep.lane).collect();
        block.remarks.extend(draft.ways.iter().flat_map(|ways| ways.remarks(&draft.track, &used)));
        block.remarks.extend(draft.remarks.iter().cloned());
        // Where it cannot be had there is nothing to say.
        block.remarks.extend(draft.other_choice(self.lanes).ok().flatten());
        block.remarks.extend(self.run_in(&block.reps));
        block.remarks.extend(self.no_common_place());
        if block.reps.is_empty() {
            block.note = Some(read.text.trim().to_owned());
            // With the rests, where they are given.
            let runs_s = || draft.timings[0].iter().map(|timing| timing.target_s).sum();
            block.lasts_s = if draft.is_timed() { Some(draft.alone_s()) } else { runs_s() };
        } else if self.crew.has_names() {
            let lasts_s = self.planned.end_s - self.planned.begins_s;
            block.lasts_s = Some(lasts_s);
            self.remark(lasts_s, kept, &mut block.remarks);
            block.remarks.extend(draft.relay.iter().flat_map(Relay::held_back).cloned());
            block
                .remarks
                .extend(draft.relay.as_ref().and_then(|relay| relay.remark(self.crew.session, &block.reps)));
        }
        block
    }

    /// That the lanes of a wave have no place in common, where that is so.
    fn no_common_place(&self) -> Option<Remark> {
        let (mut runs, mut lanes) = (Vec::new(), BTreeSet::new());
        let searched =
            self.draft.steps.iter().enumerate().filter(|(_, step)| !pairing::is_placed_by_track(step));
        for (run, _) in searched.filter(|_| self.draft.mode != Mode::Together) {
            for wave in self.planned.waves.iter().filter(|wave| run < wave.go_s.len()) {
                let laid = self.by_lane(wave, run).into_iter().filter_map(|(lane, _)| {
                    let of_lane = self.draft.lanes.iter().find(|known| known.lane.get() == lane)?;
                    Some((of_lane.lane, of_lane.runs[run]?.pair))
                });
                let (of_wave, pairs): (Vec<_>, Vec<_>) = laid.unzip();
                if !are_together(&pairs) {
                    runs.push((self.draft.first_run + run + 1) as u32);
                    lanes.extend(of_wave);
                }
            }
        }
        runs.dedup();
        (!runs.is_empty()).then(|| Remark::NoCommonPlace { runs, lanes: lanes.into_iter().collect() })
    }

    /// That a go time is when the runners of flying runs set off, where there is one to go by.
    fn run_in(&self, reps: &[Rep]) -> Option<Remark> {
        let run_in_m = self.draft.steps.iter().find_map(|step| nominal::run_in_m(step.run.kind.value))?;
        let all = || self.draft.timings.iter().flatten().map(|timing| timing.run_in_s).filter(|s| *s > 0.0);
        let (from_s, to_s) = (all().reduce(f64::min)?, all().reduce(f64::max)?);
        let has_go = reps.len() > 1 && reps.iter().any(|rep| rep.go_s.is_some());
        has_go.then_some(Remark::GoBeforeRunIn { run_in_m, from_s, to_s })
    }

    /// The members of a wave who do a run, by lane: nobody by name where a group runs as one.
    fn by_lane(&self, wave: &WavePlan, run: usize) -> Vec<(u8, Vec<usize>)> {
        let members = || wave.members.iter().enumerate();
        let does = |member: usize| run < self.draft.timings[member].len();
        if !self.crew.has_names() {
            return self.draft.lanes.iter().map(|lane| (lane.lane.get(), wave.members.clone())).collect();
        }
        let mut lanes: Vec<(u8, Vec<usize>)> = Vec::new();
        for (place, &member) in members().filter(|(_, member)| does(**member)) {
            let lane = wave.lanes[run][place];
            match lanes.iter_mut().find(|(known, _)| *known == lane) {
                Some((_, members)) => members.push(member),
                None => lanes.push((lane, vec![member])),
            }
        }
        lanes.sort_unstable();
        lanes
    }

    fn add_reps(
        &self,
        wave: &WavePlan,
        (number, run): (usize, usize),
        reps: &mut Vec<Rep>,
        alike: &mut Vec<Alike>,
    ) {
        let draft = self.draft;
        let step = &draft.steps[run];
        let is_about = self.is_about(number, run);
        let go_s = Some(wave.go_s[run]).filter(|_| !is_about || self.shows_estimates());
        for (lane, members) in self.by_lane(wave, run) {
            let of_lane = draft.lanes.iter().find(|known| known.lane.get() == lane);
            let Some(laid) = of_lane.and_then(|lane| lane.runs[run]) else { continue };
            let timings = || members.iter().map(|&member| &draft.timings[member][run]);
            let targets = || timings().map(|timing| timing.target_s);
            // For a group that has a target each the slowest, which the plan waits for.
            let target_s = targets().sum::<Option<f64>>().and_then(|_| targets().flatten().reduce(f64::max));
            let fastest_s =
                timings().filter_map(|timing| timing.target_from_s.or(timing.target_s)).reduce(f64::min);
            let target_from_s =
                fastest_s.filter(|fastest_s| target_s.is_some_and(|target_s| *fastest_s < target_s));
            let lasts_s = timings().map(|timing| timing.times.target_s).fold(0.0, f64::max);
            // Beyond a target it has the run-in.
            let done_s =
                go_s.filter(|_| target_s.is_some() || self.shows_estimates()).map(|go_s| go_s + lasts_s);
            // Somebody may have done all theirs before the others.
            let go_on = draft.is_followed && run + 1 == draft.steps.len()
                || members.iter().any(|&member| run + 1 < draft.timings[member].len());
            let given_s = timings().find_map(|timing| timing.rest_s()).filter(|_| go_on);
            let next_s = wave.go_s.get(run + 1).copied();
            let next_s = next_s.filter(|_| go_on && go_s.is_some() && step.gap.is_some());
            let rest_s = match (self.crew.has_names(), next_s.zip(done_s)) {
                (true, Some((next_s, done_s))) => Some(next_s - done_s),
                (true, None) if matches!(step.gap, Some(Gap::Cycle(_))) => None,
                _ => given_s,
            };
            let kind = step.run.kind.value;
            let known = alike
                .iter()
                .find(|known| known.run == laid && known.kind == kind && known.target_s == target_s);
            let mut rep = match known {
                Some(known) => reps[known.rep].clone(),
                None => {
                    alike.push(Alike { run: laid, kind, target_s, rep: reps.len() });
                    let stride_m = self.crew.session.stride_m;
                    let mut rep = Rep::of(&draft.track, kind, &laid.pair, target_s, stride_m);
                    // A group that starts together runs in the inside lane soon enough.
                    let on_bends = draft.track.bend_share(
                        laid.inside.start,
                        laid.inside.distance_m,
                        laid.inside.against,
                    );
                    (rep.bend_m, rep.bends) = (on_bends.metres, on_bends.bends);
                    rep
                }
            };
            rep.own_times = self.own_times(&laid, run, &members);
            let is_about = is_about || target_s.is_none();
            rep.set_step(
                step,
                draft.first_run + run,
                &RepTimes { target_from_s, go_s, done_s, rest_s, is_about },
            );
            rep.recovery_m = laid.recovery_m.filter(|way_m| *way_m > 0.0);
            if let (Some(relay), [team]) = (&draft.relay, members.as_slice()) {
                let of_step = (draft.track.as_ref(), self.crew.session, step);
                relay.set_handover(of_step, &laid.pair, (*team, run), &mut rep);
            }
            if let (true, Some(go_s), Some(done_s)) = (self.day.has_hours(), go_s, done_s) {
                let run_in_m = run_in_m(step, draft.exchange_run_in_m());
                let way = pairing::whole_way(&draft.track, &laid.pair, run_in_m);
                rep.cautions = caution::of_run(&self.day.with(&self.day.during(go_s, done_s)), &way);
            }
            rep.wave = number as u32 + 1;
            let runners: Vec<Entrant<'_>> =
                members.iter().flat_map(|&member| draft.runners(member, run)).collect();
            let entrants = || runners.iter();
            let group = |entrant: &Entrant<'_>| entrant.group.map(|group| group.name.clone());
            for group in entrants().filter_map(group) {
                if !rep.groups.contains(&group) {
                    rep.groups.push(group);
                }
            }
            rep.group = rep.groups.first().filter(|_| rep.groups.len() == 1).cloned();
            let named = || entrants().filter_map(|entrant| Some((entrant.athlete?, group(entrant))));
            (rep.athletes, rep.athlete_groups) =
                named().map(|(athlete, group)| (athlete.name.clone(), group)).unzip();
            rep.guides = entrants()
                .filter_map(|entrant| {
                    let athlete = entrant.athlete?;
                    let (guide, lane) = (athlete.guide.clone()?, lane + entrant.lanes_beside());
                    Some(Guide { athlete: athlete.name.clone(), guide, lane })
                })
                .collect();
            reps.push(rep);
        }
    }

    /// The times of those who run together, the fastest first, where they are not of one speed.
    fn own_times(&self, laid: &DraftRun, run: usize, members: &[usize]) -> Vec<OwnTime> {
        let draft = self.draft;
        let kind = draft.steps[run].run.kind.value;
        let target =
            |&member: &usize| Some((draft.entrants[member].athlete?, draft.timings[member][run].target_s?));
        let mut targets: Vec<(&Athlete, f64)> = members.iter().filter_map(target).collect();
        targets.sort_by(|(_, a), (_, b)| a.total_cmp(b));
        let apart_s = targets.last().zip(targets.first()).map_or(0.0, |((_, last), (_, first))| last - first);
        let is_one_speed = apart_s * LAP_M / laid.pair.distance_m <= ALIKE_S;
        if is_one_speed || targets.len() < members.len() {
            return Vec::new();
        }
        let own_time = |(athlete, target_s): (&Athlete, f64)| OwnTime {
            athlete: athlete.name.clone(),
            target_s,
            splits: splits(&draft.track, &laid.pair, kind, target_s),
        };
        targets.into_iter().map(own_time).collect()
    }

    /// Whether the go time of a run rests on something that was estimated.
    fn is_about(&self, wave: usize, run: usize) -> bool {
        let draft = self.draft;
        self.begins_about
            || if self.planned.waves.len() == 1 {
                let before = draft.timings.iter().flat_map(|timings| timings.iter().take(run));
                before.into_iter().any(|timing| timing.is_estimated(false))
            } else {
                !draft.is_timed() && (run, wave) != (0, 0)
            }
    }

    /// Whether a wave runs in a lane, or has a guide in it where each has a lane.
    fn takes(&self, wave: &WavePlan, lane: u8) -> bool {
        let is_abreast = matches!(self.draft.mode, Mode::OneToALane { .. });
        let beside = |member: usize| if is_abreast { self.draft.lanes_beside(member) } else { 0 };
        wave.lanes.iter().any(|run| {
            let own = run.iter().zip(&wave.members);
            own.into_iter().any(|(&own, &member)| (own..=own + beside(member)).contains(&lane))
        })
    }

    /// What there is to say of the waves of a squad.
    fn remark(&self, lasts_s: f64, kept: &Kept, remarks: &mut Vec<Remark>) {
        let (draft, waves) = (self.draft, &self.planned.waves);
        let is_timed = draft.is_timed();
        // In a block of several parts there would be a word for each.
        if !kept.is_empty() && draft.is_whole() {
            let before: Vec<Option<usize>> =
                draft.entrants.iter().map(|entrant| kept.wave(draft, entrant.name())).collect();
            let stay = |(wave, plan): (usize, &WavePlan)| {
                plan.members.iter().filter(|&&member| before.get(member) == Some(&Some(wave))).count()
            };
            let kept = waves.iter().enumerate().map(stay).sum();
            // That everybody keeps theirs needs no word.
            if kept < before.len() {
                let are_teams = draft.relay.is_some();
                remarks.push(Remark::WavesKept { kept, of: before.len(), are_teams });
            }
        }
        let everybody = (0..draft.entrants.len()).flat_map(|entrant| draft.members(entrant));
        for athlete in everybody.filter_map(|entrant| entrant.athlete) {
            if let Some(guide) = &athlete.guide {
                let (athlete, guide) = (athlete.name.clone(), guide.clone());
                remarks.push(Remark::GuideBeside { athlete, guide });
            }
        }
        if draft.mode != Mode::Together {
            let takes = (is_timed && draft.is_whole()).then_some(SetTakes {
                lasts_s,
                bound_s: self.planned.bound_s,
                is_proven: self.planned.is_proven,
            });
            let sizes = waves.iter().map(|wave| wave.members.len()).collect();
            // A squad may not need every lane.
            let mut lanes = self.lanes.to_vec();
            lanes.retain(|&lane| waves.iter().any(|wave| self.takes(wave, lane)));
            let alone_s = draft.alone_s();
            let of_part = (0..draft.steps.len()).map(|run| (draft.first_run + run + 1) as u32);
            let runs = if draft.is_whole() { Vec::new() } else { of_part.collect() };
            remarks.push(match draft.relay {
                Some(_) => Remark::RelayWaves { runs, sizes, lanes, takes },
                None => Remark::Waves { runs, sizes, lanes, takes },
            });
            if is_timed && draft.is_whole() && draft.relay.is_none() && lasts_s > MUCH_LONGER * alone_s {
                remarks.push(Remark::MuchLongerThanAlone { alone_s });
            }
        }
        if !is_timed {
            // Why a pace gives no target is said on its own.
            let of = |timings: &[Timing]| {
                timings.iter().any(|timing| timing.target_s.is_none() && timing.no_target.is_none())
            };
            let without: Vec<usize> = (0..draft.entrants.len()).filter(|&n| of(&draft.timings[n])).collect();
            let all = without.len() == draft.entrants.len();
            let members = without.into_iter().flat_map(|entrant| draft.members(entrant));
            let mut athletes: Vec<String> = members.map(|entrant| entrant.name().to_owned()).collect();
            if all {
                athletes.clear();
            }
            let rests = draft.timings.iter().any(|timings| {
                timings.iter().enumerate().any(|(run, timing)| !draft.is_last(run) && timing.gap.is_none())
            });
            remarks.push(Remark::TimesEstimated { targets: all, athletes, rests });
        }
    }
}

/// Whether the estimated times of a crew are shown.
pub(crate) fn shows_estimates(session: &Session, crew: &Crew<'_>) -> bool {
    session.begins().is_some() || crew.has_names() || session.groups.len() > 1
}

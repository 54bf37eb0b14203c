//! What the planner planned, as the checker reads it.

use std::collections::BTreeSet;

use wave_plan::{EveningPlan, Itinerary, Mode, Party, Stretch, TimingRules, WavePlan};

use crate::checker::{self, Clock, Run, Start, TOLERANCE_S, end_s};
use crate::search::{apart::laps_m, orders::most};

/// Everything that is wrong with a plan, one sentence each.
pub(crate) fn faults(parties: &[Party], rules: &TimingRules, plan: &EveningPlan) -> Vec<String> {
    let mut faults = Vec::new();
    let planned: Vec<usize> = plan.parties.iter().map(Vec::len).collect();
    let asked: Vec<usize> = parties.iter().map(|party| party.itineraries.len()).collect();
    if planned != asked {
        return vec![format!("{planned:?} blocks were planned of {asked:?}")];
    }
    for (itinerary, planned) in blocks(parties).zip(plan.parties.iter().flatten()) {
        members(itinerary, &planned.waves, &mut faults);
        lanes(itinerary, &planned.waves, &mut faults);
    }
    if !faults.is_empty() {
        return faults;
    }
    let starts = starts(parties, plan);
    faults = checker::faults(&starts, &clocks(parties), rules);
    bounds(&starts, plan, &mut faults);
    faults
}

pub(crate) fn blocks(parties: &[Party]) -> impl Iterator<Item = &Itinerary> {
    parties.iter().flat_map(|party| &party.itineraries)
}

fn clocks(parties: &[Party]) -> Vec<Clock> {
    let breaks_s = |party: &Party| party.itineraries.iter().map(|itinerary| itinerary.after_s).collect();
    parties.iter().map(|party| Clock { begins_s: party.begins_s, breaks_s: breaks_s(party) }).collect()
}

/// What the plan says of its ends and of the bounds on them.
fn bounds(starts: &[Start], plan: &EveningPlan, faults: &mut Vec<String>) {
    let mut claim = |what: &str, bound_s: f64, end_s: f64, told_s: f64, is_proven: bool| {
        if (end_s - told_s).abs() > TOLERANCE_S {
            faults.push(format!("{what}: the end is {end_s}, not {told_s}"));
        }
        if bound_s > end_s + TOLERANCE_S || is_proven && bound_s < end_s - TOLERANCE_S {
            faults.push(format!("{what}: bound {bound_s} for end {end_s}, proven: {is_proven}"));
        }
    };
    claim("evening", plan.bound_s, end_s(starts), plan.end_s, plan.is_proven);
    for (party, planned) in plan.parties.iter().enumerate() {
        for (block, planned) in planned.iter().enumerate() {
            let own = starts.iter().filter(|start| (start.party, start.block) == (party, block));
            let end_s = end_s(own);
            let bound_s = planned.begins_s + planned.bound_s;
            claim("block", bound_s, end_s, planned.end_s, planned.is_proven);
        }
    }
}

fn starts(parties: &[Party], plan: &EveningPlan) -> Vec<Start> {
    let mut starts = Vec::new();
    for (number, (party, planned)) in parties.iter().zip(&plan.parties).enumerate() {
        for (block, (itinerary, planned)) in party.itineraries.iter().zip(planned).enumerate() {
            for (wave, planned) in planned.waves.iter().enumerate() {
                for (run, &go_s) in planned.go_s.iter().enumerate() {
                    let does = |member: &&usize| run < itinerary.runners[**member].times.len();
                    let one = |&member: &usize| a_run((itinerary, run), member, planned, go_s);
                    starts.push(Start {
                        party: number,
                        block,
                        wave,
                        run,
                        go_s,
                        is_by_time: itinerary.runs[run].is_none(),
                        runs: planned.members.iter().filter(does).map(one).collect(),
                    });
                }
            }
        }
    }
    starts
}

fn a_run((itinerary, run): (&Itinerary, usize), member: usize, wave: &WavePlan, go_s: f64) -> Run {
    // Who is alone in a lane may have any of them: lanes turn.
    let lanes = match itinerary.mode {
        Mode::OneToALane { .. } | Mode::Together => &itinerary.lanes,
        Mode::GroupToALane { .. } => &wave.lanes[run][..1].to_vec(),
    };
    let runner = &itinerary.runners[member];
    let finish_m = |stretch: &Stretch, lane: &u8| stretch.finish_m.get(lane).copied().unwrap_or(0.0);
    let stretch = itinerary.runs[run].as_ref();
    let in_lanes = |stretch| lanes.iter().map(|lane| (*lane, finish_m(stretch, lane))).collect();
    Run {
        who: member.to_string(),
        go_s,
        target_s: runner.times[run].target_s,
        cycle_s: runner.times[run].target_s + runner.times[run].rest_s,
        distance_m: stretch.map_or(0.0, |stretch| stretch.distance_m),
        lanes: stretch.map_or_else(Vec::new, in_lanes),
        laps_m: stretch.map_or_else(Vec::new, |stretch| laps_m(stretch.ground)),
        is_reversed: stretch.is_some_and(|stretch| stretch.is_reversed),
    }
}

/// Everybody runs once, in the fewest waves, and each wave is a stretch of the order by target.
fn members(itinerary: &Itinerary, waves: &[WavePlan], faults: &mut Vec<String>) {
    let mut everybody: Vec<usize> = waves.iter().flat_map(|wave| wave.members.clone()).collect();
    everybody.sort_unstable();
    if everybody != (0..itinerary.runners.len()).collect::<Vec<_>>() {
        faults.push(format!("not everybody runs in just one wave: {everybody:?}"));
        return;
    }
    if waves.len() != itinerary.runners.len().div_ceil(most(itinerary)) {
        faults.push(format!("{} waves are not the fewest", waves.len()));
    }
    for wave in waves {
        if wave.members.is_empty() || wave.members.len() > most(itinerary) {
            faults.push(format!("a wave of {}", wave.members.len()));
        }
        let runs = wave.members.iter().map(|&member| itinerary.runners[member].times.len()).max();
        if Some(wave.go_s.len()) != runs || wave.lanes.len() != itinerary.runs.len() {
            faults.push(format!("{} starts and {} lots of lanes", wave.go_s.len(), wave.lanes.len()));
        }
        if wave.lanes.iter().any(|lanes| lanes.len() != wave.members.len()) {
            faults.push("a wave has another number of lanes than of members".to_owned());
        }
    }
    let target = |&member: &usize| itinerary.runners[member].times[0].target_s;
    let mut ranges: Vec<(f64, f64)> = (waves.iter())
        .map(|wave| {
            let fastest = wave.members.iter().map(target).fold(f64::INFINITY, f64::min);
            (fastest, wave.members.iter().map(target).fold(0.0, f64::max))
        })
        .collect();
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    for pair in ranges.windows(2) {
        if pair[0].1 > pair[1].0 {
            faults.push(format!("waves of targets {pair:?} mix"));
        }
    }
}

/// Lanes are those of the block, nobody leaves the lanes allowed, and turns are fair.
fn lanes(itinerary: &Itinerary, waves: &[WavePlan], faults: &mut Vec<String>) {
    for wave in waves {
        for lanes in &wave.lanes {
            if lanes.iter().any(|lane| !itinerary.lanes.contains(lane)) {
                faults.push(format!("lanes {lanes:?} are not all of the block"));
            }
            for (&member, lane) in wave.members.iter().zip(lanes) {
                let own = itinerary.runners[member].lanes.as_ref();
                if own.is_some_and(|own| !own.contains(lane)) {
                    faults.push(format!("runner {member} is put in lane {lane}, not one of {own:?}"));
                }
            }
        }
        match itinerary.mode {
            Mode::OneToALane { .. } => one_to_a_lane(itinerary, wave, faults),
            // Spread over all lanes: no lane has more than one more than it must.
            Mode::Together => {
                let most = itinerary.runners.len().div_ceil(itinerary.lanes.len());
                let count = |lane: &u8| wave.lanes[0].iter().filter(|own| *own == lane).count();
                if itinerary.lanes.iter().any(|lane| count(lane) > most) {
                    faults.push(format!("lanes {:?} of a wave that starts together", wave.lanes[0]));
                }
            }
            Mode::GroupToALane { .. } => {
                let lanes: BTreeSet<u8> = wave.lanes.iter().flatten().copied().collect();
                if lanes.len() != 1 {
                    faults.push(format!("a group runs in lanes {lanes:?}"));
                }
            }
        }
    }
}

fn one_to_a_lane(itinerary: &Itinerary, wave: &WavePlan, faults: &mut Vec<String>) {
    for lanes in &wave.lanes {
        if lanes.iter().collect::<BTreeSet<_>>().len() != lanes.len() {
            faults.push(format!("two of a wave in one of the lanes {lanes:?}"));
        }
    }
    if itinerary.keeps_lanes {
        if wave.lanes.iter().any(|lanes| *lanes != wave.lanes[0]) {
            faults.push(format!("lanes that are kept change: {:?}", wave.lanes));
        }
        return;
    }
    if wave.members.iter().any(|&member| itinerary.runners[member].lanes.is_some()) {
        return;
    }
    for place in 0..wave.members.len() {
        let count = |lane: &u8| wave.lanes.iter().filter(|lanes| lanes[place] == *lane).count();
        let counts: Vec<usize> = itinerary.lanes.iter().map(count).collect();
        if counts.iter().max() > counts.iter().min().map(|least| least + 1).as_ref() {
            faults.push(format!("uneven use of the lanes: {counts:?}"));
        }
    }
}

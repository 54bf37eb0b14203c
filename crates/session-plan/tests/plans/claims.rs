//! What a plan says of its own end.

use std::collections::BTreeMap;

use lane_distance::Course;
use session_plan::{Plan, Rep};
use wave_plan::{Ground, Itinerary, Mode, Party, RunTimes, Runner, Stretch};

use crate::asked::{Length, Step};
use crate::dice::Dice;
use crate::evening::{Athlete, Evening, Size};
use crate::finished::{Planned, blocks, finish_m, lap_m};
use crate::planned;
use crate::search::{first_end_s, wave_count};

#[test]
fn runs_on_the_straight_fit_between_the_laps_of_a_longer_run_in_their_lane() {
    // The 1000 m takes 3:30 and comes by three times; four times 60 m fit between.
    let plan = planned(
        "standard",
        &[],
        "
title: one lane
groups:
  - name: sprinters
    athletes: [{ name: Ada, target: 8 }]
    blocks: [4 x 60 in lane 3 rest 30s]
  - name: milers
    athletes: [{ name: Ben, target: 3:30 }]
    blocks: [1 x 1000 in lane 3]
",
    );
    assert_eq!(plan.and_then(|plan| plan.lasts_s), Some(210.0));
}

/// The stretch of a run; nothing where the plan does not show where it finishes in each of these lanes.
fn stretch(plan: &Plan, reps: &[&Rep], lanes: &[u8], metres: f64) -> Option<Stretch> {
    let first = reps.first()?;
    let sign = if first.the_other_way { -1.0 } else { 1.0 };
    let finish_m: BTreeMap<u8, f64> =
        reps.iter().map(|rep| (rep.lane.get(), sign * finish_m(&plan.track.ground, &rep.finish))).collect();
    let laps_m = lanes.iter().flat_map(|&lane| lap_m(plan, lane));
    let ground = if first.course == Course::Oval { Ground::from_laps(laps_m) } else { Ground::Straight };
    lanes.iter().all(|lane| finish_m.contains_key(lane)).then_some(Stretch {
        distance_m: metres,
        ground,
        finish_m,
        is_reversed: first.the_other_way,
    })
}

/// What was asked of a block, for the search: its exchanges and its other runs each on their own; nothing where the
/// plan does not show where each run finishes.
fn itineraries(plan: &Plan, planned: &Planned<'_>, mut after_s: f64) -> Option<Vec<Itinerary>> {
    let Planned { asked, groups, .. } = planned;
    let has_teams = groups.iter().map(|group| group.athletes.len()).sum::<usize>() > 1;
    let is_same = |a: &Step, b: &Step| !has_teams || a.is_exchange == b.is_exchange;
    let mut from = 0;
    let mut found = Vec::new();
    for steps in asked.steps.chunk_by(is_same) {
        let part = itinerary(plan, planned, (from, steps), after_s)?;
        let rests_s = part.runners.iter().filter_map(|runner| Some(runner.times.last()?.rest_s));
        after_s = rests_s.fold(0.0, f64::max);
        from += steps.len();
        found.push(part);
    }
    Some(found)
}

/// Some runs of a block, the first of them after `from` others.
fn itinerary(
    plan: &Plan,
    planned: &Planned<'_>,
    (from, steps): (usize, &[Step]),
    after_s: f64,
) -> Option<Itinerary> {
    let Planned { asked, groups, block, .. } = planned;
    let of_run = |place: usize| block.reps.iter().filter(move |rep| rep.rep as usize == from + place + 1);
    let run = |(place, step): (usize, &Step)| match step.length {
        Length::Seconds(_) => Some(None),
        Length::Metres(metres) => {
            let reps: Vec<&Rep> = of_run(place).collect();
            // An exchange has its run-in before the zone.
            let hands_on = reps.iter().any(|rep| rep.handover.is_some());
            let run_in_m = if hands_on { 40.0 } else { step.run_in_m };
            stretch(plan, &reps, &asked.lanes, run_in_m + metres).map(Some)
        }
    };
    let runner = |athlete: &Athlete| {
        let times = |(place, step): (usize, &Step)| {
            // How long a run-in takes shows nowhere else.
            let shown_s = || {
                let mut theirs = of_run(place).filter(|rep| rep.athletes.contains(&athlete.name));
                theirs.find_map(|rep| Some(rep.done_s? - rep.go_s?)).unwrap_or(f64::NAN)
            };
            let lasts_s =
                |metres: f64| if step.run_in_m > 0.0 { shown_s() } else { athlete.target_s(metres) };
            let target_s = match step.length {
                Length::Metres(metres) => lasts_s(metres),
                Length::Seconds(seconds) => seconds,
            };
            RunTimes { target_s, rest_s: step.cycle_s(lasts_s) - target_s }
        };
        let times = steps.iter().enumerate().map(times).collect();
        Runner { name: athlete.name.clone(), times, ..Runner::default() }
    };
    let reps: Vec<&Rep> = (0..steps.len()).flat_map(of_run).collect();
    let runners: Vec<Runner> = if reps.iter().any(|rep| rep.handover.is_some()) {
        teams(&reps, steps)
    } else {
        groups.iter().flat_map(|group| &group.athletes).map(runner).collect()
    };
    let metres = steps.iter().filter_map(|step| match step.length {
        Length::Metres(metres) => Some(metres),
        Length::Seconds(_) => None,
    });
    let longest_m = asked.steps.iter().filter_map(|step| match step.length {
        Length::Metres(metres) => Some(metres),
        Length::Seconds(_) => None,
    });
    let each = runners.len().div_ceil(asked.lanes.len());
    let mode = match metres.reduce(f64::max).and(longest_m.reduce(f64::max)) {
        // By time alone: nobody is in anybody's way.
        None => Mode::Together,
        _ if asked.goes_on && each > 1 => Mode::GroupToALane { most: each.min(8) },
        Some(longest_m) if !asked.goes_on && longest_m > 400.0 && !steps[0].is_exchange => {
            Mode::GroupToALane { most: 8 }
        }
        _ => Mode::OneToALane { most: None },
    };
    let runs = steps.iter().enumerate().map(run).collect::<Option<Vec<_>>>()?;
    Some(Itinerary { after_s, runs, lanes: asked.lanes.clone(), mode, keeps_lanes: false, runners })
}

/// The teams of exchanges, which keep their lanes, with their times: the run-in shows nowhere else.
fn teams(reps: &[&Rep], steps: &[Step]) -> Vec<Runner> {
    let mut teams: BTreeMap<(u32, u8), Runner> = BTreeMap::new();
    for rep in reps {
        let lasts_s = rep.done_s.unwrap_or(f64::NAN) - rep.go_s.unwrap_or(f64::NAN);
        let team = teams.entry((rep.wave, rep.lane.get())).or_default();
        let rest_s = steps[team.times.len()].cycle_s(|_| 0.0);
        team.times.push(RunTimes { target_s: lasts_s, rest_s });
    }
    teams.into_values().collect()
}

/// The crews of an evening, for the search.
fn parties(evening: &Evening, plan: &Plan) -> Option<Vec<Party>> {
    let mut parties = vec![Party::default(); evening.crews().len()];
    let mut break_s = 0.0;
    for planned in blocks(evening, plan) {
        let after_s = if planned.place == 0 { 0.0 } else { break_s };
        break_s = planned.asked.break_s(evening.between_s);
        parties[planned.crew].itineraries.extend(itineraries(plan, &planned, after_s)?);
    }
    Some(parties)
}

#[test]
fn small_evenings_end_as_early_as_a_search_of_everything_finds() {
    let size = Size { athletes: 6, reps: 3, blocks: 2, is_plain: true };
    let (mut wrong, mut looked_at, mut seed) = (Vec::new(), 0, 200_000);
    while looked_at < 80 {
        seed += 1;
        let evening = Evening::new(&mut Dice(seed), &size);
        let Some(plan) = planned(evening.track, &evening.hazards, &evening.file()) else { continue };
        let is_small = |parties: &Vec<Party>| {
            let blocks = parties.iter().flat_map(|party| &party.itineraries);
            wave_count(parties) <= 4 && blocks.map(|block| block.runs.len()).sum::<usize>() <= 8
        };
        let Some(parties) = parties(&evening, &plan).filter(is_small) else { continue };
        looked_at += 1;
        let lasts_s = plan.lasts_s.unwrap_or(f64::NAN);
        let end_s = first_end_s(&parties, &evening.rules, lasts_s + 1e-3);
        if end_s.is_none_or(|end_s| (lasts_s - end_s).abs() > 1e-3) {
            wrong.push(format!("seed {seed}: {end_s:?}, not {lasts_s}\n{}", evening.file()));
        }
    }
    assert!(wrong.is_empty(), "{} of {looked_at}:\n{}", wrong.len(), wrong[..wrong.len().min(4)].join("\n"));
}

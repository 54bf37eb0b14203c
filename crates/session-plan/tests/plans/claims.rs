//! What a plan says of its own end.

use std::collections::BTreeMap;

use lane_distance::Course;
use session_plan::Plan;
use wave_plan::{Ground, Mode};

use crate::dice::Dice;
use crate::evening::{Athlete, Evening, Recovery, Size};
use crate::finished::{Asked, asked, finish_m, lap_m};
use crate::planned;
use crate::search::set::{Runner, SquadSet};
use crate::search::{first_end_s, wave_count};

#[test]
fn runs_on_the_straight_fit_between_the_laps_of_a_longer_run_in_their_lane() {
    // The 1000 m takes 3:30 and comes by three times; four times 60 m fit between.
    let plan = planned(
        "standard",
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

/// What was asked of a block as a set for the search; nothing where the plan does not show where it finishes in
/// each of its lanes.
fn set(plan: &Plan, number: usize, asked: &Asked<'_>) -> Option<SquadSet> {
    let reps = &plan.blocks[number].reps;
    let first = reps.first()?;
    let sign = if first.the_other_way { -1.0 } else { 1.0 };
    let finish_m: BTreeMap<u8, f64> =
        reps.iter().map(|rep| (rep.lane.get(), sign * finish_m(&plan.track.ground, &rep.finish))).collect();
    let lanes = asked.reps.lanes.clone();
    let is_known = lanes.iter().all(|lane| finish_m.contains_key(lane));
    let laps_m = lanes.iter().flat_map(|&lane| lap_m(plan, lane));
    let ground = if first.course == Course::Oval { Ground::from_laps(laps_m) } else { Ground::Straight };
    let runner = |athlete: &Athlete| {
        let rest_s = match asked.reps.recovery {
            Recovery::Rest(rest_s) => rest_s,
            Recovery::Cycle(cycle_s) => (cycle_s - athlete.target_s).max(0.0),
        };
        // After a single run there is no rest.
        let rest_s = if asked.reps.count == 1 { 0.0 } else { rest_s };
        Runner::new(athlete.name.clone(), athlete.target_s, rest_s)
    };
    (is_known && reps.iter().all(|rep| rep.distance_m == first.distance_m)).then(|| SquadSet {
        reps: asked.reps.count,
        distance_m: first.distance_m,
        ground,
        lanes,
        finish_m,
        is_reversed: first.the_other_way,
        mode: match first.distance_m {
            ..=400.0 => Mode::OneToALane { most: None },
            _ => Mode::GroupToALane { most: 8 },
        },
        runners: asked.groups.iter().flat_map(|group| &group.athletes).map(runner).collect(),
    })
}

#[test]
fn small_evenings_end_as_early_as_a_search_of_everything_finds() {
    let size = Size { athletes: 7, reps: 3, blocks: 1, is_plain: true };
    let (mut wrong, mut looked_at, mut seed) = (Vec::new(), 0, 200_000);
    while looked_at < 80 {
        seed += 1;
        let evening = Evening::new(&mut Dice(seed), &size);
        let Some(plan) = planned(evening.track, &evening.file()) else { continue };
        let sets: Option<Vec<SquadSet>> = (asked(&evening, &plan).iter().enumerate())
            .map(|(number, asked)| set(&plan, number, asked))
            .collect();
        let Some(sets) = sets.filter(|sets| wave_count(sets) <= 4) else { continue };
        looked_at += 1;
        let end_s = first_end_s(&sets, &evening.rules);
        if plan.lasts_s.is_none_or(|lasts_s| (lasts_s - end_s).abs() > 1e-3) {
            wrong.push(format!("seed {seed}: {end_s}, not {:?}\n{}", plan.lasts_s, evening.file()));
        }
    }
    assert!(wrong.is_empty(), "{} of {looked_at}:\n{}", wrong.len(), wrong[..wrong.len().min(4)].join("\n"));
}

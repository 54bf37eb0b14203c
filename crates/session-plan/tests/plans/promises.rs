//! Evenings made by chance: every finished plan keeps every promise.

use crate::checker::{end_s, faults};
use crate::common_place::places_apart;
use crate::dice::Dice;
use crate::evening::{Evening, Size};
use crate::finished::{blocks, clocks, lanes_and_names, starts};
use crate::hazards::{of_track, wrong_hazards};
use crate::planned;

/// Everything that is wrong with the plan of an evening; nothing where there is no plan.
fn wrong(evening: &Evening) -> Option<Vec<String>> {
    let plan = planned(evening.track, &evening.hazards, &evening.file())?;
    let starts = starts(evening, &plan);
    let mut faults = faults(&starts, &clocks(evening), &evening.rules);
    let blocks = blocks(evening, &plan);
    for planned in &blocks {
        lanes_and_names(evening, planned, &mut faults);
        places_apart(evening, &plan, planned, &mut faults);
    }
    wrong_hazards(evening, &plan, &mut faults);
    // Runs by time show in no plan, and may be the last to end.
    let ends_s = end_s(&starts);
    let lasts_s = plan.lasts_s.unwrap_or(f64::NAN);
    let is_by_time = blocks.iter().any(|planned| planned.asked.steps.iter().any(|step| step.is_by_time()));
    if !((lasts_s - ends_s).abs() < 1e-3 || is_by_time && lasts_s > ends_s) {
        faults.push(format!("it ends at {ends_s}, not {lasts_s}"));
    }
    Some(faults)
}

/// Plans so many evenings and collects what is wrong with them.
fn check(seed: u64, count: u64, size: &Size) {
    let (mut all, mut refused) = (Vec::new(), 0);
    for seed in seed..seed + count {
        let evening = Evening::new(&mut Dice(seed), size);
        let Some(mut faults) = wrong(&evening) else {
            refused += 1;
            continue;
        };
        if !faults.is_empty() {
            faults.truncate(3);
            let (track, file, hazards) = (evening.track, evening.file(), of_track(&evening.hazards));
            all.push(format!("seed {seed} on {track}:\n{hazards}{file}\n{}", faults.join("\n")));
        }
    }
    assert!(all.is_empty(), "{} of {count}:\n{}", all.len(), all[..all.len().min(6)].join("\n"));
    assert!(refused * 4 < count, "{refused} of {count} were refused");
}

/// How many evenings there are: `TOELINE_EVENINGS` where that is set.
fn count(usual: u64) -> u64 {
    let asked = std::env::var("TOELINE_EVENINGS").ok();
    asked.map_or(usual, |asked| asked.parse().expect("TOELINE_EVENINGS is a whole number"))
}

#[test]
fn small_evenings_keep_every_promise() {
    check(1, count(200), &Size { athletes: 8, reps: 4, blocks: 3, is_plain: false });
}

#[test]
fn large_evenings_keep_every_promise() {
    check(10_000_000, count(200) / 5, &Size { athletes: 24, reps: 8, blocks: 3, is_plain: false });
}

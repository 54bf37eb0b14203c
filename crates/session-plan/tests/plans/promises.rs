//! Evenings made by chance: every finished plan keeps every promise.

use crate::checker::{end_s, faults};
use crate::dice::Dice;
use crate::evening::{Evening, Size};
use crate::finished::{asked, lanes_and_names, starts};
use crate::planned;

/// Plans so many evenings and collects what is wrong with them.
fn check(seed: u64, count: u64, size: &Size) {
    let (mut wrong, mut refused) = (Vec::new(), 0);
    for seed in seed..seed + count {
        let evening = Evening::new(&mut Dice(seed), size);
        let Some(plan) = planned(evening.track, &evening.file()) else {
            refused += 1;
            continue;
        };
        let starts = starts(&evening, &plan);
        let mut faults = faults(&starts, &evening.rules);
        for (block, asked) in plan.blocks.iter().zip(asked(&evening, &plan)) {
            lanes_and_names(&evening, block, &asked, &mut faults);
        }
        let ends_s = end_s(&starts);
        if plan.lasts_s.is_none_or(|lasts_s| (lasts_s - ends_s).abs() > 1e-3) {
            faults.push(format!("it ends at {ends_s}, not {:?}", plan.lasts_s));
        }
        if !faults.is_empty() {
            faults.truncate(3);
            wrong.push(format!(
                "seed {seed} on {}:\n{}\n{}",
                evening.track,
                evening.file(),
                faults.join("\n")
            ));
        }
    }
    assert!(wrong.is_empty(), "{} of {count}:\n{}", wrong.len(), wrong[..wrong.len().min(4)].join("\n"));
    assert!(refused * 4 < count, "{refused} of {count} were refused");
}

#[test]
fn small_evenings_keep_every_promise() {
    check(1, 300, &Size { athletes: 8, reps: 4, blocks: 2, is_plain: false });
}

#[test]
fn large_evenings_keep_every_promise() {
    check(10_000, 60, &Size { athletes: 24, reps: 8, blocks: 2, is_plain: false });
}

//! A thousand evenings made by chance: every plan keeps every promise.

use wave_plan::plan_evening;

use crate::dice::Dice;
use crate::evenings::{LARGE, MIDDLING, SMALL, Size, evening};
use crate::planned::faults;

/// Plans so many evenings and collects what is wrong with them.
fn check(seed: u64, count: u64, size: &Size) {
    let mut wrong = Vec::new();
    for number in 0..count {
        let (parties, rules) = evening(&mut Dice(seed + number), size);
        let plan = plan_evening(&parties, &rules, &[]).expect("everybody can run: nobody is pinned");
        let faults = faults(&parties, &rules, &plan);
        if !faults.is_empty() {
            wrong.push(format!("seed {}: {}", seed + number, faults[..faults.len().min(3)].join("; ")));
        }
    }
    assert!(wrong.is_empty(), "{} of {count}:\n{}", wrong.len(), wrong[..wrong.len().min(12)].join("\n"));
}

#[test]
fn small_evenings_keep_every_promise() {
    check(1_000, 600, &SMALL);
}

#[test]
fn middling_evenings_keep_every_promise() {
    check(10_000, 300, &MIDDLING);
}

#[test]
fn large_evenings_keep_every_promise() {
    check(100_000, 100, &LARGE);
}

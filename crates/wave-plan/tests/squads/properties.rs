//! A thousand squads made by chance: every plan keeps every promise.

use crate::cases::{Size, squads};
use crate::dice::Dice;
use crate::planned::faults;
use crate::sets::plan_squads;

/// Plans so many squads and collects what is wrong with them.
fn check(seed: u64, count: u64, size: &Size) {
    let mut wrong = Vec::new();
    for number in 0..count {
        let (sets, rules) = squads(&mut Dice(seed + number), size);
        let plan = plan_squads(&sets, &rules, &[]).expect("everybody can run: nobody is pinned");
        let faults = faults(&sets, &rules, &plan);
        if !faults.is_empty() {
            wrong.push(format!("seed {}: {}", seed + number, faults[..faults.len().min(3)].join("; ")));
        }
    }
    assert!(wrong.is_empty(), "{} of {count}:\n{}", wrong.len(), wrong[..wrong.len().min(12)].join("\n"));
}

#[test]
fn small_squads_keep_every_promise() {
    check(1_000, 600, &Size { sets: 3, runners: 8, reps: 4, lanes: 6 });
}

#[test]
fn middling_squads_keep_every_promise() {
    check(10_000, 300, &Size { sets: 3, runners: 16, reps: 6, lanes: 8 });
}

#[test]
fn large_squads_keep_every_promise() {
    check(100_000, 100, &Size { sets: 3, runners: 40, reps: 12, lanes: 8 });
}

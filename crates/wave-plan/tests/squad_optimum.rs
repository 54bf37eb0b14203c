//! Small squads against a search that looks at everything.

mod squad_cases;
mod squad_checker;
mod squad_search;

use squad_cases::{Dice, Size, squads};
use squad_checker::faults;
use squad_search::{optimum, waves_at_least};
use wave_plan::{Ground, plan_squads};

#[test]
fn small_squads_end_first_and_rest_least() {
    let size = Size { sets: 2, runners: 7, reps: 4, lanes: 4 };
    let (mut wrong, mut looked_at, mut seed) = (Vec::new(), 0, 500_000);
    while looked_at < 240 {
        seed += 1;
        let (mut sets, rules) = squads(&mut Dice(seed), &size);
        if waves_at_least(&sets) > 4 || sets.iter().any(|set| set.distance_m > 1_600.0) {
            continue;
        }
        // In lanes of one length the planner's care for all lanes is what each lane asks for.
        for set in &mut sets {
            if let Ground::Laps { shortest_m, longest_m } = &mut set.ground {
                *longest_m = *shortest_m;
            }
        }
        looked_at += 1;
        let plan = plan_squads(&sets, &rules).expect("everybody can run: nobody is pinned");
        assert_eq!(faults(&sets, &rules, &plan), [""; 0], "seed {seed}");
        let (end_s, spare_s) = optimum(&sets, &rules);
        let is_equal = (plan.end_s - end_s).abs() < 1e-3 && (plan.spare_rest_s - spare_s).abs() < 1e-2;
        if !is_equal || !plan.is_rest_proven {
            wrong.push(format!(
                "seed {seed}: end {} and {end_s}, spare rest {} and {spare_s}, proven: {} {}",
                plan.end_s, plan.spare_rest_s, plan.is_proven, plan.is_rest_proven
            ));
        }
    }
    assert!(wrong.is_empty(), "{} of {looked_at}:\n{}", wrong.len(), wrong.join("\n"));
}

//! Small squads against a search that looks at everything.

use wave_plan::Ground;

use crate::cases::{Size, squads};
use crate::dice::Dice;
use crate::planned::faults;
use crate::search::{first_end_s, wave_count};
use crate::sets::plan_squads;

#[test]
fn small_squads_end_as_early_as_can_be() {
    let size = Size { sets: 2, runners: 7, reps: 4, lanes: 4 };
    let (mut wrong, mut looked_at, mut seed) = (Vec::new(), 0, 500_000);
    while looked_at < 240 {
        seed += 1;
        let (mut sets, rules) = squads(&mut Dice(seed), &size);
        if wave_count(&sets) > 4 || sets.iter().any(|set| set.distance_m > 1_600.0) {
            continue;
        }
        // In lanes of one length the planner's care for all lanes is what each lane asks for.
        for set in &mut sets {
            if let Ground::Laps { shortest_m, longest_m } = &mut set.ground {
                *longest_m = *shortest_m;
            }
        }
        looked_at += 1;
        let plan = plan_squads(&sets, &rules, &[]).expect("everybody can run: nobody is pinned");
        assert_eq!(faults(&sets, &rules, &plan), [""; 0], "seed {seed}");
        let end_s = first_end_s(&sets, &rules);
        if (plan.end_s - end_s).abs() >= 1e-3 || !plan.is_proven {
            wrong.push(format!("seed {seed}: end {} and {end_s}, proven: {}", plan.end_s, plan.is_proven));
        }
    }
    assert!(wrong.is_empty(), "{} of {looked_at}:\n{}", wrong.len(), wrong.join("\n"));
}

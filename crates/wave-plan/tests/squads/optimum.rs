//! Small evenings against a search that looks at everything.

use wave_plan::{Ground, Itinerary, ItineraryPlan, Party, TimingRules, plan_evening};

use crate::dice::Dice;
use crate::evenings::{Size, evening};
use crate::planned::{blocks, faults};
use crate::search::orders::most;
use crate::search::{first_end_s, wave_count};

/// Small enough for the search; in lanes of one length the planner's care for all lanes is what each lane asks for.
fn small(seed: u64, size: &Size, most_starts: usize) -> Option<(Vec<Party>, TimingRules)> {
    let (mut parties, rules) = evening(&mut Dice(seed), size);
    let starts: usize = blocks(&parties).map(|block| waves(block) * block.runs.len()).sum();
    let longest_m = blocks(&parties).flat_map(|block| block.runs.iter().flatten()).map(|run| run.distance_m);
    if wave_count(&parties) > 4 || starts > most_starts || longest_m.fold(0.0, f64::max) > 1_600.0 {
        return None;
    }
    let mut_blocks = parties.iter_mut().flat_map(|party| &mut party.itineraries);
    for stretch in mut_blocks.flat_map(|block| block.runs.iter_mut().flatten()) {
        if let Ground::Laps { shortest_m, longest_m } = &mut stretch.ground {
            *longest_m = *shortest_m;
        }
    }
    Some((parties, rules))
}

fn waves(block: &Itinerary) -> usize {
    block.runners.len().div_ceil(most(block))
}

/// A block that could be done sooner alone than its plan says it could.
fn earlier_alone(block: &Itinerary, planned: &ItineraryPlan, rules: &TimingRules) -> Option<String> {
    let alone = [Party { begins_s: 0.0, itineraries: vec![Itinerary { after_s: 0.0, ..block.clone() }] }];
    let end_s = first_end_s(&alone, rules, planned.bound_s - 1e-3)?;
    Some(format!("a block is planned not to be done in less than {}, and can be in {end_s}", planned.bound_s))
}

fn check(seed: u64, count: usize, size: &Size, most_starts: usize) {
    let (mut wrong, mut looked_at, mut seed) = (Vec::new(), 0, seed);
    while looked_at < count {
        seed += 1;
        let Some((parties, rules)) = small(seed, size, most_starts) else { continue };
        looked_at += 1;
        let plan = plan_evening(&parties, &rules, &[]).expect("everybody can run: nobody is pinned");
        assert_eq!(faults(&parties, &rules, &plan), [""; 0], "seed {seed}");
        let end_s = first_end_s(&parties, &rules, plan.end_s + 1e-3);
        if end_s.is_none_or(|end_s| (plan.end_s - end_s).abs() >= 1e-3) || !plan.is_proven {
            wrong.push(format!("seed {seed}: end {} and {end_s:?}, proven: {}", plan.end_s, plan.is_proven));
        }
        let claims = blocks(&parties).zip(plan.parties.iter().flatten());
        wrong.extend(claims.filter_map(|(block, planned)| earlier_alone(block, planned, &rules)));
    }
    assert!(wrong.is_empty(), "{} of {looked_at}:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn small_parties_with_one_block_each_end_as_early_as_can_be() {
    check(500_000, 240, &Size { parties: 2, blocks: 1, runners: 7, runs: 4, lanes: 4 }, 16);
}

#[test]
fn small_parties_with_several_blocks_end_as_early_as_can_be() {
    check(700_000, 240, &Size { parties: 3, blocks: 3, runners: 6, runs: 3, lanes: 4 }, 12);
}

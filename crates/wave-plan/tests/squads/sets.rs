//! Sets handed to the planner, each as a party with nothing else to do.

use wave_plan::{
    Itinerary, Party, Runner as ItineraryRunner, SquadError, Stretch, TimingRules, WavePlan, plan_evening,
};

pub(crate) use crate::search::set::{Runner, SquadSet};

/// What the solver planned.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct SquadPlan {
    pub(crate) sets: Vec<Vec<WavePlan>>,
    pub(crate) end_s: f64,
    pub(crate) bound_s: f64,
    pub(crate) is_proven: bool,
}

/// Plans sets, each as a party with nothing else to do.
pub(crate) fn plan_squads(
    sets: &[SquadSet],
    rules: &TimingRules,
    before: &[Vec<Option<usize>>],
) -> Result<SquadPlan, SquadError> {
    let parties: Vec<Party> = sets.iter().map(to_party).collect();
    let before: Vec<Vec<Vec<Option<usize>>>> = before.iter().map(|of| vec![of.clone()]).collect();
    let plan = plan_evening(&parties, rules, &before)?;
    let sets = plan.parties.into_iter().flatten().map(|itinerary| itinerary.waves).collect();
    Ok(SquadPlan { sets, end_s: plan.end_s, bound_s: plan.bound_s, is_proven: plan.is_proven })
}

fn to_party(set: &SquadSet) -> Party {
    let stretch = Stretch {
        distance_m: set.distance_m,
        ground: set.ground,
        finish_m: set.finish_m.clone(),
        is_reversed: set.is_reversed,
    };
    let reps = set.reps.min(30_000) as usize;
    let runner = |runner: &Runner| ItineraryRunner {
        lanes: runner.lanes.clone(),
        ..ItineraryRunner::new(runner.name.clone(), reps, runner.target_s, runner.rest_s)
    };
    let runners = set.runners.iter().map(runner).collect();
    let itinerary =
        Itinerary { mode: set.mode, ..Itinerary::repetitions(reps, stretch, set.lanes.clone(), runners) };
    Party { begins_s: 0.0, itineraries: vec![itinerary] }
}

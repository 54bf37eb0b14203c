//! Says what is wrong with a plan of a squad, from the plan and the sets alone: every run is followed
//! metre by metre, with nothing of the planner's reasoning.

mod lanes;
mod members;
pub(crate) mod pair;
mod runs;

use wave_plan::{SquadPlan, SquadSet, TimingRules};

/// Closer than this two times are one, in seconds.
pub(crate) const TOLERANCE_S: f64 = 1e-5;

/// Everything that is wrong with a plan, one sentence each.
pub(crate) fn faults(sets: &[SquadSet], rules: &TimingRules, plan: &SquadPlan) -> Vec<String> {
    let mut faults = Vec::new();
    if plan.sets.len() != sets.len() {
        return vec![format!("{} sets were planned of {}", plan.sets.len(), sets.len())];
    }
    for (set, waves) in sets.iter().zip(&plan.sets) {
        members::check(set, &waves.waves, &mut faults);
        lanes::check(set, &waves.waves, &mut faults);
    }
    if faults.is_empty() {
        runs::check(sets, rules, plan, &mut faults);
    }
    faults
}

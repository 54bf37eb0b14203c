//! The parts of a block that go one after the other, each with entrants of its own.

use std::ops::Range;

use workout_notation::{RunKind, Step};

use crate::plan::crew::Crew;
use crate::plan::nominal;

/// Whether a run is through an exchange zone.
pub(crate) const fn is_exchange(step: &Step<'_>) -> bool {
    matches!(step.run.kind.value, RunKind::Exchange { .. })
}

/// How many metres before its start the runners of a step set off: of a flying run, and of an exchange where somebody
/// brings the baton so far.
pub(crate) const fn run_in_m(step: &Step<'_>, of_exchange_m: f64) -> f64 {
    match (is_exchange(step), nominal::run_in_m(step.run.kind.value)) {
        (true, _) => of_exchange_m,
        (false, Some(run_in_m)) => run_in_m,
        (false, None) => 0.0,
    }
}

/// The parts of a block, by the places of their runs. Teams do exchanges and athletes all other runs, so that a block
/// that mixes them has a part wherever one follows the other; every other block is one part.
pub(crate) fn parts(crew: &Crew<'_>, steps: &[Step<'_>]) -> Vec<Range<usize>> {
    let hands_on = hands_on(crew, steps);
    let mut begins = 0;
    let part = |runs: &[Step<'_>]| {
        let part = begins..begins + runs.len();
        begins = part.end;
        part
    };
    steps.chunk_by(|a, b| !hands_on || is_exchange(a) == is_exchange(b)).map(part).collect()
}

/// Whether several named athletes, who do not all start together, can hand batons on in a block.
pub(crate) fn hands_on(crew: &Crew<'_>, steps: &[Step<'_>]) -> bool {
    let is_apart = steps.iter().all(|step| step.together.is_none());
    crew.has_names() && is_apart && steps.iter().any(is_exchange) && crew.entrants().len() > 1
}

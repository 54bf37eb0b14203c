//! Times that nobody gave.
//!
//! They move the timetable and nothing else, and are marked *about*. The tables are common practice, no source: what
//! a club's athletes run in training, and how long a coach lets them rest.

use workout_notation::{RecoveryKind, RunKind, Step};

use crate::people::age_group::AgeGroup;
use crate::people::bests::Bests;
use crate::people::getting_up_to_speed::GettingUpToSpeed;
use crate::plan::on_foot::{JOG_M_PER_S, WALK_M_PER_S};

/// Distance in metres and time in seconds of a club athlete in training.
const RUNS: [(f64, f64); 8] = [
    (30.0, 5.0),
    (60.0, 9.0),
    (100.0, 15.0),
    (200.0, 32.0),
    (400.0, 75.0),
    (1_000.0, 220.0),
    (3_000.0, 750.0),
    (10_000.0, 2_800.0),
];

/// Distance in metres, and the rest after it in seconds where none is given.
const RESTS: [(f64, f64); 4] = [(30.0, 120.0), (100.0, 180.0), (1_000.0, 180.0), (5_000.0, 300.0)];

/// How much slower than hard a run is by the words for its effort.
const EFFORTS: [(&str, f64); 6] =
    [("easy", 1.35), ("relaxed", 1.2), ("steady", 1.2), ("stride", 1.1), ("tempo", 1.1), ("float", 1.2)];

/// How long a run takes, in seconds: the best over its distance with a tenth more, where one is known or can be
/// carried over, else a club athlete's time by age; more where the step says that it is easy.
pub(crate) fn run_s<'b>(
    step: &Step<'_>,
    distance_m: f64,
    mut bests: impl Iterator<Item = &'b Bests>,
    age: Option<AgeGroup>,
) -> f64 {
    let own_s = bests.find_map(|bests| bests.over(distance_m).ok()).map(|best_s| best_s * 1.1);
    // Beyond the table the last speed holds.
    let (longest_m, _) = RUNS[RUNS.len() - 1];
    let club_s = between(&RUNS, distance_m) * (distance_m / longest_m).max(1.0);
    let by_age_s = club_s * age.map_or(1.0, AgeGroup::slower);
    (own_s.unwrap_or(by_age_s) * slower(step)).round().max(1.0)
}

/// How long the run-in of a flying run takes that takes `run_s` itself, in whole seconds: from standing to the speed
/// of the run. Nothing for every other run.
pub(crate) fn run_in_s(step: &Step<'_>, run_s: f64) -> f64 {
    let RunKind::Flying { metres, run_in_m } = step.run.kind.value else { return 0.0 };
    GettingUpToSpeed { top_m_per_s: metres / run_s }.time_s(run_in_m).ceil()
}

/// How much slower than hard a step is to be run by the word for its effort, as a factor of its time.
pub(crate) fn slower(step: &Step<'_>) -> f64 {
    let effort = step.effort.map(|effort| effort.value.to_lowercase()).unwrap_or_default();
    EFFORTS.iter().find(|(word, _)| effort.contains(word)).map_or(1.0, |(_, slower)| *slower)
}

/// How long the rest after a run lasts, in seconds: the way to the next start where the step gives one.
pub(crate) fn rest_s(step: &Step<'_>, distance_m: f64) -> f64 {
    let way_s = match step.recovery {
        Some(RecoveryKind::WalkBack) => Some((distance_m / WALK_M_PER_S).round()),
        Some(RecoveryKind::JogBack) => Some((distance_m / JOG_M_PER_S).round()),
        // Between strides people walk back.
        None if is_stride(step) => Some((distance_m / WALK_M_PER_S).round()),
        recovery => recovery.and_then(RecoveryKind::on_m).and_then(|way_m| on_s(step, way_m)),
    };
    way_s.unwrap_or_else(|| between(&RESTS, distance_m).round())
}

/// Whether a step is one of strides.
fn is_stride(step: &Step<'_>) -> bool {
    step.effort.is_some_and(|effort| effort.value.to_lowercase().contains("strides"))
}

/// How long the runners jog or walk on after a step, in seconds, where that is so far; nothing where they do not.
pub(crate) fn on_s(step: &Step<'_>, way_m: f64) -> Option<f64> {
    let m_per_s = match step.recovery? {
        RecoveryKind::Jog(_) | RecoveryKind::JogExactly(_) | RecoveryKind::JogPart(_) => JOG_M_PER_S,
        RecoveryKind::Walk(_) | RecoveryKind::WalkExactly(_) | RecoveryKind::WalkPart(_) => WALK_M_PER_S,
        RecoveryKind::WalkBack | RecoveryKind::JogBack | RecoveryKind::Stand | RecoveryKind::ChangeEnds => {
            return None;
        }
    };
    Some((way_m / m_per_s).round())
}

/// Between two rows of a table in proportion; past its ends as at the nearest row.
fn between(table: &[(f64, f64)], metres: f64) -> f64 {
    let pairs = table.iter().zip(&table[1..]);
    for (&(low_m, low_s), &(high_m, high_s)) in pairs {
        if metres <= high_m {
            return low_s + (high_s - low_s) * (metres.max(low_m) - low_m) / (high_m - low_m);
        }
    }
    table.last().map_or(0.0, |(_, last_s)| *last_s)
}

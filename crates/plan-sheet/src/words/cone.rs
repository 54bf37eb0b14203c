//! What a place is for, in words.

use session_plan::{ConeLabel, SpotEnd, SpotUse};
use workout_notation::{RunKind, RunLength};

use crate::sheet::spans::cone_ranges;
use crate::words::numbers::{listed, to_cm};
use crate::words::run_name;

/// What happens at a place: `start`, `finish`, `change`, `run-in`, or several of them, as in `start and finish`.
pub(crate) fn marks(uses: &[SpotUse]) -> String {
    uses.chunk_by(is_alike).map(|uses| end(uses[0].end)).collect::<Vec<_>>().join(" and ")
}

/// Cones as a place: `cone 3`, `cones 3–5`; nothing where there are none.
pub(crate) fn at_cones(labels: &[ConeLabel]) -> Option<String> {
    match labels {
        [] => None,
        [cone] => Some(format!("cone {cone}")),
        labels => Some(format!("cones {}", cone_ranges(labels.iter().copied()))),
    }
}

/// The runs that a place serves: `250 start, 150 finish`.
pub(crate) fn serves(uses: &[SpotUse]) -> String {
    let ends = uses.chunk_by(is_alike).map(|uses| {
        let mut distances: Vec<String> = uses.iter().map(length).collect();
        distances.dedup();
        format!("{} {}", listed(&distances), end(uses[0].end))
    });
    ends.collect::<Vec<_>>().join(", ")
}

/// How long a run is; laps are counted, whatever they measure in its lane.
fn length(own: &SpotUse) -> String {
    match own.run {
        RunKind::Plain(laps @ RunLength::Laps(_))
        | RunKind::InAndOut { length: laps @ RunLength::Laps(_), .. } => run_name::length(laps),
        RunKind::Exchange { .. } => "exchange".to_owned(),
        _ => to_cm(own.distance_m),
    }
}

fn is_alike(a: &SpotUse, b: &SpotUse) -> bool {
    a.end == b.end
}

const fn end(end: SpotEnd) -> &'static str {
    match end {
        SpotEnd::Start => "start",
        SpotEnd::Finish => "finish",
        SpotEnd::Change => "change",
        SpotEnd::RunIn => "run-in",
        SpotEnd::CheckMark => "check mark",
    }
}

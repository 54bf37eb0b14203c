//! What a cone is for, in words.

use session_plan::{Cone, ConeEnd, ConeUse};
use workout_notation::{RunKind, RunLength};

use crate::words::numbers::{listed, metres};
use crate::words::run_name;

/// What a cone marks: `start`, `finish`, `run-in`, or several of them, as in `start and finish`.
pub(crate) fn marks(cone: &Cone) -> String {
    cone.uses.chunk_by(is_alike).map(|uses| end(uses[0].end)).collect::<Vec<_>>().join(" and ")
}

/// The runs that a cone serves: `250 start, 150 finish`.
pub(crate) fn serves(cone: &Cone) -> String {
    let ends = cone.uses.chunk_by(is_alike).map(|uses| {
        let mut distances: Vec<String> = uses.iter().map(length).collect();
        distances.dedup();
        format!("{} {}", listed(&distances), end(uses[0].end))
    });
    ends.collect::<Vec<_>>().join(", ")
}

/// How long a run is; laps are counted, whatever they measure in its lane.
fn length(own: &ConeUse) -> String {
    match own.run {
        RunKind::Plain(laps @ RunLength::Laps(_))
        | RunKind::InAndOut { length: laps @ RunLength::Laps(_), .. } => run_name::length(laps),
        _ => metres(own.distance_m),
    }
}

fn is_alike(a: &ConeUse, b: &ConeUse) -> bool {
    a.end == b.end
}

const fn end(end: ConeEnd) -> &'static str {
    match end {
        ConeEnd::Start => "start",
        ConeEnd::Finish => "finish",
        ConeEnd::RunIn => "run-in",
    }
}

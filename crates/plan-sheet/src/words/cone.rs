//! What a cone is for, in words.

use session_plan::{Cone, ConeEnd, ConeUse};

use crate::words::numbers::metres;

/// What a cone marks: `start`, `finish`, `run-in`, or several of them, as in `start and finish`.
pub(crate) fn marks(cone: &Cone) -> String {
    cone.uses.chunk_by(is_alike).map(|uses| end(uses[0].end)).collect::<Vec<_>>().join(" and ")
}

/// The runs that a cone serves.
pub(crate) fn serves(cone: &Cone) -> String {
    let runs = |uses: &[ConeUse]| {
        let run = |own: &ConeUse| format!("{} m of block {}", metres(own.distance_m), own.block);
        uses.iter().map(run).collect::<Vec<_>>().join(", ")
    };
    let ends: Vec<&[ConeUse]> = cone.uses.chunk_by(is_alike).collect();
    match ends.as_slice() {
        [uses] => runs(uses),
        ends => {
            let words = ends.iter().map(|uses| format!("{} of {}", end(uses[0].end), runs(uses)));
            words.collect::<Vec<_>>().join("; ")
        }
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

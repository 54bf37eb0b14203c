//! The walk that sets everything out, in words.

use crate::words::numbers::{self, metres};
use session_plan::{Cone, Plan, SetupWalk};

/// What the list of cones is called.
pub(crate) const TITLE: &str = "Setting out: one lap from the finish line";

/// That nothing needs a cone, where there are runs and none does.
pub(crate) fn no_cones(plan: &Plan) -> Option<&'static str> {
    let needs_none = plan.setup.is_empty() && !plan.painted.is_empty();
    needs_none.then_some("No cones: paint shows every place.")
}

/// How many cones are set out, and how far and how long the walk is.
pub(crate) fn walk(walk: &SetupWalk) -> String {
    let cones = if walk.cones == 1 { "1 cone".to_owned() } else { format!("{} cones", walk.cones) };
    let minutes = (walk.walk_s / 60.0).ceil();
    format!("{cones}, {:.0} m, {minutes} min without taping.", walk.walk_m)
}

/// The length of the steps that place cones off the paint; nothing without such cones, or where the session
/// names a stride and the words of each spot give the steps.
pub(crate) fn stride(plan: &Plan) -> Option<String> {
    let has_steps = plan.setup.iter().any(|item| steps(plan, item).is_some());
    has_steps.then(|| format!("1 step is {} m.", metres(plan.walk.stride_m)))
}

/// How many steps a cone stands from the paint; nothing where a view leaves them out, or under a quarter step.
pub(crate) fn steps(plan: &Plan, cone: &Cone) -> Option<String> {
    const HALF_OF_HALF_A_STEP: f64 = 0.25;
    let is_shown = plan.walk.is_stride_assumed && cone.strides >= HALF_OF_HALF_A_STEP;
    is_shown.then(|| numbers::halves(cone.strides))
}

//! The walk that sets everything out, in words.

use crate::words::numbers::{self, metres};
use session_plan::{Cone, Plan, SetupWalk};

/// What the list of cones is called.
pub(crate) const TITLE: &str = "Setting out: one lap from the finish line";

/// How many cones are set out, and how far and how long the walk is.
pub(crate) fn walk(walk: &SetupWalk) -> String {
    let count = |count: f64, one: &str| format!("{count:.0} {one}{}", if count == 1.0 { "" } else { "s" });
    format!(
        "{}; the walk is {:.0} m and takes {} without taping.",
        count(walk.cones as f64, "cone"),
        walk.walk_m,
        count((walk.walk_s / 60.0).ceil(), "minute")
    )
}

/// How long the steps are that cones off the paint are told in; nothing where none is, or where the
/// session names a stride, for then the words of a spot tell the steps already.
pub(crate) fn stride(plan: &Plan) -> Option<String> {
    let has_steps = plan.setup.iter().any(|item| steps(plan, item).is_some());
    has_steps.then(|| format!("Steps are of {} m.", metres(plan.walk.stride_m)))
}

/// How many steps a cone stands from the paint; nothing where that is not told, or is none.
pub(crate) fn steps(plan: &Plan, cone: &Cone) -> Option<String> {
    const HALF_OF_HALF_A_STEP: f64 = 0.25;
    let is_told = plan.walk.is_stride_assumed && cone.strides >= HALF_OF_HALF_A_STEP;
    is_told.then(|| numbers::halves(cone.strides))
}

//! The groups that do a block, in words.

use session_plan::{Plan, PlanBlock};

use crate::words::numbers::listed;

/// Who does it: `sprinters`, `sprinters and hurdlers`, or `all groups`.
pub(crate) fn groups(plan: &Plan, block: &PlanBlock) -> Option<String> {
    match block.groups.as_slice() {
        [] => None,
        [_, _, ..] if block.groups.len() == plan.groups.len() => Some("all groups".to_owned()),
        groups => Some(listed(groups)),
    }
}

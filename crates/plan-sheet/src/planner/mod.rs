//! A plan as parts of the planner's page.

pub(crate) mod plan_parts;

//! Plans that are written, and what they are part of.

use session_plan::{Plan, Week};

/// Plans of one answer.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Planned<'a> {
    pub(crate) plans: &'a [Plan],
    /// The week that they make, where that was asked for.
    pub(crate) week: Option<&'a Week>,
}

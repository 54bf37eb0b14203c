//! A lane unrolled.

use session_plan::Plan;

/// A lane unrolled.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Title.
    pub title: String,
    /// Svg.
    pub svg: String,
}

/// Strips.
pub fn strips(_plan: &Plan) -> Vec<Strip> {
    Vec::new()
}

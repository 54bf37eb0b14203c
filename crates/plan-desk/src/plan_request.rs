//! An evening, as the page asks for its plan.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::ground::GroundRequest;
use crate::late_request::LateRequest;

/// An evening: everything that its plan depends on.
///
/// ```
/// let request: plan_desk::PlanRequest = serde_json::from_str(r#"{ "text": "6 x 200 in lane 2" }"#)?;
/// assert_eq!(request.ground.track, None);
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PlanRequest {
    /// The evening as a message, or the text of a session file.
    pub text: String,
    /// The track.
    pub ground: GroundRequest,
    /// Who runs: a line for each athlete, as copied from a spreadsheet.
    pub squad: String,
    /// Places that were chosen.
    pub choices: Vec<PlaceChoice>,
    /// What has changed since it was written.
    pub late: LateRequest,
}

/// A place that was chosen for the runs of a block, from those that were offered.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PlaceChoice {
    /// The number of the block in the plan, from 1.
    pub block: usize,
    /// Where its runs start, such as `200 m start` or `200 m start + 5`.
    pub from: Option<String>,
    /// Where they finish.
    pub to: Option<String>,
}

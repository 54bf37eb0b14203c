//! Lanes that are closed for a part of the evening, as session files write them.

use schemars::JsonSchema;
use serde::Deserialize;

use crate::people::lane_closure::LaneClosure;
use crate::people::time_of_day::TimeOfDay;

/// Lanes that are closed for a part of the evening.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct ClosureSpec {
    /// The lanes.
    pub(crate) lanes: Vec<u8>,
    /// From when on, such as 18:45; from the start of the session unless given.
    #[serde(default)]
    pub(crate) from: Option<TimeOfDay>,
    /// Until when, such as 19:15; for the rest of the session unless given.
    #[serde(default)]
    pub(crate) until: Option<TimeOfDay>,
}

impl ClosureSpec {
    pub(crate) fn closure(self) -> LaneClosure {
        let time = |time: Option<TimeOfDay>| time.map(|time| time.0);
        LaneClosure { lanes: self.lanes, from: time(self.from), until: time(self.until) }
    }
}

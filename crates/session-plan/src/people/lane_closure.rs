//! Lanes that are closed for a part of the evening.

use chrono::NaiveTime;

use crate::people::hours::Hours;

/// Lanes that are closed for a part of the evening; what would be run there then is run in others from its start on.
///
/// ```
/// use session_plan::LaneClosure;
///
/// let closure = LaneClosure { lanes: vec![3], from: "18:45:00".parse().ok(), until: None };
/// assert_eq!(closure.hours().to_string(), "18:45-23:59");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LaneClosure {
    /// The lanes, counted from the inside.
    pub lanes: Vec<u8>,
    /// From when on; from the start of the session unless given.
    pub from: Option<NaiveTime>,
    /// Until when; for the rest of the session unless given.
    pub until: Option<NaiveTime>,
}

impl From<&workout_notation::LaneClosure> for LaneClosure {
    fn from(said: &workout_notation::LaneClosure) -> Self {
        let lanes = said.lanes.iter().map(|lane| lane.get()).collect();
        Self { lanes, from: said.from, until: said.until }
    }
}

impl LaneClosure {
    /// When they are closed.
    pub fn hours(&self) -> Hours {
        Hours { from: self.from.unwrap_or_default(), to: self.until.unwrap_or_else(Hours::last_of_day) }
    }
}

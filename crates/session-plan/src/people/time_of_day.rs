//! A time of day.

use chrono::NaiveTime;
use schemars::JsonSchema;
use serde::Deserialize;

/// A time of day to the minute, such as `18:30`.
///
/// ```
/// use session_plan::TimeOfDay;
///
/// let time: TimeOfDay = "18:30".parse()?;
/// assert_eq!(time.0.to_string(), "18:30:00");
/// assert!("half past six".parse::<TimeOfDay>().is_err());
/// # Ok::<(), session_plan::TimeOfDayError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(try_from = "Written")]
#[schemars(description = "A time of day, such as 18:30.")]
pub struct TimeOfDay(pub NaiveTime);

/// Why a text is not a time of day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not a time of day; write for example 18:30")]
pub struct TimeOfDayError;

impl std::str::FromStr for TimeOfDay {
    type Err = TimeOfDayError;

    fn from_str(text: &str) -> Result<Self, TimeOfDayError> {
        NaiveTime::parse_from_str(text.trim(), "%H:%M").map(Self).map_err(|_| TimeOfDayError)
    }
}

/// A time of day as a file writes it; the reader of files knows it by this name.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "TimeOfDay")]
#[schemars(extend("pattern" = r"^\s*[0-9]{1,2}:[0-9]{2}\s*$"))]
struct Written(String);

impl TryFrom<Written> for TimeOfDay {
    type Error = TimeOfDayError;

    fn try_from(written: Written) -> Result<Self, TimeOfDayError> {
        written.0.parse()
    }
}

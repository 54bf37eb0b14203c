//! A time of day.

use chrono::NaiveTime;
use schemars::JsonSchema;
use serde::Deserialize;

/// A time of day to the minute, such as `18:30` or `6.30pm`.
///
/// ```
/// use session_plan::TimeOfDay;
///
/// let time: TimeOfDay = "18:30".parse()?;
/// assert_eq!(time.0.to_string(), "18:30:00");
/// assert_eq!("6.30pm".parse::<TimeOfDay>()?, time);
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
        let text = text.trim().to_ascii_lowercase();
        let half = ["am", "pm"].into_iter().find(|half| text.ends_with(half));
        let Some(half) = half else {
            return NaiveTime::parse_from_str(&text, "%H:%M").map(Self).map_err(|_| TimeOfDayError);
        };
        // `7pm`, `6.30 pm`
        let digits = text.trim_end_matches(half).trim_end().replace('.', ":");
        let time = if digits.contains(':') { digits } else { format!("{digits}:00") };
        NaiveTime::parse_from_str(&format!("{time} {half}"), "%I:%M %p").map(Self).map_err(|_| TimeOfDayError)
    }
}

/// A time of day as a file writes it; the reader of files knows it by this name.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "TimeOfDay")]
#[schemars(extend("pattern" = r"^\s*([0-9]{1,2}:[0-9]{2}|(1[0-2]|0?[1-9])([:.][0-5][0-9])?\s*([aA]|[pP])[mM])\s*$"))]
struct Written(String);

impl TryFrom<Written> for TimeOfDay {
    type Error = TimeOfDayError;

    fn try_from(written: Written) -> Result<Self, TimeOfDayError> {
        written.0.parse()
    }
}

//! From when on something is in use.

use chrono::NaiveTime;
use schemars::JsonSchema;
use serde::Deserialize;

use crate::people::time_of_day::{TimeOfDay, TimeOfDayError};

/// From when on a hazard is in use: `now`, which is from the start of the session, or a time of day.
///
/// ```
/// use session_plan::Since;
///
/// assert_eq!("now".parse(), Ok(Since(None)));
/// assert!("soon".parse::<Since>().is_err());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(try_from = "Written")]
#[schemars(description = "From when on: now, or a time of day such as 18:30.")]
pub struct Since(pub Option<NaiveTime>);

/// Why a text does not say from when on something is in use.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not a time; write `now`, or for example 18:30")]
pub struct SinceError;

impl std::str::FromStr for Since {
    type Err = SinceError;

    fn from_str(text: &str) -> Result<Self, SinceError> {
        match text.trim() {
            now if now.eq_ignore_ascii_case("now") => Ok(Self(None)),
            text => text.parse().map(|TimeOfDay(time)| Self(Some(time))).map_err(|TimeOfDayError| SinceError),
        }
    }
}

/// As a file writes it; the reader of files knows it by this name.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "Since")]
#[schemars(extend("pattern" = r"^\s*(now|[0-9]{1,2}:[0-9]{2})\s*$"))]
struct Written(String);

impl TryFrom<Written> for Since {
    type Error = SinceError;

    fn try_from(written: Written) -> Result<Self, SinceError> {
        written.0.parse()
    }
}

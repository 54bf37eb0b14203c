//! Times of day.

use std::fmt;

use chrono::{NaiveTime, TimeDelta};
use schemars::JsonSchema;
use serde::Deserialize;

/// A range of times, such as `17:00-18:30`; it does not go past midnight.
///
/// ```
/// use session_plan::Hours;
///
/// let throws: Hours = "17:00-18:30".parse()?;
/// assert!(throws.overlaps(&"18:00-19:30".parse()?));
/// assert!(!throws.overlaps(&"18:30-19:30".parse()?));
/// # Ok::<(), session_plan::HoursError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(try_from = "Written")]
#[schemars(description = "A range of times, such as 17:00-18:30.")]
pub struct Hours {
    /// When it begins.
    pub from: NaiveTime,
    /// When it ends.
    pub to: NaiveTime,
}

/// Why a text is not a part of a day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not a range of times")]
pub struct HoursError;

impl Hours {
    /// Whether two parts of a day have some time in common.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.from < other.to && other.from < self.to
    }

    /// The last second of a day, for what has no end.
    pub(crate) fn last_of_day() -> NaiveTime {
        NaiveTime::from_hms_opt(23, 59, 59).unwrap_or_default()
    }

    /// How long it is.
    pub fn length(&self) -> TimeDelta {
        self.to - self.from
    }
}

impl std::str::FromStr for Hours {
    type Err = HoursError;

    fn from_str(text: &str) -> Result<Self, HoursError> {
        let (from, to) = text.split_once(['-', '–']).ok_or(HoursError)?;
        let time = |text: &str| NaiveTime::parse_from_str(text.trim(), "%H:%M").map_err(|_| HoursError);
        let hours = Self { from: time(from)?, to: time(to)? };
        if hours.from < hours.to { Ok(hours) } else { Err(HoursError) }
    }
}

impl fmt::Display for Hours {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}-{}", self.from.format("%H:%M"), self.to.format("%H:%M"))
    }
}

/// Hours as a file writes them; the reader of files knows them by this name.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "Hours")]
#[schemars(
    extend("pattern" = r"^\s*[0-9]{1,2}:[0-9]{2}\s*[-–]\s*[0-9]{1,2}:[0-9]{2}\s*$")
)]
struct Written(String);

impl TryFrom<Written> for Hours {
    type Error = HoursError;

    fn try_from(written: Written) -> Result<Self, HoursError> {
        written.0.parse()
    }
}

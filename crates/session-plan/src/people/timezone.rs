//! The time zone of a track.

use std::str::FromStr;

use chrono::{DateTime, NaiveDateTime, TimeDelta, Utc};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::clocks::Clocks;

/// The time zone of a track, by its name in the IANA database.
///
/// ```
/// use session_plan::Timezone;
///
/// let london: Timezone = "Europe/London".parse()?;
/// let six = |date: &str| date.parse::<chrono::NaiveDate>().map(|date| date.and_hms_opt(18, 0, 0));
/// let summer = six("2027-04-13").expect("it is a date").expect("it is a time");
/// assert_eq!(london.instant(summer).to_rfc3339(), "2027-04-13T17:00:00+00:00");
///
/// let error = "Europe/Londn".parse::<Timezone>().expect_err("a letter is missing");
/// assert_eq!(error.to_string(), "there is no time zone `Europe/Londn`");
/// assert_eq!(error.near, Some("Europe/London"));
/// # Ok::<(), session_plan::TimezoneError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(try_from = "Written", into = "Written")]
#[schemars(description = "A time zone of the IANA database, such as Europe/London.")]
pub struct Timezone(Clocks);

/// Why a text is not a time zone.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("there is no time zone `{name}`")]
pub struct TimezoneError {
    /// The name that is not known.
    pub name: String,
    /// The known name most like it.
    pub near: Option<&'static str>,
}

impl Timezone {
    /// Its name, such as `Europe/London`.
    pub fn name(self) -> &'static str {
        self.0.name()
    }

    /// The instant that a clock on the wall means there.
    ///
    /// An hour that the clocks skip is counted on from before the change, so that 01:30 means what
    /// 02:30 does; an hour that comes twice means the first. RFC 5545 reads such times alike.
    /// Changes of clocks are known from 2000 to 2100.
    pub fn instant(self, wall: NaiveDateTime) -> DateTime<Utc> {
        let wall = wall.and_utc();
        // No change of clocks skips as much as a day; the offset of the day before holds until it.
        let ahead_s = [0, 86_400].iter().find_map(|before_s| self.0.ahead_s(wall.timestamp() - before_s));
        ahead_s.and_then(|ahead_s| wall.checked_sub_signed(TimeDelta::seconds(ahead_s))).unwrap_or(wall)
    }
}

impl FromStr for Timezone {
    type Err = TimezoneError;

    fn from_str(name: &str) -> Result<Self, TimezoneError> {
        let unknown = || TimezoneError { name: name.to_owned(), near: nearest(name) };
        Clocks::all().find(|clocks| clocks.name() == name).map(Self).ok_or_else(unknown)
    }
}

/// The known name most like a wrong one; the city alone is enough.
fn nearest(wrong: &str) -> Option<&'static str> {
    let wrong = wrong.to_lowercase().replace(' ', "_");
    let likeness = |known: &str| {
        let known = known.to_lowercase();
        let city = known.rsplit('/').next().unwrap_or(&known);
        strsim::jaro_winkler(&wrong, &known).max(strsim::jaro_winkler(&wrong, city))
    };
    Clocks::all()
        .map(|known| (likeness(known.name()), known.name()))
        .filter(|(likeness, _)| *likeness > 0.8)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// A time zone as a file writes it; the reader of files knows it by this name.
#[derive(Deserialize, Serialize, JsonSchema)]
#[serde(rename = "Timezone")]
#[schemars(extend("enum" = Clocks::all().map(Clocks::name).collect::<Vec<_>>()))]
struct Written(#[schemars(with = "Value")] String);

impl TryFrom<Written> for Timezone {
    type Error = TimezoneError;

    fn try_from(written: Written) -> Result<Self, TimezoneError> {
        written.0.parse()
    }
}

impl From<Timezone> for Written {
    fn from(zone: Timezone) -> Self {
        Self(zone.name().to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn instant(wall: &str) -> String {
        let zone: Timezone = "Europe/London".parse().expect("it is known");
        let wall = wall.parse().expect("it is a date and a time");
        zone.instant(wall).format("%d %H:%M").to_string()
    }

    #[test]
    fn summer_time_begins_and_ends() {
        assert_eq!(instant("2027-03-27T10:00:00"), "27 10:00");
        assert_eq!(instant("2027-03-28T10:00:00"), "28 09:00");
        assert_eq!(instant("2027-10-30T10:00:00"), "30 09:00");
        assert_eq!(instant("2027-10-31T10:00:00"), "31 10:00");
    }

    #[test]
    fn an_hour_that_is_skipped_is_counted_on_and_one_that_comes_twice_is_the_first() {
        assert_eq!(instant("2027-03-28T01:30:00"), "28 01:30");
        assert_eq!(instant("2027-10-31T01:30:00"), "31 00:30");
    }

    #[test]
    fn the_city_alone_finds_its_zone() {
        for (wrong, near) in
            [("London", "Europe/London"), ("new york", "America/New_York"), ("Europe/Pariss", "Europe/Paris")]
        {
            assert_eq!(nearest(wrong), Some(near));
        }
        assert_eq!(nearest("xyzzy"), None);
    }
}

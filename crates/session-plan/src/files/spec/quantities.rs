//! Values that session files write in forms of their own. How each is read is known to
//! [`crate::files::reader`], by the name of its type.

use std::cmp::Ordering;

use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::Deserialize;
use serde_json::Value;

use crate::files::limit::Limit;

/// A time or a duration, in seconds: `48.5`, `2:08`, `5min`.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, JsonSchema)]
#[schemars(description = "A time, such as 48.5, 2:08 or 5min.", extend("type" = ["number", "string"]))]
pub(crate) struct Time(#[schemars(with = "Value")] pub(crate) f64);

/// The distance of a race, in metres: `800`, `5k`, `mile`. It orders, as keys must.
#[derive(Clone, Copy, Debug, Deserialize)]
pub(crate) struct RaceDistance(pub(crate) f64);

/// A day, such as `2027-04-13`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
pub(crate) struct Date(pub(crate) NaiveDate);

/// The name of an athlete, or a number.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[schemars(description = "The name of an athlete.", extend("type" = ["string", "integer"], "maxLength" = Limit::NameLetters.most()))]
pub(crate) struct Name(#[schemars(with = "Value")] pub(crate) String);

/// A line of the workout notation. A number alone is a distance, though YAML does not call it text.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "Block")]
#[schemars(description = "A line of the notation, such as 6 x 200 in lane 2.", extend("type" = ["string", "number"]))]
pub(crate) struct BlockText(#[schemars(with = "Value")] pub(crate) String);

impl Ord for RaceDistance {
    fn cmp(&self, other: &Self) -> Ordering {
        self.0.total_cmp(&other.0)
    }
}

impl PartialOrd for RaceDistance {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for RaceDistance {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for RaceDistance {}

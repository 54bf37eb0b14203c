//! Distances and times as session files write them.

use std::borrow::Cow;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, Visitor};

use workout_notation as notation;

/// The distance of a race, in metres: `800`, `5k`, `mile`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(crate) struct RaceDistance(pub(crate) f64);

/// A time or a duration, in seconds: `48.5`, `2:08`, `5min`.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(crate) struct Time(pub(crate) f64);

impl<'de> Deserialize<'de> for RaceDistance {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let what = "the distance of a race, such as 800, 5k or mile";
        deserializer.deserialize_any(Quantity { what, read: notation::race_distance }).map(Self)
    }
}

impl<'de> Deserialize<'de> for Time {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let what = "a time, such as 48.5, 2:08 or 5min";
        deserializer.deserialize_any(Quantity { what, read: notation::seconds }).map(Self)
    }
}

/// Reads a number or a text as the notation does.
struct Quantity {
    what: &'static str,
    read: fn(&str) -> Result<f64, workout_notation::Problem>,
}

impl Visitor<'_> for Quantity {
    type Value = f64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.what)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<f64, E> {
        (self.read)(text).map_err(|problem| {
            E::custom(match problem.help {
                Some(help) => format!("{}; {help}", problem.message),
                None => problem.message,
            })
        })
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<f64, E> {
        self.visit_str(&value.to_string())
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<f64, E> {
        self.visit_str(&value.to_string())
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<f64, E> {
        self.visit_str(&value.to_string())
    }
}

impl JsonSchema for Time {
    fn schema_name() -> Cow<'static, str> {
        "Time".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "description": "A time, such as 48.5, 2:08 or 5min.", "type": ["number", "string"] })
    }
}

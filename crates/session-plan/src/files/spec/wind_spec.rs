//! The wind as a session file writes it.

use std::fmt;

use lane_distance::Course;
use schemars::JsonSchema;
use serde::de::Visitor;
use serde::{Deserialize, Deserializer};

use crate::people::wind::{Wind, WindFrom};

/// The wind: in words, or on which straight, from where and how strong.
#[derive(Clone, Debug, PartialEq, JsonSchema)]
#[schemars(untagged)]
pub(crate) enum WindSpec {
    /// In words, such as `3 m/s against on the home straight`.
    Words(String),
    /// As data.
    Data(WindData),
}

/// On which straight, from where and how strong.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct WindData {
    /// The straight: `home straight` or `back straight`.
    on: Straight,
    /// From where it blows there, for those who run in the direction of running.
    from: WindFrom,
    /// How strong, in metres a second.
    #[serde(default)]
    m_s: Option<f64>,
}

/// A straight.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, JsonSchema)]
enum Straight {
    /// The home straight.
    #[serde(rename = "home straight")]
    Home,
    /// The back straight.
    #[serde(rename = "back straight")]
    Back,
}

impl<'de> Deserialize<'de> for WindSpec {
    /// The reader of files knows by the name that there can be words or keys, and says which it has found.
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_newtype_struct("WindSpec", Either)
    }
}

struct Either;

impl<'de> Visitor<'de> for Either {
    type Value = WindSpec;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the wind in words, or `{ on: home straight, from: ahead, m_s: 3 }`")
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, words: D) -> Result<WindSpec, D::Error> {
        String::deserialize(words).map(WindSpec::Words)
    }

    fn visit_some<D: Deserializer<'de>>(self, keys: D) -> Result<WindSpec, D::Error> {
        WindData::deserialize(keys).map(WindSpec::Data)
    }
}

impl WindSpec {
    /// How strong it is where that is written as data, in metres a second.
    pub(crate) const fn m_s(&self) -> Option<f64> {
        match self {
            Self::Words(_) => None,
            Self::Data(data) => data.m_s,
        }
    }

    /// The wind that is described; nothing for blank words.
    pub(crate) fn wind(&self) -> Option<Wind> {
        match self {
            Self::Words(words) if words.trim().is_empty() => None,
            Self::Words(words) => Some(Wind::from_text(words)),
            Self::Data(WindData { on, from, m_s }) => Some(Wind {
                words: None,
                on: Some(match on {
                    Straight::Home => Course::HomeStraight,
                    Straight::Back => Course::BackStraight,
                }),
                from: Some(*from),
                m_s: *m_s,
            }),
        }
    }
}

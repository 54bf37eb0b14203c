//! Lanes that a track file closes.

use serde::{Deserialize, Deserializer};

use crate::spec::one_or_many::{Written, value_or_list};

/// Lanes closed to training: a list of them, or a list with a reason.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(untagged))]
pub enum ClosedSpec {
    /// The lanes.
    Lanes(Vec<u8>),
    /// The lanes, and why they are closed.
    Because(ClosedBecause),
}

/// Lanes that are closed for a reason.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct ClosedBecause {
    /// The lanes.
    pub lanes: Vec<u8>,
    /// Why they are closed.
    pub reason: String,
}

impl Default for ClosedSpec {
    fn default() -> Self {
        Self::Lanes(Vec::new())
    }
}

impl ClosedSpec {
    /// The lanes that are closed.
    pub fn lanes(&self) -> &[u8] {
        match self {
            Self::Lanes(lanes) | Self::Because(ClosedBecause { lanes, .. }) => lanes,
        }
    }

    /// Why they are closed, if known.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::Lanes(_) => None,
            Self::Because(because) => Some(&because.reason),
        }
    }
}

impl<'de> Deserialize<'de> for ClosedSpec {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        const EXPECTED: &str =
            "a list of lanes such as `[1, 2]`, or `{ lanes: [1, 2], reason: new surface }`";
        Ok(match value_or_list(deserializer, "ClosedSpec", EXPECTED)? {
            Written::Value(because) => Self::Because(because),
            Written::List(lanes) => Self::Lanes(lanes),
        })
    }
}

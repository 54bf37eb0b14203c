//! Lanes that a track file closes.

use std::fmt;

use serde::de::value::{MapAccessDeserializer, SeqAccessDeserializer};
use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};

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
#[derive(Clone, Debug, PartialEq, serde::Deserialize)]
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

/// Reads what is there, and does not try one form after the other: so that a fault is that of the very
/// value.
impl<'de> Deserialize<'de> for ClosedSpec {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader;

        impl<'de> Visitor<'de> for Reader {
            type Value = ClosedSpec;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a list of lanes such as `[1, 2]`, or `{ lanes: [1, 2], reason: new surface }`")
            }

            fn visit_newtype_struct<D: Deserializer<'de>>(self, value: D) -> Result<ClosedSpec, D::Error> {
                value.deserialize_any(self)
            }

            /// A reader that keeps places hands over a whole group of keys.
            fn visit_some<D: Deserializer<'de>>(self, value: D) -> Result<ClosedSpec, D::Error> {
                ClosedBecause::deserialize(value).map(ClosedSpec::Because)
            }

            fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<ClosedSpec, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(items)).map(ClosedSpec::Lanes)
            }

            fn visit_map<A: MapAccess<'de>>(self, entries: A) -> Result<ClosedSpec, A::Error> {
                ClosedBecause::deserialize(MapAccessDeserializer::new(entries)).map(ClosedSpec::Because)
            }
        }

        deserializer.deserialize_newtype_struct("ClosedSpec", Reader)
    }
}

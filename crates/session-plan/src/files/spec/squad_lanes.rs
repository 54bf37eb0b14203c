//! What a session file says of a squad's lanes.

use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::value::SeqAccessDeserializer;
use serde::de::{SeqAccess, Visitor};
use serde::{Deserialize, Deserializer};

/// The lanes of squads where their blocks name none; or whether everybody keeps theirs.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum SquadLanes {
    /// These lanes.
    Named(Vec<u8>),
    /// All of them, used so.
    Used(LaneUse),
}

/// Whether athletes keep their lanes through a block.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum LaneUse {
    /// Each stays in one lane.
    Keep,
    /// Lanes turn from run to run.
    Turn,
}

impl JsonSchema for SquadLanes {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "SquadLanes".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let (lanes, lane_use) = (generator.subschema_for::<Vec<u8>>(), generator.subschema_for::<LaneUse>());
        json_schema!({ "anyOf": [lanes, lane_use] })
    }
}

impl<'de> Deserialize<'de> for SquadLanes {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_newtype_struct("SquadLanes", ListOrWord)
    }
}

/// The reader of files hands over a list or a word, by the name of the type.
struct ListOrWord;

impl<'de> Visitor<'de> for ListOrWord {
    type Value = SquadLanes;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list of lanes, `keep` or `turn`")
    }

    fn visit_some<D: Deserializer<'de>>(self, word: D) -> Result<SquadLanes, D::Error> {
        LaneUse::deserialize(word).map(SquadLanes::Used)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, lanes: A) -> Result<SquadLanes, A::Error> {
        Vec::deserialize(SeqAccessDeserializer::new(lanes)).map(SquadLanes::Named)
    }
}

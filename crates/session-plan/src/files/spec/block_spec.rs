//! Blocks, as session files write them.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;
use workout_notation::{Block, Problem, RestAfter, Workout};

use crate::files::limit::Limit;
use crate::files::spec::quantities::{BlockText, Time};

/// A text of the notation, of one block or several. The text alone will do in a file.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "BlockItem", deny_unknown_fields)]
pub(crate) struct BlockSpec {
    /// What is done, in the notation.
    pub(crate) text: BlockText,
    /// How long the break after it is, where that is not the usual one.
    #[serde(default)]
    pub(crate) rest_after: Option<Time>,
}

/// Either form of a block.
pub(crate) fn blocks_schema(generator: &mut SchemaGenerator) -> Schema {
    let text = generator.subschema_for::<BlockText>();
    let keys = generator.subschema_for::<BlockSpec>();
    json_schema!({ "type": "array", "maxItems": Limit::BlockLines.most(), "items": { "anyOf": [text, keys] } })
}

impl BlockSpec {
    /// The blocks that the text describes.
    pub(crate) fn blocks(&self) -> Result<Vec<Block>, Vec<Problem>> {
        let mut blocks = Workout::parse_blocks(&self.text.0)?;
        if let (Some(last), Some(Time(rest_s))) = (blocks.last_mut(), self.rest_after) {
            let text =
                if rest_s % 60.0 == 0.0 { format!("{} min", rest_s / 60.0) } else { format!("{rest_s} s") };
            last.rest_after = Some(RestAfter { seconds: rest_s, text });
        }
        Ok(blocks)
    }
}

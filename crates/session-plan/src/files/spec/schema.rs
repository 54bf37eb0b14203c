//! JSON Schema of session and track files, for editors that know it.

use lane_distance::spec::TrackSpec;
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, SchemaGenerator};
use serde_json::{Value, json};

use crate::files::file_kind::FileKind;
use crate::files::limit::Limit;
use crate::files::spec::session_spec::SessionSpec;
use crate::people::hours::Hours;
use crate::people::house_rules::HouseRules;
use crate::people::timezone::Timezone;

impl FileKind {
    /// The JSON Schema (draft 2020-12) of such files. It knows names and forms; what needs the
    /// notation or the geometry is left to the program.
    ///
    /// ```
    /// let schema = session_plan::FileKind::Session.schema();
    /// assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    /// assert_eq!(schema["required"], serde_json::json!(["title"]));
    /// ```
    pub fn schema(self) -> Value {
        match self {
            Self::Session => titled::<SessionSpec>(generator(), "Session file"),
            Self::Track => track(),
        }
    }
}

fn generator() -> SchemaGenerator {
    SchemaSettings::draft2020_12().into_generator()
}

fn titled<T: JsonSchema>(generator: SchemaGenerator, title: &str) -> Value {
    let mut schema = generator.into_root_schema_for::<T>();
    schema.insert("title".to_owned(), title.into());
    let limits: Vec<String> =
        Limit::ALL.iter().map(|limit| format!("{} {}", limit.most(), limit.words())).collect();
    schema.insert("$comment".to_owned(), format!("At most: {}.", limits.join("; ")).into());
    schema.to_value()
}

/// A track file holds more than the geometry reads: [`crate::Venue`] takes that out.
fn track() -> Value {
    let mut generator = generator();
    let rules = generator.subschema_for::<HouseRules>().to_value();
    let timezone = generator.subschema_for::<Timezone>().to_value();
    let hours = generator.subschema_for::<Hours>().to_value();
    let mut schema = titled::<TrackSpec>(generator, "Track file");
    schema["properties"]["house_rules"] = rules;
    schema["properties"]["timezone"] = timezone;
    schema["properties"]["name"]["maxLength"] = Limit::NameLetters.most().into();
    schema["properties"]["path"]["maxItems"] = Limit::Pieces.most().into();
    schema["properties"]["hazards"]["maxItems"] = Limit::Hazards.most().into();
    schema["$defs"]["MarksSpec"]["properties"]["own"]["maxItems"] = Limit::Marks.most().into();
    schema["$defs"]["MarksSpec"]["properties"]["worn"]["maxItems"] = Limit::WornMarks.most().into();
    schema["$defs"]["Hazard"]["properties"]["hours"] = json!({
        "description": "When it is in use; always unless given.",
        "anyOf": [hours, { "type": "array", "items": hours }]
    });
    schema
}

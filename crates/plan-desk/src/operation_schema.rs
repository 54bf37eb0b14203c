//! The schemas of what can be asked.
//!
//! They stand apart from [`OPERATIONS`](crate::OPERATIONS), so that a planner in a browser, which describes itself to
//! nobody, does not carry them.

use schemars::{JsonSchema, Schema, SchemaGenerator};

use crate::answer_schema;
use crate::file_answer::FileRequest;
use crate::ground_answer::{GroundFormAnswer, GroundFormRequest};
use crate::line_answers::{
    FarAnswer, FarRequest, GroundMapAnswer, GroundMapRequest, LineAnswer, LineRequest,
};
use crate::link_answers::{LinkAnswer, LinkRequest, OpenLinkAnswer, OpenLinkRequest};
use crate::operation::Operation;
use crate::place_offers::{PlacesAnswer, PlacesRequest};
use crate::plan_answer::PlanAnswer;
use crate::plan_request::PlanRequest;
use crate::track_answers::{LanesRequest, MarksRequest, MeasureRequest, SpotsRequest};

/// What makes a schema.
type Make = fn(&mut SchemaGenerator) -> Schema;

/// For each operation, by its name, the schemas of its request and of its answer.
static SCHEMAS: &[(&str, Make, Make)] = &[
    ("plan", schema::<PlanRequest>, schema::<PlanAnswer>),
    ("file", schema::<FileRequest>, anything),
    ("places", schema::<PlacesRequest>, schema::<PlacesAnswer>),
    ("link", schema::<LinkRequest>, schema::<LinkAnswer>),
    ("open_link", schema::<OpenLinkRequest>, schema::<OpenLinkAnswer>),
    ("spots", schema::<SpotsRequest>, answer_schema::spots),
    ("measure", schema::<MeasureRequest>, answer_schema::measure),
    ("lanes", schema::<LanesRequest>, answer_schema::lanes),
    ("marks", schema::<MarksRequest>, answer_schema::marks),
    ("ground_map", schema::<GroundMapRequest>, schema::<GroundMapAnswer>),
    ("line", schema::<LineRequest>, schema::<LineAnswer>),
    ("far", schema::<FarRequest>, schema::<FarAnswer>),
    ("ground_form", schema::<GroundFormRequest>, schema::<GroundFormAnswer>),
];

impl Operation {
    /// The schema of its request.
    ///
    /// ```
    /// let mut generator = schemars::SchemaGenerator::default();
    /// for operation in plan_desk::OPERATIONS {
    ///     assert_ne!(operation.request_schema(&mut generator), true, "{} has one", operation.name);
    /// }
    /// ```
    pub fn request_schema(&self, generator: &mut SchemaGenerator) -> Schema {
        self.schema(generator, |(_, request, _)| *request)
    }

    /// The schema of its answer, where that is JSON.
    pub fn answer_schema(&self, generator: &mut SchemaGenerator) -> Schema {
        self.schema(generator, |(.., answer)| *answer)
    }

    fn schema(&self, generator: &mut SchemaGenerator, of: fn(&(&str, Make, Make)) -> Make) -> Schema {
        let known = SCHEMAS.iter().find(|(name, ..)| *name == self.name);
        known.map_or_else(|| Schema::from(true), |row| of(row)(generator))
    }
}

fn schema<T: JsonSchema>(generator: &mut SchemaGenerator) -> Schema {
    generator.subschema_for::<T>()
}

fn anything(_: &mut SchemaGenerator) -> Schema {
    Schema::from(serde_json::Map::new())
}

//! The plan of an evening, as the page shows it.

use std::fmt;

use plan_sheet::{PlanParts, View};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Serialize;
use serde_json::value::RawValue;

use crate::answer_schema;
use crate::controls::controls;
use crate::evening::Evening;
use crate::plan_request::PlanRequest;
use crate::problem::{Problem, Refusal};
use crate::reply::Reply;

/// The plan of an evening; or what is wrong with the request, under its words.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(crate) struct PlanAnswer {
    /// What is wrong, up to 50 problems of a text.
    problems: Vec<Problem>,
    /// How many more there are.
    more_problems: usize,
    /// The plan, as `toeline plan --format json` gives it; nothing where there are problems.
    #[schemars(schema_with = "plan_or_nothing")]
    plan: Option<Box<RawValue>>,
    /// The parts of the page.
    #[schemars(with = "Option<serde_json::Map<String, serde_json::Value>>")]
    parts: Option<Parts>,
}

fn plan_or_nothing(generator: &mut SchemaGenerator) -> Schema {
    json_schema!({ "anyOf": [answer_schema::plan(generator), { "type": "null" }] })
}

/// The parts of the page that show a plan, as HTML and SVG.
#[derive(Debug, Serialize)]
struct Parts {
    #[serde(flatten)]
    plan: PlanParts,
    /// The buttons for late changes.
    late: String,
}

/// Plans an evening.
pub(crate) fn plan(request: &PlanRequest) -> Reply {
    let evening = match Evening::of(request) {
        Ok(evening) => evening,
        Err(problems) => {
            return Reply::json(&PlanAnswer {
                problems: problems.told,
                more_problems: problems.more,
                ..PlanAnswer::default()
            });
        }
    };
    let mistake = |error: &dyn fmt::Display| Reply::refusal(&Refusal::mistake(error));
    let json = match serde_json::value::to_raw_value(&evening.plan.data()) {
        Ok(json) => json,
        Err(error) => return mistake(&error),
    };
    let parts = PlanParts::of(&evening.plan).map_err(|error| error.to_string());
    let parts = parts.and_then(|plan| Ok(Parts { plan, late: controls(&evening, request)? }));
    match parts {
        Ok(parts) => {
            Reply::json(&PlanAnswer { plan: Some(json), parts: Some(parts), ..PlanAnswer::default() })
        }
        Err(error) => mistake(&error),
    }
}

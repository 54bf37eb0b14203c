//! What can be asked: the one table of it.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::de::DeserializeOwned;

use crate::answer_schema;
use crate::file_answer::{self, FileRequest};
use crate::ground_answer::{self, GroundFormAnswer, GroundFormRequest};
use crate::line_answers::{
    self, FarAnswer, FarRequest, GroundMapAnswer, GroundMapRequest, LineAnswer, LineRequest,
};
use crate::link_answers::{self, LinkAnswer, LinkRequest, OpenLinkAnswer, OpenLinkRequest};
use crate::place_offers::{self, PlacesAnswer, PlacesRequest};
use crate::plan_answer::{self, PlanAnswer};
use crate::plan_request::PlanRequest;
use crate::problem::Refusal;
use crate::reply::{JSON, Reply};
use crate::track_answers::{self, LanesRequest, MarksRequest, MeasureRequest, SpotsRequest};

/// Something that can be asked. Carriers, and the description of the served interface, are made from these rows.
#[derive(Clone, Copy, Debug)]
pub struct Operation {
    /// What a carrier calls it.
    pub name: &'static str,
    /// What it answers, in a few words.
    pub what: &'static str,
    /// The media type of an answer; nothing where it is a file of the kind that the request asks for.
    pub content_type: Option<&'static str>,
    /// Whether it takes so long that few are to run at a time: it may set pages.
    pub is_slow: bool,
    request: fn(&mut SchemaGenerator) -> Schema,
    answer: fn(&mut SchemaGenerator) -> Schema,
    run: fn(&str) -> Reply,
}

impl Operation {
    /// The media types that its answers can have.
    pub fn media_types(&self) -> Vec<&'static str> {
        self.content_type.map_or_else(file_answer::media_types, |one| vec![one])
    }

    /// The schema of its request.
    pub fn request_schema(&self, generator: &mut SchemaGenerator) -> Schema {
        (self.request)(generator)
    }

    /// The schema of its answer, where that is JSON.
    pub fn answer_schema(&self, generator: &mut SchemaGenerator) -> Schema {
        (self.answer)(generator)
    }

    /// Answers a request.
    pub fn answer(&self, body: &str) -> Reply {
        (self.run)(body)
    }
}

/// Everything that can be asked.
pub static OPERATIONS: &[Operation] = &[
    Operation {
        name: "plan",
        what: "The plan of an evening, with the parts of the page that show it",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<PlanRequest>,
        answer: schema::<PlanAnswer>,
        run: |body| asked(body, plan_answer::plan),
    },
    Operation {
        name: "file",
        what: "The evening as a file: a sheet, a page, a map, a table, a calendar, or a session file",
        content_type: None,
        is_slow: true,
        request: schema::<FileRequest>,
        answer: anything,
        run: |body| asked::<FileRequest>(body, file_answer::file),
    },
    Operation {
        name: "places",
        what: "Where else the runs of a block can start and finish",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<PlacesRequest>,
        answer: schema::<PlacesAnswer>,
        run: |body| asked(body, place_offers::places),
    },
    Operation {
        name: "link",
        what: "A link that holds a whole evening, and its code to scan",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<LinkRequest>,
        answer: schema::<LinkAnswer>,
        run: |body| asked(body, link_answers::link),
    },
    Operation {
        name: "open_link",
        what: "The evening of a link",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<OpenLinkRequest>,
        answer: schema::<OpenLinkAnswer>,
        run: |body| asked(body, link_answers::open_link),
    },
    Operation {
        name: "spots",
        what: "Where one repetition can start and finish, best first",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<SpotsRequest>,
        answer: answer_schema::spots,
        run: |body| asked::<SpotsRequest>(body, track_answers::spots),
    },
    Operation {
        name: "measure",
        what: "How far it is from one place to another",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<MeasureRequest>,
        answer: answer_schema::measure,
        run: |body| asked::<MeasureRequest>(body, track_answers::measure),
    },
    Operation {
        name: "lanes",
        what: "The lap and the stagger of each lane",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<LanesRequest>,
        answer: answer_schema::lanes,
        run: |body| asked::<LanesRequest>(body, track_answers::lanes),
    },
    Operation {
        name: "marks",
        what: "The paint in a lane, in walking order from the finish line",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<MarksRequest>,
        answer: answer_schema::marks,
        run: |body| asked::<MarksRequest>(body, track_answers::marks),
    },
    Operation {
        name: "ground_map",
        what: "The track alone, to point at",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<GroundMapRequest>,
        answer: schema::<GroundMapAnswer>,
        run: |body| asked::<GroundMapRequest>(body, line_answers::map),
    },
    Operation {
        name: "line",
        what: "What a line is for: those near to a place, or all of a colour in a lane",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<LineRequest>,
        answer: schema::<LineAnswer>,
        run: |body| asked::<LineRequest>(body, line_answers::line),
    },
    Operation {
        name: "far",
        what: "How far a run was, and what its time means",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<FarRequest>,
        answer: schema::<FarAnswer>,
        run: |body| asked::<FarRequest>(body, line_answers::far),
    },
    Operation {
        name: "ground_form",
        what: "Somebody's own track: its form, its file, and what is wrong with it",
        content_type: Some(JSON),
        is_slow: false,
        request: schema::<GroundFormRequest>,
        answer: schema::<GroundFormAnswer>,
        run: |body| asked(body, ground_answer::ground_form),
    },
];

/// Answers a request: the name of an operation and its JSON.
///
/// ```
/// let reply = plan_desk::answer("lanes", "{}");
/// assert_eq!(reply.status, 200);
/// assert_eq!(plan_desk::answer("lanes", "[").status, 400);
/// assert_eq!(plan_desk::answer("tea", "{}").status, 404);
/// ```
pub fn answer(operation: &str, body: &str) -> Reply {
    match OPERATIONS.iter().find(|known| known.name == operation) {
        Some(operation) => operation.answer(body),
        None => Reply::refusal(&Refusal::unknown(operation)),
    }
}

fn asked<R: DeserializeOwned>(body: &str, run: fn(&R) -> Reply) -> Reply {
    match serde_json::from_str(body) {
        Ok(request) => run(&request),
        Err(error) => Reply::refusal(&Refusal::malformed(&error)),
    }
}

fn schema<T: JsonSchema>(generator: &mut SchemaGenerator) -> Schema {
    generator.subschema_for::<T>()
}

fn anything(_: &mut SchemaGenerator) -> Schema {
    Schema::from(serde_json::Map::new())
}

//! What can be asked: the one table of it.

use serde::de::DeserializeOwned;

use crate::file_answer::{self, FileRequest};
use crate::ground_answer;
use crate::line_answers::{self, FarRequest, GroundMapRequest, LineRequest};
use crate::link_answers;
use crate::place_offers;
use crate::plan_answer;
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
    run: fn(&str) -> Reply,
}

impl Operation {
    /// The media types that its answers can have.
    pub fn media_types(&self) -> Vec<&'static str> {
        self.content_type.map_or_else(file_answer::media_types, |one| vec![one])
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
        run: |body| asked(body, plan_answer::plan),
    },
    Operation {
        name: "file",
        what: "The evening as a file: a sheet, a page, a map, a table, a calendar, or a session file",
        content_type: None,
        is_slow: true,
        run: |body| asked::<FileRequest>(body, file_answer::file),
    },
    Operation {
        name: "places",
        what: "Where else the runs of a block can start and finish",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked(body, place_offers::places),
    },
    Operation {
        name: "link",
        what: "A link that holds a whole evening, and its code to scan",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked(body, link_answers::link),
    },
    Operation {
        name: "open_link",
        what: "The evening of a link",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked(body, link_answers::open_link),
    },
    Operation {
        name: "spots",
        what: "Where one repetition can start and finish, best first",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<SpotsRequest>(body, track_answers::spots),
    },
    Operation {
        name: "measure",
        what: "How far it is from one place to another",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<MeasureRequest>(body, track_answers::measure),
    },
    Operation {
        name: "lanes",
        what: "The lap and the stagger of each lane",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<LanesRequest>(body, track_answers::lanes),
    },
    Operation {
        name: "marks",
        what: "The paint in a lane, in walking order from the finish line",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<MarksRequest>(body, track_answers::marks),
    },
    Operation {
        name: "ground_map",
        what: "The track alone, to point at",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<GroundMapRequest>(body, line_answers::map),
    },
    Operation {
        name: "line",
        what: "What a line is for: those near to a place, or all of a colour in a lane",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<LineRequest>(body, line_answers::line),
    },
    Operation {
        name: "far",
        what: "How far a run was, and what its time means",
        content_type: Some(JSON),
        is_slow: false,
        run: |body| asked::<FarRequest>(body, line_answers::far),
    },
    Operation {
        name: "ground_form",
        what: "Somebody's own track: its form, its file, and what is wrong with it",
        content_type: Some(JSON),
        is_slow: false,
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

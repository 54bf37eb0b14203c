//! Answers what the planner's page asks: one function, behind the page that the program serves and behind the one that
//! runs without a network.
//!
//! A request is an operation and a text of JSON; the reply has a status, a kind and bytes, as HTTP means them. It opens no
//! file, asks no clock and knows no carrier, so that both carriers give the same bytes.
//!
//! ```
//! let reply = plan_desk::answer("plan", r#"{ "text": "6 x 200 in lane 2", "ground": { "closed": [1] } }"#);
//! assert_eq!((reply.status, reply.content_type), (200, "application/json"));
//! let answer: serde_json::Value = serde_json::from_slice(&reply.body)?;
//! assert_eq!(answer["plan"]["blocks"][0]["reps"][0]["start"]["mark"], "200 m start");
//! # Ok::<(), serde_json::Error>(())
//! ```

mod answer_schema;
mod controls;
mod evening;
mod example;
mod file_answer;
mod form_page;
mod ground;
mod ground_answer;
mod ground_form;
mod ground_yaml;
mod late_request;
mod line_answers;
mod link_answers;
mod operation;
mod operation_schema;
mod page_file;
mod place_offers;
mod plan_answer;
mod plan_request;
mod problem;
mod reply;
mod squad_text;
mod track_answers;

pub use ground::{GroundRequest, TrackFile};
pub use ground_form::{
    ClosedForm, GroundEdit, GroundForm, HazardForm, LaneRuleForm, MarksForm, PieceForm, RulesForm, Shape,
    StraightForm, WornForm,
};
pub use late_request::{AthleteReps, HazardSince, LateGroup, LateRequest};
pub use operation::{OPERATIONS, Operation, answer};
pub use page_file::{Carrier, Engine, PageFile, page_files};
pub use plan_request::{PlaceChoice, PlanRequest};
pub use problem::{Field, Problem, Refusal};
pub use reply::Reply;

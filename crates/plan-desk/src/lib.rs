//! Answers what the planner's page asks: one function, behind the page that the program serves and behind the one that
//! runs without a network.
//!
//! A request is an operation and a text of JSON; the reply has a status, a kind and bytes, as HTTP means them. It opens no
//! file, asks no clock and knows no carrier, so that both carriers give the same bytes.
//!
//! # From a request to a page
//!
//! ```text
//! request ──► evening: text, squad, track, late changes ──► Session ──► Plan ──► Sheet ──► parts of the page as HTML
//!                                                                            └─────────► the plan as JSON
//! ```
//!
//! The page keeps one request and asks for the plan anew whenever that changes. The HTML comes from here, so the page's script
//! words nothing and reads no text. [`OPERATIONS`] is the one table of what can be asked: the server's routes, their description
//! and the planner without a network are made from it.
//!
//! ```
//! let reply = plan_desk::answer("plan", r#"{ "text": "6 x 200 in lane 2", "ground": { "closed": [1] } }"#);
//! assert_eq!((reply.status, reply.content_type), (200, "application/json"));
//! let answer: serde_json::Value = serde_json::from_slice(&reply.body)?;
//! assert_eq!(answer["plan"]["blocks"][0]["reps"][0]["start"]["mark"], "200 m start");
//!
//! // What is wrong with what was written is part of the answer, with its place; the page shows it under the word.
//! let reply = plan_desk::answer("plan", r#"{ "text": "warm-up 10 min\n6 x" }"#);
//! let answer: serde_json::Value = serde_json::from_slice(&reply.body)?;
//! let problem = &answer["problems"][0];
//! assert_eq!((&problem["field"], &problem["place"]["line"]), (&"text".into(), &2.into()));
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

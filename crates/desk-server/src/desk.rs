//! Answers to what is asked, each made once and kept for a while.

use std::sync::Arc;

use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use hyper::body::Bytes;
use plan_desk::{Operation, Reply};
use quick_cache::Weighter;
use quick_cache::sync::Cache;

use crate::refused::mistake;
use crate::workers::Workers;

/// What kept answers and their questions may take together, in bytes.
const MOST_KEPT: u64 = 32 * 1024 * 1024;

/// About how many answers that is.
const ABOUT_KEPT: usize = 400;

/// What was asked: the name of an operation, and the body.
type Question = (&'static str, Arc<str>);

/// An answer to keep: the same question has the same bytes.
#[derive(Clone, Debug)]
struct Kept {
    status: StatusCode,
    content_type: &'static str,
    body: Bytes,
}

/// How many bytes a question and its answer take.
#[derive(Clone, Debug)]
struct Size;

impl Weighter<Question, Kept> for Size {
    fn weight(&self, (_, question): &Question, kept: &Kept) -> u64 {
        (question.len() + kept.body.len() + size_of::<(Question, Kept)>()) as u64
    }
}

/// What answers questions.
#[derive(Debug)]
pub(crate) struct Desk {
    kept: Cache<Question, Kept, Size>,
    workers: Workers,
}

impl Desk {
    /// One that has answered nothing yet.
    pub(crate) fn new(workers: Workers) -> Self {
        Self { kept: Cache::with_weighter(ABOUT_KEPT, MOST_KEPT, Size), workers }
    }

    /// Answers a question.
    pub(crate) async fn answer(&self, operation: &'static Operation, body: &str) -> Response {
        let question: Question = (operation.name, body.into());
        if let Some(kept) = self.kept.get(&question) {
            return kept.into_response();
        }
        let asked = Arc::clone(&question.1);
        let work = move || operation.answer(&asked);
        let reply = match operation.is_slow {
            true => self.workers.slow(work).await,
            false => self.workers.quick(work).await,
        };
        match reply.map(Kept::from_reply) {
            Ok(Some(kept)) => {
                if !kept.status.is_server_error() {
                    self.kept.insert(question, kept.clone());
                }
                kept.into_response()
            }
            Ok(None) => mistake(),
            Err(refusal) => refusal,
        }
    }
}

impl Kept {
    fn from_reply(Reply { status, content_type, body }: Reply) -> Option<Self> {
        Some(Self { status: StatusCode::from_u16(status).ok()?, content_type, body: body.into() })
    }
}

impl IntoResponse for Kept {
    fn into_response(self) -> Response {
        (self.status, [(CONTENT_TYPE, self.content_type)], self.body).into_response()
    }
}

//! What a request is answered with.

use serde::Serialize;

use crate::problem::Refusal;

/// JSON (RFC 8259).
pub(crate) const JSON: &str = "application/json";

/// Problem details (RFC 9457).
pub(crate) const PROBLEM: &str = "application/problem+json";

/// What a request is answered with, in the terms of HTTP (RFC 9110).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reply {
    /// The status: 200 for an answer, 400 and above for a refusal.
    pub status: u16,
    /// The media type of the body.
    pub content_type: &'static str,
    /// The body.
    pub body: Vec<u8>,
}

impl Reply {
    /// An answer as JSON.
    pub(crate) fn json(value: &impl Serialize) -> Self {
        match serde_json::to_vec(value) {
            Ok(body) => Self { status: 200, content_type: JSON, body },
            Err(error) => Self::refusal(&Refusal::mistake(&error)),
        }
    }

    /// A refusal as problem details.
    pub fn refusal(refusal: &Refusal) -> Self {
        // A refusal holds texts and numbers alone, which all have JSON.
        let body = serde_json::to_vec(refusal).unwrap_or_default();
        Self { status: refusal.status, content_type: PROBLEM, body }
    }
}

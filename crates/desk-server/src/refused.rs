//! Requests that are refused.

use axum::http::header::{CONTENT_TYPE, RETRY_AFTER};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use plan_desk::{Refusal, Reply};

/// How many seconds later to ask again where too much is going on.
const RETRY_S: &str = "5";

/// A refusal as problem details (RFC 9457): what is wrong, and what to do instead.
pub(crate) fn refused(status: StatusCode, title: &'static str, detail: impl Into<String>) -> Response {
    let Reply { status: _, content_type, body } =
        Reply::refusal(&Refusal::new(status.as_u16(), title, detail.into()));
    (status, [(CONTENT_TYPE, content_type)], body).into_response()
}

/// There is nothing at the address.
pub(crate) fn not_found(detail: impl Into<String>) -> Response {
    refused(StatusCode::NOT_FOUND, "Not found", detail)
}

/// There is too much to do; ask again later.
pub(crate) fn busy(detail: &str) -> Response {
    let mut response = refused(StatusCode::SERVICE_UNAVAILABLE, "Busy", detail);
    response.headers_mut().insert(RETRY_AFTER, HeaderValue::from_static(RETRY_S));
    response
}

/// A mistake of this program.
pub(crate) fn mistake() -> Response {
    let detail = "the request met a bug; the server goes on";
    refused(StatusCode::INTERNAL_SERVER_ERROR, "A bug in this program", detail)
}

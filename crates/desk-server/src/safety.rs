//! What every answer tells a browser not to do.

use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
    X_FRAME_OPTIONS,
};
use axum::http::{HeaderMap, HeaderValue};
use axum::response::Response;

/// Only what this server serves, and no script or style within a page.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; \
    base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// What every answer says unless it says otherwise itself.
static HEADERS: [(HeaderName, HeaderValue); 7] = [
    (CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY)),
    (X_CONTENT_TYPE_OPTIONS, HeaderValue::from_static("nosniff")),
    (REFERRER_POLICY, HeaderValue::from_static("no-referrer")),
    (X_FRAME_OPTIONS, HeaderValue::from_static("DENY")),
    (HeaderName::from_static("cross-origin-opener-policy"), HeaderValue::from_static("same-origin")),
    (HeaderName::from_static("cross-origin-resource-policy"), HeaderValue::from_static("same-origin")),
    (CACHE_CONTROL, HeaderValue::from_static("no-store")),
];

/// Adds what every answer says.
pub(crate) async fn add(mut response: Response) -> Response {
    let headers: &mut HeaderMap = response.headers_mut();
    for (name, value) in &HEADERS {
        headers.entry(name).or_insert_with(|| value.clone());
    }
    response
}

//! Whose page a request comes from.

use axum::extract::Request;
use axum::http::header::{HOST, HeaderName, ORIGIN};
use axum::http::{HeaderMap, StatusCode};
use axum::middleware::Next;
use axum::response::Response;

use crate::refused::refused;

/// What a browser says of where a request comes from (Fetch Metadata).
const SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// Lets through what only reads, and what this server's own page, or a program that is no browser, sends.
pub(crate) async fn check(request: Request, next: Next) -> Response {
    if request.method().is_safe() || is_own(request.headers()) {
        return next.run(request).await;
    }
    let detail = "the request comes from a page of another site; open the planner's own page";
    refused(StatusCode::FORBIDDEN, "Not from this page", detail)
}

fn is_own(headers: &HeaderMap) -> bool {
    let host = headers.get(HOST).and_then(|host| host.to_str().ok()).unwrap_or_default();
    let is_own_origin = |origin: &str| {
        origin.strip_prefix("http://").is_some_and(|authority| authority.eq_ignore_ascii_case(host))
    };
    let all = |name: HeaderName, is_right: &dyn Fn(&str) -> bool| {
        headers.get_all(name).iter().all(|value| value.to_str().is_ok_and(is_right))
    };
    all(ORIGIN, &is_own_origin) && all(SITE, &|site| matches!(site, "same-origin" | "none"))
}

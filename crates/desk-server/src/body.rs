//! The bodies of requests.

use std::time::Duration;

use axum::extract::Request;
use axum::http::StatusCode;
use axum::response::Response;
use headers::{ContentLength, ContentType, HeaderMapExt, Mime};
use http_body_util::{BodyExt, LengthLimitError, Limited};

use crate::refused::refused;

/// The largest body of a request.
pub(crate) const MOST_BYTES: usize = 64 * 1024;

/// How long a body may take to come.
const PATIENCE: Duration = Duration::from_secs(10);

/// Reads the body of a request as text.
///
/// # Errors
///
/// The refusal: it is of another kind, or too large, or comes too slowly, or is no UTF-8.
pub(crate) async fn text(request: Request, kinds: &[&str]) -> Result<String, Response> {
    if !is_of(&request, kinds) {
        let detail = format!("the `Content-Type` needs to be {}", kinds.join(" or "));
        return Err(refused(StatusCode::UNSUPPORTED_MEDIA_TYPE, "Not that kind of body", detail));
    }
    let too_large = || {
        let detail = format!("the body is too large: at most {MOST_BYTES} bytes");
        refused(StatusCode::PAYLOAD_TOO_LARGE, "Too large", detail)
    };
    let length = request.headers().typed_get::<ContentLength>();
    if length.is_some_and(|ContentLength(length)| length > MOST_BYTES as u64) {
        return Err(too_large());
    }
    let wrong = |detail: &str| refused(StatusCode::BAD_REQUEST, "Not a valid request", detail);
    let body = Limited::new(request.into_body(), MOST_BYTES).collect();
    let body = match tokio::time::timeout(PATIENCE, body).await {
        Err(_) => {
            let detail = "the body of the request came too slowly";
            return Err(refused(StatusCode::REQUEST_TIMEOUT, "Too slow", detail));
        }
        Ok(Err(error)) if error.is::<LengthLimitError>() => return Err(too_large()),
        Ok(Err(_)) => return Err(wrong("the body of the request broke off")),
        Ok(Ok(body)) => body.to_bytes(),
    };
    String::from_utf8(body.into()).map_err(|_| wrong("the body is not UTF-8 text"))
}

/// Whether a body says that it is of one of some kinds, in UTF-8.
fn is_of(request: &Request, kinds: &[&str]) -> bool {
    let kind = request.headers().typed_get::<ContentType>().map(Mime::from);
    kind.is_some_and(|kind| {
        kinds.iter().any(|known| kind.essence_str().eq_ignore_ascii_case(known))
            && kind.get_param("charset").is_none_or(|charset| charset == "utf-8")
    })
}

//! Sessions of the folder, as they are asked for.

use std::sync::Arc;

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, Request};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, LOCATION};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get};
use headers::{ETag, HeaderMapExt, IfMatch, IfNoneMatch};

use crate::body;
use crate::refused::{mistake, not_found, refused};
use crate::session_folder::{FolderFault, Known, SessionFolder};
use crate::workers::Workers;

/// The media types of sessions: a session file (RFC 9512), or a text.
pub(crate) const KINDS: [&str; 2] = ["application/yaml", "text/plain"];

/// A name in an address, or why it is none.
type Name = Result<Path<String>, PathRejection>;

/// The list of sessions.
pub(crate) fn list(folder: Arc<SessionFolder>, workers: Workers) -> MethodRouter {
    get(move || async move {
        match workers.quick(move || folder.list()).await {
            Ok(Ok(list)) => match serde_json::to_vec(&list) {
                Ok(list) => ([(CONTENT_TYPE, "application/json")], list).into_response(),
                Err(_) => mistake(),
            },
            Ok(Err(fault)) => refusal(fault),
            Err(refusal) => refusal,
        }
    })
}

/// One session, to open and to save.
pub(crate) fn file(folder: Arc<SessionFolder>, workers: Workers) -> MethodRouter {
    let (of_put, at_put) = (Arc::clone(&folder), workers.clone());
    get(move |name: Name, headers: HeaderMap| async move {
        match name {
            Ok(Path(name)) => open(folder, workers, name, &headers).await,
            Err(_) => refusal(FolderFault::NotAName),
        }
    })
    .put(move |name: Name, request: Request| async move {
        match name {
            Ok(Path(name)) => save(of_put, at_put, name, request).await,
            Err(_) => refusal(FolderFault::NotAName),
        }
    })
}

async fn open(folder: Arc<SessionFolder>, workers: Workers, name: String, headers: &HeaderMap) -> Response {
    let kind = kind_of(&name);
    let (text, version) = match workers.quick(move || folder.read(&name)).await {
        Ok(Ok(found)) => found,
        Ok(Err(fault)) => return refusal(fault),
        Err(refusal) => return refusal,
    };
    let known = headers.typed_get::<IfNoneMatch>();
    let has_it = known.is_some_and(|known| !known.precondition_passes(&version));
    let mut response = match has_it {
        true => StatusCode::NOT_MODIFIED.into_response(),
        false => ([(CONTENT_TYPE, kind)], text).into_response(),
    };
    response.headers_mut().typed_insert(version);
    response.headers_mut().insert(CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    response
}

async fn save(folder: Arc<SessionFolder>, workers: Workers, name: String, request: Request) -> Response {
    let Some(known) = known(request.headers()) else {
        let detail = "say what is replaced: `If-Match` with the `ETag` of the session, or `If-None-Match: *` for a new one";
        return refused(StatusCode::PRECONDITION_REQUIRED, "Not said what is replaced", detail);
    };
    // Its own address, percent-encoded as it was asked for.
    let location = HeaderValue::from_str(request.uri().path()).ok();
    let text = match body::text(request, &KINDS).await {
        Ok(text) => text,
        Err(refusal) => return refusal,
    };
    let is_new = matches!(known, Known::Nothing);
    let saved = workers.quick(move || folder.save(&name, &text, &known)).await;
    let version = match saved {
        Ok(Ok(version)) => version,
        Ok(Err(fault)) => return refusal(fault),
        Err(refusal) => return refusal,
    };
    let mut response = match is_new {
        true => StatusCode::CREATED.into_response(),
        false => StatusCode::NO_CONTENT.into_response(),
    };
    response.headers_mut().typed_insert(version);
    if let Some(location) = location.filter(|_| is_new) {
        response.headers_mut().insert(LOCATION, location);
    }
    response
}

/// What whoever saves says that they know of the file; nothing where they do not say it.
fn known(headers: &HeaderMap) -> Option<Known> {
    match (headers.typed_get::<IfMatch>(), headers.typed_get::<IfNoneMatch>()) {
        (Some(version), None) if !version.is_any() => Some(Known::Version(version)),
        (None, Some(none)) if none == IfNoneMatch::any() => Some(Known::Nothing),
        _ => None,
    }
}

fn kind_of(name: &str) -> &'static str {
    let is_text = name.rsplit_once('.').is_some_and(|(_, ending)| ending.eq_ignore_ascii_case("txt"));
    if is_text { "text/plain; charset=utf-8" } else { "application/yaml" }
}

fn refusal(fault: FolderFault) -> Response {
    let detail = fault.to_string();
    match fault {
        FolderFault::NotAName => refused(StatusCode::BAD_REQUEST, "Not a valid request", detail),
        FolderFault::Missing => not_found(detail),
        FolderFault::NotAFile | FolderFault::TooLarge | FolderFault::NotText => {
            refused(StatusCode::FORBIDDEN, "Not a session", detail)
        }
        FolderFault::Changed(version) => changed(detail, version),
        FolderFault::System(error) => match error.kind() {
            std::io::ErrorKind::StorageFull | std::io::ErrorKind::QuotaExceeded => {
                refused(StatusCode::INSUFFICIENT_STORAGE, "The disk is full", whole_file::reason(&error))
            }
            std::io::ErrorKind::Other
            | std::io::ErrorKind::PermissionDenied
            | std::io::ErrorKind::ReadOnlyFilesystem => {
                let detail = format!("the session cannot be opened or saved: {}", whole_file::reason(&error));
                refused(StatusCode::FORBIDDEN, "Not allowed", detail)
            }
            _ => mistake(),
        },
    }
}

fn changed(detail: String, version: Option<ETag>) -> Response {
    let mut response = refused(StatusCode::PRECONDITION_FAILED, "Changed meanwhile", detail);
    if let Some(version) = version {
        response.headers_mut().typed_insert(version);
    }
    response
}

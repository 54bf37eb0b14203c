//! What there is to ask for.

use std::sync::Arc;

use axum::Router;
use axum::extract::Request;
use axum::http::header::{ALLOW, ETAG};
use axum::http::{Extensions, HeaderMap, Method, StatusCode, Uri, Version};
use axum::middleware::{from_fn, from_fn_with_state, map_response};
use axum::response::{IntoResponse, Response};
use axum::routing::{MethodRouter, get, post};
use plan_desk::{Carrier, OPERATIONS, page_files};
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::{DefaultPredicate, NotForContentType, Predicate};

use crate::body;
use crate::desk::Desk;
use crate::hosts::{self, Hosts};
use crate::openapi::description;
use crate::origin;
use crate::page::Served;
use crate::refused::{mistake, not_found, refused};
use crate::safety;
use crate::session_folder::SessionFolder;
use crate::session_resource;
use crate::workers::Workers;

/// The methods of what can only be read.
const READ: &str = "GET, HEAD, OPTIONS";

/// Everything that a server answers.
///
/// # Errors
///
/// What is wrong with a template of the page: a mistake of this program.
pub(crate) fn router(hosts: Hosts, folder: Option<SessionFolder>) -> Result<Router, String> {
    let mut router = Router::new();
    for file in page_files(Carrier::Program { has_folder: folder.is_some() })? {
        router = router.route(&format!("/{}", file.path), readable(Served::of_page(file)?));
    }
    let description = Served::new("application/json", description(folder.is_some()).to_string());
    router = router.route("/api/openapi.json", readable(description));
    let workers = Workers::new();
    let desk = Arc::new(Desk::new(workers.clone()));
    for operation in OPERATIONS {
        let desk = Arc::clone(&desk);
        let answer = move |request: Request| async move {
            match body::text(request, &["application/json"]).await {
                Ok(body) => desk.answer(operation, &body).await,
                Err(refusal) => refusal,
            }
        };
        let route = format!("/api/{}", operation.name);
        router = router.route(&route, resource(post(answer), "POST, OPTIONS"));
    }
    if let Some(folder) = folder {
        let folder = Arc::new(folder);
        let list = session_resource::list(Arc::clone(&folder), workers.clone());
        router = router.route("/api/sessions", resource(list, READ)).route(
            "/api/sessions/{name}",
            resource(session_resource::file(folder, workers), "GET, HEAD, PUT, OPTIONS"),
        );
    }
    Ok(router
        .fallback(nothing)
        .layer(from_fn(origin::check))
        .layer(from_fn_with_state(Arc::new(hosts), hosts::check))
        .layer(CompressionLayer::new().compress_when(is_compressed()))
        .layer(CatchPanicLayer::custom(|_| mistake()))
        .layer(map_response(safety::add)))
}

/// A file that can be read.
fn readable(file: Served) -> MethodRouter {
    resource(get(move |headers: HeaderMap| async move { file.answer(&headers) }), READ)
}

/// What some methods do; the others are refused with the list of those that there are, which `OPTIONS` gives too.
fn resource(methods: MethodRouter, allowed: &'static str) -> MethodRouter {
    methods.fallback(move |method: Method| async move {
        let allow = [(ALLOW, allowed)];
        if method == Method::OPTIONS {
            return (StatusCode::NO_CONTENT, allow).into_response();
        }
        let detail = format!("the methods here are {allowed}");
        (allow, refused(StatusCode::METHOD_NOT_ALLOWED, "Not that method", detail)).into_response()
    })
}

/// Where there is nothing; `OPTIONS *` asks for the server as a whole.
async fn nothing(method: Method, uri: Uri) -> Response {
    if method == Method::OPTIONS && uri.path() == "*" {
        return (StatusCode::NO_CONTENT, [(ALLOW, "GET, HEAD, POST, PUT, OPTIONS")]).into_response();
    }
    not_found("there is nothing at this address; the page is at `/`")
}

/// What is compressed for those who can read it: nothing that a strong validator stands for byte by byte, and no file
/// that is compressed already.
fn is_compressed() -> impl Predicate {
    let has_strong_version =
        |headers: &HeaderMap| headers.get(ETAG).is_some_and(|version| version.as_bytes().starts_with(b"\""));
    DefaultPredicate::new().and(NotForContentType::const_new("application/pdf")).and(
        move |_: StatusCode, _: Version, headers: &HeaderMap, _: &Extensions| !has_strong_version(headers),
    )
}

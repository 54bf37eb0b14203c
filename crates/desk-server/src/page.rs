//! Files of the page, which change only with the program.

use std::borrow::Cow;

use axum::http::header::{CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use headers::{ETag, HeaderMapExt, IfNoneMatch};
use hyper::body::Bytes;
use plan_desk::PageFile;

use crate::version;

/// A file that is served as it is.
#[derive(Clone, Debug)]
pub(crate) struct Served {
    content_type: &'static str,
    bytes: Bytes,
    version: ETag,
    /// What it may load, where that is not what all may.
    policy: Option<HeaderValue>,
}

impl Served {
    /// Some bytes that stay what they are.
    pub(crate) fn new(content_type: &'static str, bytes: impl Into<Bytes>) -> Self {
        let bytes = bytes.into();
        Self { content_type, version: version::weak(&bytes), bytes, policy: None }
    }

    /// A file of the page, which nobody may frame: its own policy cannot say that, as it stands in the page too.
    ///
    /// # Errors
    ///
    /// That its policy cannot stand in a header: a mistake of this program.
    pub(crate) fn of_page(file: PageFile) -> Result<Self, String> {
        let policy = HeaderValue::from_str(&format!("{}; frame-ancestors 'none'", file.policy));
        let policy = policy.map_err(|error| error.to_string())?;
        let bytes = match file.bytes {
            Cow::Borrowed(bytes) => Bytes::from_static(bytes),
            Cow::Owned(bytes) => bytes.into(),
        };
        Ok(Self { policy: Some(policy), ..Self::new(file.content_type, bytes) })
    }

    /// The file, unless whoever asks has it.
    pub(crate) fn answer(&self, asked: &HeaderMap) -> Response {
        let has_it =
            asked.typed_get::<IfNoneMatch>().is_some_and(|known| !known.precondition_passes(&self.version));
        let mut response = match has_it {
            true => StatusCode::NOT_MODIFIED.into_response(),
            false => ([(CONTENT_TYPE, self.content_type)], self.bytes.clone()).into_response(),
        };
        let headers = response.headers_mut();
        headers.typed_insert(self.version.clone());
        headers.insert(CACHE_CONTROL, HeaderValue::from_static("no-cache"));
        if let Some(policy) = &self.policy {
            headers.insert(CONTENT_SECURITY_POLICY, policy.clone());
        }
        response
    }
}

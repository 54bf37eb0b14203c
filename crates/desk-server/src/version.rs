//! What tells one version of some bytes from another.

use axum::http::HeaderValue;
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use headers::{ETag, Header};
use sha2::{Digest, Sha256};

/// The validator of some bytes as they are (RFC 9110, section 8.8.3).
pub(crate) fn strong(bytes: &[u8]) -> ETag {
    parsed(format!("\"{}\"", digest(bytes)))
}

/// The validator of some bytes that may be sent compressed.
pub(crate) fn weak(bytes: &[u8]) -> ETag {
    parsed(format!("W/\"{}\"", digest(bytes)))
}

fn digest(bytes: &[u8]) -> String {
    URL_SAFE_NO_PAD.encode(&Sha256::digest(bytes)[..18])
}

fn parsed(text: String) -> ETag {
    let value = HeaderValue::from_str(&text).expect("it is letters, digits, `-` and `_` in quotation marks");
    ETag::decode(&mut std::iter::once(&value)).expect("it has the form of a validator")
}

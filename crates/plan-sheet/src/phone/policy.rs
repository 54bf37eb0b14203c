//! What a browser may load and run for the page: only what the page holds.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// The content security policy of a page with this style and this script.
pub(super) fn of(style: &str, script: &str) -> String {
    let source = |text: &str| format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)));
    format!(
        "default-src 'none'; style-src {}; script-src {}; base-uri 'none'; form-action 'none'",
        source(style),
        source(script)
    )
}

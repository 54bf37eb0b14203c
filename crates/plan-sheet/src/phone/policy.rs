//! What a browser may load and run for the page: only what the page holds.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// The content security policy of a page with this style and these scripts.
pub(super) fn of(style: &str, scripts: &[&str]) -> String {
    let source = |text: &str| format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)));
    let scripts: Vec<String> = scripts.iter().map(|script| source(script)).collect();
    format!(
        "default-src 'none'; style-src {}; script-src {}; base-uri 'none'; form-action 'none'",
        source(style),
        scripts.join(" ")
    )
}

//! What a browser may load and run for the page: only what the page holds.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

/// What the content security policy of a document has to name so that a page for the phone works in it, each source
/// with a space in front.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PagePolicy {
    /// The source of its style.
    pub style: String,
    /// The sources of its scripts.
    pub scripts: String,
}

impl PagePolicy {
    /// The sources of a style and of scripts: their hashes.
    pub(super) fn of(style: &str, scripts: &[&str]) -> Self {
        let source = |text: &str| format!(" 'sha256-{}'", STANDARD.encode(Sha256::digest(text)));
        Self { style: source(style), scripts: scripts.iter().map(|script| source(script)).collect() }
    }

    /// The policy of the page itself.
    pub(super) fn alone(&self) -> String {
        let Self { style, scripts } = self;
        format!(
            "default-src 'none'; style-src{style}; script-src{scripts}; base-uri 'none'; form-action 'none'"
        )
    }
}

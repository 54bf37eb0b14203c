//! A whole evening in a link, in the part of its address that browsers send nowhere.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::decompress_to_vec_with_limit;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::plan_request::PlanRequest;
use crate::problem::{Field, Problem, Refusal};
use crate::reply::Reply;

/// What the fragment begins with.
const BEGINS: &str = "e=";

/// The largest evening that a link may hold, in bytes.
const MOST_BYTES: usize = 256 * 1024;

/// How hard to compress: as far as goes.
const LEVEL: u8 = 10;

/// A link to an evening.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LinkRequest {
    /// The evening.
    evening: PlanRequest,
    /// The address of the page.
    page: String,
}

/// A link, and its code to scan.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct LinkAnswer {
    /// The link.
    address: String,
    /// The code, as SVG; nothing where the link is longer than a code can be.
    code: Option<String>,
}

/// The evening of a link.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct OpenLinkRequest {
    /// What stands behind `#e=` in the link.
    fragment: String,
}

/// The evening of a link.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct OpenLinkAnswer {
    evening: PlanRequest,
}

/// Puts an evening into a link: its JSON, compressed (RFC 1951) and in base64url (RFC 4648).
pub(crate) fn link(request: &LinkRequest) -> Reply {
    let json = match serde_json::to_vec(&request.evening) {
        Ok(json) => json,
        Err(error) => return Reply::refusal(&Refusal::mistake(&error)),
    };
    let fragment = URL_SAFE_NO_PAD.encode(compress_to_vec(&json, LEVEL));
    let address = format!("{}#{BEGINS}{fragment}", request.page);
    let code = plan_sheet::code_to_scan(&address);
    Reply::json(&LinkAnswer { address, code })
}

/// Takes the evening out of a link.
pub(crate) fn open_link(request: &OpenLinkRequest) -> Reply {
    let evening = URL_SAFE_NO_PAD.decode(request.fragment.trim()).ok().and_then(|bytes| {
        let json = String::from_utf8(decompress_to_vec_with_limit(&bytes, MOST_BYTES).ok()?).ok()?;
        serde_json::from_str::<PlanRequest>(&json).ok()
    });
    match evening {
        Some(evening) => Reply::json(&OpenLinkAnswer { evening }),
        None => {
            let help = Some("copy the whole link, or ask for it again".to_owned());
            let problem = Problem::new(Field::Request, "the link is not whole, or of a newer version");
            Reply::refusal(&Refusal::wrong(Problem { help, ..problem }.into()))
        }
    }
}

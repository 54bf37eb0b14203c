//! Where the page of a session is published.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The most letters of an address: a code of so many is still read from paper by a phone.
const MOST: usize = 200;

/// The address of a page, such as `https://example.org/tuesday.html`.
///
/// ```
/// use session_plan::PageAddress;
///
/// let address: PageAddress = "https://example.org/tuesday.html".parse()?;
/// assert_eq!(address.to_string(), "https://example.org/tuesday.html");
/// assert!("tuesday.html".parse::<PageAddress>().is_err());
/// assert!("https://example.org/my page".parse::<PageAddress>().is_err());
/// # Ok::<(), session_plan::PageAddressError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(try_from = "Written")]
#[schemars(description = "The address of a page, such as https://example.org/tuesday.html.")]
pub struct PageAddress(String);

/// Why a text is not the address of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "not the address of a page; write for example https://example.org/tuesday.html, at most {MOST} letters"
)]
pub struct PageAddressError;

impl std::str::FromStr for PageAddress {
    type Err = PageAddressError;

    fn from_str(text: &str) -> Result<Self, PageAddressError> {
        let address = text.trim();
        let rest = ["https://", "http://"].iter().find_map(|scheme| address.strip_prefix(scheme));
        let host = rest.and_then(|rest| rest.split(['/', '?', '#']).next());
        // Letters of other scripts are written as a browser sends them (RFC 3986, 2.1).
        let is_plain =
            address.chars().all(|letter| letter.is_ascii_graphic() && !"<>\"\\^`{|}".contains(letter));
        let is_address = host.is_some_and(|host| !host.is_empty()) && is_plain && address.len() <= MOST;
        is_address.then(|| Self(address.to_owned())).ok_or(PageAddressError)
    }
}

impl fmt::Display for PageAddress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// An address as a file writes it; the reader of files knows it by this name.
#[derive(Deserialize, JsonSchema)]
#[serde(rename = "PageAddress")]
#[schemars(extend("pattern" = r"^\s*https?://[!-~]+\s*$", "maxLength" = MOST))]
struct Written(String);

impl TryFrom<Written> for PageAddress {
    type Error = PageAddressError;

    fn try_from(written: Written) -> Result<Self, PageAddressError> {
        written.0.parse()
    }
}

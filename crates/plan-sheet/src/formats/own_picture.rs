//! How a picture of this program is known again.

/// The keyword of a picture's text that names the program which wrote it (PNG, 11.3.3.2).
pub(crate) const SOFTWARE: &str = "Software";

/// The name that pictures of this program give there.
pub(crate) const OWN_NAME: &str = "Toeline";

/// Whether the beginning of a file is that of a picture (PNG) which this program wrote: its first text says so. 100
/// bytes are enough.
///
/// ```
/// assert!(!plan_sheet::is_own_picture(b"\x89PNG\r\n\x1a\n, or so it begins"));
/// ```
pub fn is_own_picture(start: &[u8]) -> bool {
    const SIGNATURE: &[u8] = b"\x89PNG\r\n\x1a\n";
    // Each chunk has four bytes of length before its type, and four of checksum behind its data; the header has 13.
    const TYPE_OF_SECOND: usize = SIGNATURE.len() + 4 + 4 + 13 + 4 + 4;
    let own = [b"tEXt", SOFTWARE.as_bytes(), b"\0", OWN_NAME.as_bytes()].concat();
    start.starts_with(SIGNATURE) && start.get(TYPE_OF_SECOND..).is_some_and(|text| text.starts_with(&own))
}

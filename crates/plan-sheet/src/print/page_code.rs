//! The code to scan for the page of a session.

use fast_qr::ECL;
use session_plan::PageAddress;

use crate::drawing::code::code;
use crate::drawing::picture::Picture;

/// A code of an address, with its margin; nothing where the address is longer than a code can be.
pub(crate) fn page_code(page: &PageAddress) -> Option<Picture> {
    let words = format!("Code to scan for the page of this session: {page}");
    // A quarter may be hidden by rain and creases in the worst case; half of that is usual for addresses.
    code(&page.to_string(), words, ECL::M)
}

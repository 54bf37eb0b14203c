//! The typefaces of printed sheets, which come with the program.
//!
//! Open Sans (Apache-2.0) holds Latin, Greek and Cyrillic; DejaVu Sans (its own free licence) stands in
//! for letters that Open Sans lacks. The licences lie beside the files.

/// The family of all text.
pub(crate) const FAMILY: &str = "Open Sans";

/// Open Sans, regular.
pub(crate) const REGULAR: &[u8] = include_bytes!("../../fonts/OpenSans-Regular.ttf");

/// Open Sans, bold.
pub(crate) const BOLD: &[u8] = include_bytes!("../../fonts/OpenSans-Bold.ttf");

/// DejaVu Sans, for what Open Sans lacks.
pub(crate) const FALLBACK: &[u8] = include_bytes!("../../fonts/DejaVuSans.ttf");

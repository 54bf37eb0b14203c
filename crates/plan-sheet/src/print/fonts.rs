//! The typefaces of printed sheets, which come with the program.
//!
//! Open Sans (Apache-2.0) holds Latin, Greek and Cyrillic; DejaVu Sans (its own free licence) stands in
//! for letters that Open Sans lacks. The licences lie beside the files.

/// Open Sans, regular.
pub(super) const REGULAR: &[u8] = include_bytes!("../../fonts/OpenSans-Regular.ttf");

/// Open Sans, bold.
pub(super) const BOLD: &[u8] = include_bytes!("../../fonts/OpenSans-Bold.ttf");

/// DejaVu Sans, for what Open Sans lacks.
pub(super) const FALLBACK: &[u8] = include_bytes!("../../fonts/DejaVuSans.ttf");

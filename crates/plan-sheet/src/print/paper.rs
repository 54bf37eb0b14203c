//! The paper that sheets are printed on.

use serde::Serialize;

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// A4, 210 mm by 297 mm (ISO 216).
    #[default]
    A4,
    /// US Letter, 8.5 by 11 inches (ANSI/ASME Y14.1).
    Letter,
}

//! The pages that sheets are set on.

use serde::Serialize;

use crate::print::paper::Paper;

/// A page with its margins, in millimetres.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct PrintedPage {
    width_mm: f64,
    height_mm: f64,
    /// At the left and at the right.
    side_mm: f64,
    top_mm: f64,
    bottom_mm: f64,
}

impl PrintedPage {
    pub(crate) const fn of(paper: Paper) -> Self {
        let (width_mm, height_mm) = match paper {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        };
        Self { width_mm, height_mm, side_mm: 14.0, top_mm: 12.0, bottom_mm: 16.0 }
    }

    /// How broad and how high what is printed between the margins may be.
    pub(crate) const fn text_mm(self) -> (f64, f64) {
        (self.width_mm - 2.0 * self.side_mm, self.height_mm - self.top_mm - self.bottom_mm)
    }
}

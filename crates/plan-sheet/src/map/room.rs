//! How much room pictures have.

/// How wide pictures are printed, and how high they may be then, in millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    /// How wide the first is, which holds the map.
    pub(super) width_mm: f64,
    /// How high it may be.
    pub(super) first_mm: f64,
    /// How wide those are that follow.
    pub(super) others_width_mm: f64,
    /// How high they may be.
    pub(super) others_mm: f64,
}

impl Room {
    /// Everything in one picture, as wide as the text of a page.
    pub(super) const PAGE: Self =
        Self { width_mm: 180.0, first_mm: f64::INFINITY, others_width_mm: 180.0, others_mm: f64::INFINITY };

    /// Everything in one picture, as wide as a phone.
    pub(super) const PHONE: Self = Self { width_mm: 100.0, ..Self::PAGE };
}

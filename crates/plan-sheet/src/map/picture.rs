//! The map as a picture.

use kurbo::Rect;
use svg::node::element::Element;

/// A map, or a part of one.
#[derive(Debug)]
pub(super) struct Picture {
    /// What is drawn, in metres: the centre of the infield is the origin, +y is down.
    pub(super) drawing: Element,
    /// The part of the page that it takes.
    pub(super) bounds: Rect,
    /// Metres of the page that are printed as a millimetre.
    pub(super) mm: f64,
}

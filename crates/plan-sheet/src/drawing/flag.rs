//! A numbered flag.

use kurbo::{Rect, Size};
use svg::node::element::Element;

use super::ink::{Pen, group, rect, text_in};
use super::lettering::Type;

/// The size of a flag with some text.
pub(crate) fn size(text: &str, letters: Type, mm: f64) -> (f64, f64) {
    let Size { width, height } = letters.centred(text, kurbo::Point::ORIGIN).size();
    ((width + 1.2 * mm).max(height), height)
}

/// A flag at its place.
pub(crate) fn flag(text: &str, place: Rect, letters: Type, mm: f64) -> Element {
    let cloth = rect(place, "#ffffff", Pen::new("#000000", 0.3 * mm));
    group("flag", [cloth, text_in(text, place, letters)])
}

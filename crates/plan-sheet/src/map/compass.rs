//! North, and how long things are.

use kurbo::{Point, Rect, Vec2};
use svg::node::element::Element;

use crate::drawing::ink::{Pen, arrow_head, group, line, text_in};
use crate::drawing::lettering::{SMALL_MM, Type};

/// How much room north needs, in millimetres.
pub(super) const NORTH_MM: f64 = 18.0;

/// An arrow to north in a box, for a home straight that is run in a compass bearing.
pub(super) fn north(bearing_deg: f64, place: Rect, mm: f64) -> Element {
    // The home straight runs along +x; a bearing counts clockwise from north.
    let up = bearing_deg.to_radians();
    let way = Vec2::new(libm::cos(up), -libm::sin(up));
    let centre = place.center();
    let (tip, foot) = (centre + way * 4.0 * mm, centre - way * 5.0 * mm);
    let letters = Type::bold(3.2 * mm);
    group(
        "north",
        [
            line(foot, tip - way * mm, Pen::new("#000000", 0.5 * mm)),
            arrow_head(tip, way, 2.6 * mm, 1.3 * mm),
            text_in("N", letters.centred("N", centre + way * 6.3 * mm), letters),
        ],
    )
}

/// A bar of a round length, with its length over it. Its box has the same width.
pub(super) fn scale_bar(place: Rect, metres: f64, mm: f64) -> Element {
    let pen = Pen::new("#000000", 0.4 * mm);
    let (from, to) = (Point::new(place.x0, place.y1 - mm), Point::new(place.x1, place.y1 - mm));
    let tick = Vec2::new(0.0, mm);
    let letters = Type::plain(SMALL_MM * mm);
    let words = format!("{metres:.0} m");
    let over = letters.centred(&words, Point::new(place.center().x, place.y1 - 3.4 * mm));
    group(
        "scale",
        [
            line(from, to, pen),
            line(from - tick, from + tick * 0.5, pen),
            line(to - tick, to + tick * 0.5, pen),
            text_in(&words, over, letters),
        ],
    )
}

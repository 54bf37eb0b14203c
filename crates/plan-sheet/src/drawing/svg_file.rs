//! Whole SVG files.

use kurbo::Rect;
use svg::node::element::Element;
use svg::node::{Node, Text};

use super::ink::{Pen, number, readable, rect};
use super::lettering::family;

/// A picture with its title and what it shows in words; `mm` is how long a millimetre is on its page.
pub(crate) fn svg_file(
    title: &str,
    description: &str,
    bounds: Rect,
    mm: f64,
    drawings: Vec<Element>,
) -> String {
    let mut svg = Element::new("svg");
    svg.assign("xmlns", "http://www.w3.org/2000/svg");
    let view = [bounds.x0, bounds.y0, bounds.width(), bounds.height()].map(number);
    svg.assign("viewBox", view.join(" "));
    svg.assign("width", format!("{}mm", number(bounds.width() / mm)));
    svg.assign("height", format!("{}mm", number(bounds.height() / mm)));
    svg.assign("role", "img");
    svg.assign("font-family", family());
    for (name, words) in [("title", title), ("desc", description)] {
        let mut element = Element::new(name);
        element.append(Text::new(readable(words)));
        svg.append(element);
    }
    svg.append(rect(bounds, "#ffffff", Pen::new("none", 0.0)));
    for drawing in drawings {
        svg.append(drawing);
    }
    svg.to_string() + "\n"
}

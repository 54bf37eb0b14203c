//! Pictures, as whole SVG files.

use kurbo::Rect;
use svg::node::element::Element;
use svg::node::{Node, Text};

use super::ink::{Pen, number, readable, rect};
use super::lettering::FAMILY;

/// A picture, such as a map or a strip.
#[derive(Debug)]
pub(crate) struct Picture {
    pub(crate) title: String,
    /// What it shows, for readers who cannot see it.
    pub(crate) words: String,
    pub(crate) drawings: Vec<Element>,
    /// The part of the page that it takes.
    pub(crate) bounds: Rect,
    /// Units of the page that are printed as a millimetre.
    pub(crate) mm: f64,
}

impl Picture {
    /// The picture as a file.
    pub(crate) fn svg(self) -> String {
        let Self { title, words, drawings, bounds, mm } = self;
        let mut svg = Element::new("svg");
        svg.assign("xmlns", "http://www.w3.org/2000/svg");
        let view = [bounds.x0, bounds.y0, bounds.width(), bounds.height()].map(number);
        svg.assign("viewBox", view.join(" "));
        svg.assign("width", format!("{}mm", number(bounds.width() / mm)));
        svg.assign("height", format!("{}mm", number(bounds.height() / mm)));
        svg.assign("role", "img");
        svg.assign("font-family", FAMILY);
        for (name, words) in [("title", title), ("desc", words)] {
            let mut element = Element::new(name);
            element.append(Text::new(readable(&words)));
            svg.append(element);
        }
        svg.append(rect(bounds, "#ffffff", Pen::NONE));
        for drawing in drawings {
            svg.append(drawing);
        }
        svg.to_string() + "\n"
    }
}

//! Filling and clipping, by ids that are the picture's own.

use kurbo::Rect;
use svg::node::Node;
use svg::node::element::Element;

use super::frame::around;
use crate::drawing::ink::{Pen, circle, element, n, rect};

/// The definitions of a picture. Several pictures may be shown on one page, so each has a prefix.
#[derive(Clone, Debug)]
pub(super) struct Patterns {
    prefix: String,
    dots: String,
    clips: Vec<Rect>,
    mm: f64,
}

impl Patterns {
    pub(super) fn new(prefix: &str, mm: f64) -> Self {
        let dots = format!("{prefix}-hazard");
        Self { prefix: prefix.to_owned(), dots, clips: Vec::new(), mm }
    }

    /// The id of the dots of hazards.
    pub(super) fn dots(&self) -> &str {
        &self.dots
    }

    /// The id of a cut along a box.
    pub(super) fn clip(&mut self, cut: Rect) -> String {
        self.clips.push(cut);
        format!("{}-cut-{}", self.prefix, self.clips.len())
    }

    /// All that has been asked for.
    pub(super) fn definitions(&self) -> Element {
        let mm = self.mm;
        let mut all = Element::new("defs");
        let pattern = |id: &str, size: f64| {
            let sizes = [("width", n(size)), ("height", n(size))];
            let mut pattern = element("pattern", sizes);
            pattern.assign("id", id);
            pattern.assign("patternUnits", "userSpaceOnUse");
            pattern
        };
        let size = 0.9 * mm;
        let mut dots = pattern(&self.dots, size);
        dots.append(rect(Rect::new(0.0, 0.0, size, size), "#ffffff", Pen::new("none", 0.0)));
        let middle = around([kurbo::Point::ORIGIN, kurbo::Point::new(size, size)]).center();
        dots.append(circle(middle, 0.24 * mm, "#000000", Pen::new("none", 0.0)));
        all.append(dots);
        for (index, cut) in self.clips.iter().enumerate() {
            let mut clip = Element::new("clipPath");
            clip.assign("id", format!("{}-cut-{}", self.prefix, index + 1));
            clip.append(rect(*cut, "#000000", Pen::new("none", 0.0)));
            all.append(clip);
        }
        all
    }
}

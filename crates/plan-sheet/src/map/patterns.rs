//! Filling and clipping, by ids that are the picture's own.

use kurbo::Rect;
use svg::node::Node;
use svg::node::element::Element;

use crate::drawing::ink::{Pen, circle, element, group, n, rect};

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
    fn definitions(&self) -> Element {
        let size = 0.9 * self.mm;
        let mut dots = element("pattern", [("width", n(size)), ("height", n(size))]);
        dots.assign("id", self.dots.as_str());
        dots.assign("patternUnits", "userSpaceOnUse");
        let tile = Rect::new(0.0, 0.0, size, size);
        dots.append(rect(tile, "#ffffff", Pen::NONE));
        dots.append(circle(tile.center(), 0.24 * self.mm, "#000000", Pen::NONE));
        let mut all = Element::new("defs");
        all.append(dots);
        for (number, cut) in (1..).zip(&self.clips) {
            let mut clip = Element::new("clipPath");
            clip.assign("id", format!("{}-cut-{number}", self.prefix));
            clip.append(rect(*cut, "#000000", Pen::NONE));
            all.append(clip);
        }
        all
    }

    /// A drawing with all that it asked for.
    pub(super) fn with(&self, drawing: Element) -> Vec<Element> {
        vec![group("picture", [self.definitions(), drawing])]
    }
}

//! The signs of cones.

use kurbo::{Point, Rect};
use svg::node::Node;
use svg::node::element::Element;

use super::ink::{Pen, circle, group, rect};

/// Whether runs start at a cone, and whether they finish there, by what it marks.
pub(crate) fn ends(what: &str) -> (bool, bool) {
    (what.contains("start"), what.contains("finish"))
}

/// Whether a run-in begins at a cone, by what it marks.
pub(crate) fn has_run_in(what: &str) -> bool {
    what.contains("run-in")
}

/// The sign of a cone: filled where runs start, a ring where they finish, a ring with a point where they do
/// both; and a square round it where a run-in begins.
pub(crate) fn sign(what: &str, centre: Point, radius: f64) -> Element {
    let mut sign = group("sign");
    // A white rim keeps it apart from paint.
    sign.append(circle(centre, 1.35 * radius, "#ffffff", Pen::new("none", 0.0)));
    let mut radius = radius;
    if has_run_in(what) {
        let square = Rect::from_center_size(centre, (2.0 * radius, 2.0 * radius));
        sign.append(rect(square, "#ffffff", Pen::new("#000000", 0.36 * radius)));
        radius *= 0.62;
    }
    let pen = Pen::new("#000000", 0.42 * radius);
    match ends(what) {
        (true, false) => sign.append(circle(centre, radius, "#000000", Pen::new("none", 0.0))),
        (true, true) => {
            sign.append(circle(centre, 0.85 * radius, "#ffffff", pen));
            sign.append(circle(centre, 0.38 * radius, "#000000", Pen::new("none", 0.0)));
        }
        (false, true) => sign.append(circle(centre, 0.8 * radius, "#ffffff", pen)),
        (false, false) => {}
    }
    sign
}

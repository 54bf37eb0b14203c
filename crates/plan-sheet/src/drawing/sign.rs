//! The signs of cones.

use kurbo::{Point, Rect};
use session_plan::{Cone, ConeEnd};
use svg::node::element::Element;

use super::ink::{Pen, circle, group, rect};

/// What a cone marks, as its sign shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Marked {
    pub(crate) start: bool,
    pub(crate) finish: bool,
    pub(crate) run_in: bool,
}

impl Marked {
    pub(crate) const START: Self = Self { start: true, finish: false, run_in: false };
    pub(crate) const FINISH: Self = Self { start: false, finish: true, run_in: false };
    pub(crate) const BOTH: Self = Self { start: true, finish: true, run_in: false };
    pub(crate) const RUN_IN: Self = Self { start: false, finish: false, run_in: true };

    pub(crate) fn of(cone: &Cone) -> Self {
        let [start, finish, run_in] =
            [ConeEnd::Start, ConeEnd::Finish, ConeEnd::RunIn].map(|end| cone.marks(end));
        Self { start, finish, run_in }
    }
}

/// The sign of a cone: filled where runs start, a ring where they finish, a ring with a point where they do
/// both; and a square round it where a run-in begins.
pub(crate) fn sign(marked: Marked, centre: Point, mut radius: f64) -> Element {
    let filled = |radius: f64, colour: &str| circle(centre, radius, colour, Pen::NONE);
    // A white rim keeps it apart from paint.
    let mut parts = vec![filled(1.35 * radius, "#ffffff")];
    if marked.run_in {
        let square = Rect::from_center_size(centre, (2.0 * radius, 2.0 * radius));
        parts.push(rect(square, "#ffffff", Pen::new("#000000", 0.36 * radius)));
        radius *= 0.62;
    }
    let ring = |radius: f64, pen: f64| circle(centre, radius, "#ffffff", Pen::new("#000000", pen));
    match (marked.start, marked.finish) {
        (true, false) => parts.push(filled(radius, "#000000")),
        (true, true) => {
            parts.extend([ring(0.85 * radius, 0.42 * radius), filled(0.38 * radius, "#000000")]);
        }
        (false, true) => parts.push(ring(0.8 * radius, 0.42 * radius)),
        (false, false) => {}
    }
    group("sign", parts)
}

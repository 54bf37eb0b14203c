//! The signs of the places of runs.

use kurbo::{Point, Rect};
use session_plan::{SpotEnd, SpotUse};
use svg::node::element::Element;

use super::ink::{Pen, circle, group, line, rect};

/// What happens at a place, as its sign shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Marked {
    pub(crate) start: bool,
    pub(crate) finish: bool,
    pub(crate) run_in: bool,
    pub(crate) change: bool,
    pub(crate) check_mark: bool,
}

impl Marked {
    const NOTHING: Self =
        Self { start: false, finish: false, run_in: false, change: false, check_mark: false };
    pub(crate) const START: Self = Self { start: true, ..Self::NOTHING };
    pub(crate) const FINISH: Self = Self { finish: true, ..Self::NOTHING };
    pub(crate) const BOTH: Self = Self { start: true, finish: true, ..Self::NOTHING };
    pub(crate) const RUN_IN: Self = Self { run_in: true, ..Self::NOTHING };
    pub(crate) const CHECK_MARK: Self = Self { check_mark: true, ..Self::NOTHING };
    pub(crate) const CHANGE: Self = Self { change: true, ..Self::NOTHING };

    pub(crate) fn of(uses: &[SpotUse]) -> Self {
        let has = |end: SpotEnd| uses.iter().any(|own| own.end == end);
        Self {
            start: has(SpotEnd::Start),
            finish: has(SpotEnd::Finish),
            run_in: has(SpotEnd::RunIn),
            change: has(SpotEnd::Change),
            check_mark: has(SpotEnd::CheckMark),
        }
    }
}

/// The sign of a place: filled where runs start, a ring where they finish, a ring with a point where they do
/// both; a square round it where a run-in begins, a bar where they only change from fast to easy, and a cross at a check mark.
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
        (false, false) if marked.change => {
            let bar = Rect::from_center_size(centre, (1.9 * radius, 0.7 * radius));
            parts.push(rect(bar, "#000000", Pen::NONE));
        }
        (false, false) if marked.check_mark => {
            let way = Point::new(0.75 * radius, 0.75 * radius);
            let across = Point::new(way.x, -way.y);
            for end in [way, across] {
                let (from, to) = (centre - end.to_vec2(), centre + end.to_vec2());
                parts.push(line(from, to, Pen::new("#000000", 0.4 * radius)));
            }
        }
        (false, false) => {}
    }
    group("sign", parts)
}

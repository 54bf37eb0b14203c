//! The paint that a plan uses.

use kurbo::Point;
use lane_distance::{Course, Form, Mark, Placement, Spot};
use session_plan::Plan;
use svg::node::element::Element;

use super::ground::Ground;
use crate::drawing::ink::{Pen, group, line};
use crate::drawing::paint_style::{paint, reach};

/// A mark that a place refers to, in its lane.
#[derive(Debug)]
pub(super) struct UsedPaint<'a> {
    pub(super) spot: Spot,
    pub(super) mark: &'a Mark,
    /// The number of the cone there; nothing on paint.
    pub(super) cone: Option<u32>,
}

/// Every mark that the places of a plan refer to, in each lane that has one.
pub(super) fn used(plan: &Plan) -> Vec<UsedPaint<'_>> {
    let ground = Ground::of(&plan.track.ground);
    let marks = plan.track.ground.marks();
    let cones = plan.setup.iter().map(|cone| (&cone.spot, Some(cone.order)));
    cones
        .chain(plan.painted.iter().map(|painted| (&painted.spot, None)))
        .filter_map(|(spot, cone)| {
            let name = spot.mark.as_ref()?;
            let mark = marks.iter().find(|mark| mark.name == *name)?;
            Some(UsedPaint { spot: mark_of(ground, spot), mark, cone })
        })
        .collect()
}

/// Where the mark lies that a place refers to.
fn mark_of(ground: Ground<'_>, place: &Placement) -> Spot {
    let to_finish_m = place.to_finish_line_m + place.past_mark_m;
    let to_finish_m = match place.course {
        Course::Oval => ground.layout().measure(place.lane).within_lap_m(to_finish_m),
        _ => to_finish_m,
    };
    Spot { course: place.course, lane: place.lane, to_finish_m }
}

impl UsedPaint<'_> {
    /// Where it begins and ends across its lane, on the page.
    pub(super) fn ends(&self, ground: Ground<'_>) -> (Point, Point) {
        let (inner, outer) = ground.across(self.spot);
        let (from, to) = match self.mark.form {
            // Its cone would hide all of it.
            Form::Tick => (0.0, 0.8),
            form => reach(form),
        };
        (inner.lerp(outer, from), inner.lerp(outer, to))
    }
}

/// Draws marks as lines across their lanes, in their colour between black edges.
pub(super) fn draw<'a>(
    used: impl IntoIterator<Item = &'a UsedPaint<'a>>,
    ground: Ground<'_>,
    mm: f64,
) -> Element {
    let marks = used.into_iter().flat_map(|used| {
        let (from, to) = used.ends(ground);
        paint(from, to, &used.mark.colour, (0.65 * mm, 0.3 * mm))
    });
    group("paint", marks)
}

/// The finish line across all lanes of the home straight.
pub(super) fn finish_line(ground: Ground<'_>, mm: f64) -> Element {
    let (from, to) = ground.finish_line();
    line(from, to, Pen::new("#000000", 0.5 * mm))
}

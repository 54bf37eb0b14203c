//! What the signs mean, in words.

use kurbo::{Point, Rect, Vec2};
use session_plan::Plan;
use svg::node::element::Element;

use super::ground;
use super::patterns::Patterns;
use crate::drawing::ink::{Pen, group, line, moved, polygon, rect, text};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::drawing::paint_style::paint;
use crate::drawing::sign::{Marked, sign as cone_sign};

/// The sign of a place where the coach stands.
pub(super) fn coach(at: Point, mm: f64) -> Element {
    let diamond = |half: f64, colour: &str| {
        let corners = [(0.0, -half), (half, 0.0), (0.0, half), (-half, 0.0)];
        polygon(&corners.map(|(x, y)| at + Vec2::new(x, y) * mm), colour)
    };
    group("coach", [diamond(1.7, "#ffffff"), diamond(1.3, "#000000")])
}

/// The signs that a plan's map has, each with its meaning.
fn meanings(plan: &Plan, patterns: &Patterns, mm: f64) -> Vec<(Element, &'static str)> {
    let cones = || plan.setup.iter().map(|cone| (&cone.uses, &cone.spot));
    let places = || cones().chain(plan.painted.iter().map(|painted| (&painted.uses, &painted.spot)));
    let has = |is: &dyn Fn(Marked) -> bool| places().map(|(uses, _)| Marked::of(uses)).any(is);
    let mut items: Vec<(Element, &'static str)> = Vec::new();
    let centre = Point::ORIGIN;
    let radius = 1.05 * mm;
    for (marked, what, is_there) in [
        (Marked::START, "start", has(&|cone| cone.start && !cone.finish)),
        (Marked::FINISH, "finish", has(&|cone| cone.finish && !cone.start)),
        (Marked::BOTH, "start and finish", has(&|cone| cone.start && cone.finish)),
        (Marked::RUN_IN, "run-in", has(&|cone| cone.run_in)),
        (
            Marked::CHECK_MARK,
            "check mark",
            has(&|cone| cone.check_mark && !cone.start && !cone.finish && !cone.change),
        ),
        (Marked::CHANGE, "change", has(&|cone| cone.change && !cone.start && !cone.finish && !cone.run_in)),
    ] {
        items.extend(is_there.then(|| (cone_sign(marked, centre, radius), what)));
    }
    if plan.blocks.iter().any(|block| block.coach.is_some()) {
        items.push((coach(centre, mm), "coach"));
    }
    if places().any(|(_, spot)| spot.mark.is_some()) {
        let (from, to) = (Point::new(0.0, -1.5 * mm), Point::new(0.0, 1.5 * mm));
        items.push((group("sign", paint(from, to, "white", (1.0 * mm, 0.45 * mm))), "paint near a place"));
    }
    let swatch = Rect::from_center_size(centre, (4.0 * mm, 2.4 * mm));
    let pen = Pen::new("#000000", 0.3 * mm);
    if !plan.track.closed_lanes.is_empty() {
        let strokes = (0..4).map(|index| {
            let x = swatch.x0 + f64::from(index) * 1.1 * mm;
            line(Point::new(x, swatch.y1), Point::new((x + 1.2 * mm).min(swatch.x1), swatch.y0), pen)
        });
        let lane = rect(swatch, ground::SURFACE, pen);
        items.push((group("sign", std::iter::once(lane).chain(strokes)), "closed lane"));
    }
    if !plan.track.ground.hazards().is_empty() {
        items.push((rect(swatch, &format!("url(#{})", patterns.dots()), pen), "in use: keep clear"));
    }
    items
}

/// Draws the signs with their meanings in rows of a width, and returns their height.
pub(super) fn draw(plan: &Plan, at: Point, width: f64, patterns: &Patterns, mm: f64) -> (Element, f64) {
    let letters = Type::plain(SMALL_MM * mm);
    let mut items = Vec::new();
    let (mut x, mut y) = (at.x, at.y);
    for (sign, words) in meanings(plan, patterns, mm) {
        let wide = 6.0 * mm + letters.width(words) + 4.0 * mm;
        if x + wide > at.x + width && x > at.x {
            x = at.x;
            y += letters.leading() + 0.8 * mm;
        }
        let middle = y + letters.leading() / 2.0;
        let sign = moved(group("moved", [sign]), Vec2::new(x + 2.5 * mm, middle));
        let baseline = Point::new(x + 6.0 * mm, middle + letters.drop() - letters.height() / 2.0);
        items.push(group("meaning", [sign, text(words, baseline, letters)]));
        x += wide;
    }
    (group("key", items), y - at.y + letters.leading() + 0.8 * mm)
}

//! Arrows in the direction of running.

use kurbo::Rect;
use lane_distance::{LaneNumber, Spot};
use svg::node::element::Element;

use super::ground::Ground;
use super::hazards;
use super::way::Way;
use crate::drawing::ink::{Pen, arrow_head, group, stroke};

/// One on the infield beside each quarter of the lap, where nothing in use lies beside it, if there is such a
/// place.
pub(super) fn arrows(ground: Ground<'_>, mm: f64) -> Vec<Way> {
    let line = ground.layout().measure(LaneNumber::FIRST);
    let half_m = 7.0 * mm;
    let near = |middle_m: f64| {
        [-1.5, 0.0, 1.5].iter().any(|part| {
            let to_finish_m = line.within_lap_m(line.lap_m() - middle_m - part * half_m);
            let spot = Spot::on_oval(LaneNumber::FIRST, to_finish_m);
            ground.track.hazards().iter().any(|hazard| hazard.covers(ground.layout(), spot))
        })
    };
    let quarters = (0..4).map(|quarter| {
        let tries = [0.5, 0.3, 0.7, 0.15, 0.85].map(|part| line.lap_m() * (f64::from(quarter) + part) / 4.0);
        let middle_m = tries.into_iter().find(|middle_m| !near(*middle_m)).unwrap_or(tries[0]);
        let ends = (line.station(middle_m - half_m), line.station(middle_m + half_m));
        ground.way(ends, -(hazards::BESIDE_M + 1.7 * mm))
    });
    quarters.collect()
}

/// Where no label may lie: the head of an arrow.
pub(super) fn place(arrow: &Way, mm: f64) -> Rect {
    let (tip, before) = arrow.end();
    Rect::from_points(tip, before).inflate(1.5 * mm, 1.5 * mm)
}

/// Draws some arrows.
pub(super) fn draw(arrows: &[Way], mm: f64) -> Element {
    let parts = arrows.iter().flat_map(|way| {
        let (tip, before) = way.end();
        let along = (tip - before).normalize();
        let head = arrow_head(tip + along * 1.4 * mm, along, 2.4 * mm, 1.1 * mm);
        [stroke(way.forward(), Pen::new("#000000", 0.45 * mm)), head]
    });
    group("arrows", parts)
}

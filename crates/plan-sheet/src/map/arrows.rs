//! Arrows in the direction of running.

use kurbo::{Rect, Vec2};
use lane_distance::{LaneNumber, Spot};
use svg::node::Node;
use svg::node::element::Element;

use super::frame::Frame;
use super::ground::Ground;
use super::hazards;
use super::way::Way;
use crate::drawing::ink::{Pen, group, polygon, stroke};

/// An arrow on the infield beside a piece of the lap.
#[derive(Clone, Debug)]
pub(super) struct Arrow(Way);

impl Arrow {
    /// One beside each quarter of the lap, where nothing in use lies beside it, if there is such a place.
    pub(super) fn all(ground: Ground<'_>, frame: Frame, mm: f64) -> Vec<Self> {
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
            let tries =
                [0.5, 0.3, 0.7, 0.15, 0.85].map(|part| line.lap_m() * (f64::from(quarter) + part) / 4.0);
            let middle_m = tries.into_iter().find(|middle_m| !near(*middle_m)).unwrap_or(tries[0]);
            let ends = (line.station(middle_m - half_m), line.station(middle_m + half_m));
            Self(ground.way(frame, ends, -(hazards::BESIDE_M + 1.7 * mm)))
        });
        quarters.collect()
    }

    /// Where no label may lie.
    pub(super) fn place(&self, mm: f64) -> Rect {
        let (tip, before) = self.0.end();
        Rect::from_points(tip, before).inflate(1.5 * mm, 1.5 * mm)
    }
}

/// Draws some arrows.
pub(super) fn draw(arrows: &[Arrow], mm: f64) -> Element {
    let mut all = group("arrows");
    for Arrow(way) in arrows {
        all.append(stroke(way.forward(), Pen::new("#000000", 0.45 * mm)));
        let (tip, before) = way.end();
        let along = (tip - before).normalize();
        let side = Vec2::new(-along.y, along.x);
        all.append(polygon(
            &[tip + along * 1.4 * mm, tip - along * mm + side * 1.1 * mm, tip - along * mm - side * 1.1 * mm],
            "#000000",
        ));
    }
    all
}

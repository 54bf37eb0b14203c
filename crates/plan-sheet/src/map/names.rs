//! Names on the map of everything but cones.

use kurbo::{Point, Vec2};
use lane_distance::{Course, LaneList, LaneNumber, Spot};
use session_plan::Plan;
use svg::node::element::Element;

use super::frame::Frame;
use super::ground::Ground;
use super::labels::Wish;
use super::{hazards, key};

/// The name of a place other than a cone.
pub(super) struct Name {
    pub(super) words: String,
    pub(super) wishes: Vec<Wish>,
    pub(super) sign: Option<Element>,
}

impl Name {
    /// What else is named: the finish line, where the coach stands, hazards, a chute.
    pub(super) fn all(plan: &Plan, ground: Ground<'_>, frame: Frame, mm: f64) -> Vec<Self> {
        let layout = ground.layout();
        let gap = 2.0 * mm;
        let mut names = Vec::new();
        let (inside, outside) = ground.finish_line(frame);
        let name = |words: String, wishes: Vec<Wish>| Self { words, wishes, sign: None };
        names.push(name(
            "finish line".to_owned(),
            vec![
                Wish { anchor: outside, way: Vec2::new(0.8, 0.6), from: gap, worse: 0.0 },
                Wish { anchor: outside, way: Vec2::new(-0.8, 0.6), from: gap, worse: 0.5 * gap },
                Wish { anchor: inside, way: Vec2::new(0.0, -1.0), from: gap, worse: gap },
            ],
        ));
        let mut coaches: Vec<(Point, Vec<usize>)> = Vec::new();
        for (number, block) in (1..).zip(&plan.blocks) {
            let Some(coach) = &block.coach else { continue };
            let at = frame.at(lane_distance::Point::new(coach.x_m, coach.y_m));
            match coaches.iter_mut().find(|(known, _)| known.distance(at) < 0.5) {
                Some((_, blocks)) => blocks.push(number),
                None => coaches.push((at, vec![number])),
            }
        }
        let several = coaches.len() > 1;
        for (at, blocks) in coaches {
            let list = blocks.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
            let noun = if blocks.len() == 1 { "block" } else { "blocks" };
            let words = if several { format!("coach, {noun} {list}") } else { "coach".to_owned() };
            let wishes = (0..8).map(|turn| Wish {
                anchor: at,
                way: Vec2::from_angle(f64::from(turn) * std::f64::consts::FRAC_PI_4),
                from: 1.6 * mm,
                worse: 0.0,
            });
            names.push(Self { words, wishes: wishes.collect(), sign: Some(key::coach(at, mm)) });
        }
        let hazards = ground.track.hazards().iter();
        names.extend(
            hazards.map(|hazard| name(hazards::name(hazard), hazards::wishes(hazard, ground, frame, gap))),
        );
        let closed = ground.track.closed_lanes();
        if let Some(&lane) = closed.first() {
            let line = ground.layout().measure(LaneNumber::FIRST);
            let spot = Spot::on_oval(LaneNumber::FIRST, line.within_lap_m(line.lap_m() * 0.30));
            if layout.has_lane(Course::Oval, lane) {
                let (inner, outer) = ground.across(frame, layout.abreast(spot, lane));
                let way = (inner - outer).normalize();
                let anchor = inner.midpoint(outer);
                let from = anchor.distance(ground.across(frame, spot).0) + gap;
                let wish = Wish { anchor, way, from, worse: 0.0 };
                names.push(name(format!("{} closed", LaneList(closed)), vec![wish]));
            }
        }
        names
    }
}

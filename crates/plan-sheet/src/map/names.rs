//! Names on the map of everything but cones.

use kurbo::{Point, Vec2};
use lane_distance::{Course, LaneList, LaneNumber, Spot};
use session_plan::Plan;
use svg::node::element::Element;

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
    /// What else is named: the finish line, where the coach stands, hazards, what is closed.
    pub(super) fn all(plan: &Plan, ground: Ground<'_>, mm: f64) -> Vec<Self> {
        let layout = ground.layout();
        let gap = 2.0 * mm;
        let (inside, outside) = ground.finish_line();
        let name = |words: String, wishes: Vec<Wish>| Self { words, wishes, sign: None };
        let finish_line = vec![
            Wish { anchor: outside, way: Vec2::new(0.8, 0.6), from: gap, worse: 0.0 },
            Wish { anchor: outside, way: Vec2::new(-0.8, 0.6), from: gap, worse: 0.5 * gap },
            Wish { anchor: inside, way: Vec2::new(0.0, -1.0), from: gap, worse: gap },
        ];
        let mut names = vec![name("finish line".to_owned(), finish_line)];
        let mut coaches: Vec<(Point, Vec<u32>)> = Vec::new();
        for (number, block) in (1..).zip(&plan.blocks) {
            let Some(coach) = &block.coach else { continue };
            let at = ground.frame.at(lane_distance::Point::new(coach.x_m, coach.y_m));
            match coaches.iter_mut().find(|(known, _)| known.distance(at) < 0.5) {
                Some((_, blocks)) => blocks.push(number),
                None => coaches.push((at, vec![number])),
            }
        }
        let several = coaches.len() > 1;
        for (anchor, blocks) in coaches {
            let noun = if blocks.len() == 1 { "block" } else { "blocks" };
            let list = blocks.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
            let words = if several { format!("coach, {noun} {list}") } else { "coach".to_owned() };
            let wishes = Wish::all_round(anchor, 8, 1.6 * mm);
            names.push(Self { words, wishes, sign: Some(key::coach(anchor, mm)) });
        }
        let hazards = ground.track.hazards().iter();
        names.extend(hazards.map(|hazard| name(hazards::name(hazard), hazards::wishes(hazard, ground, gap))));
        let closed = ground.track.closed_lanes();
        if let Some(&lane) = closed.first().filter(|lane| layout.has_lane(Course::Oval, **lane)) {
            let line = layout.measure(LaneNumber::FIRST);
            let spot = Spot::on_oval(LaneNumber::FIRST, line.within_lap_m(line.lap_m() * 0.30));
            let (inner, outer) = ground.across(layout.abreast(spot, lane));
            let anchor = inner.midpoint(outer);
            let from = anchor.distance(ground.across(spot).0) + gap;
            let wish = Wish { anchor, way: (inner - outer).normalize(), from, worse: 0.0 };
            names.push(name(format!("{} closed", LaneList(closed)), vec![wish]));
        }
        names
    }
}

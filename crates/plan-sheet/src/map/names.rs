//! Names on the map of everything but cones.

use kurbo::{Line, Point, Vec2};
use lane_distance::{Course, LaneList, LaneNumber, Placement, Spot};
use session_plan::{Plan, SpotEnd};
use svg::node::element::Element;

use super::flag_wishes::flag_wishes;
use super::ground::Ground;
use super::labels::{Labels, Wish};
use super::{hazards, key};
use crate::drawing::ink::{Pen, line, text_in};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::words::spot::from_paint;

/// Its name, which stands on every map.
const FINISH_LINE: &str = "finish line";

/// The name of a place other than a cone.
pub(super) struct Name {
    pub(super) words: String,
    pub(super) wishes: Vec<Wish>,
    pub(super) sign: Option<Element>,
}

impl Name {
    /// What else is named: the finish line, where the coach stands, hazards, what is closed, paint from which runs start.
    pub(super) fn all(plan: &Plan, ground: Ground<'_>, mm: f64) -> Vec<Self> {
        let mut names = vec![Self::of_finish_line(ground, mm)];
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
        names.extend(Self::of_use(ground, mm));
        names.extend(Self::of_painted_starts(plan, ground, mm));
        names
    }

    /// The paint from which runs start, each mark once however many lanes start there.
    fn of_painted_starts(plan: &Plan, ground: Ground<'_>, mm: f64) -> Vec<Self> {
        let mut marks: Vec<(String, Vec<&Placement>)> = Vec::new();
        for painted in &plan.painted {
            let words = from_paint(&painted.spot);
            if words == FINISH_LINE || !painted.uses.iter().any(|of| of.end == SpotEnd::Start) {
                continue;
            }
            match marks.iter_mut().find(|(known, _)| *known == words) {
                Some((_, places)) => places.push(&painted.spot),
                None => marks.push((words, vec![&painted.spot])),
            }
        }
        let named = |(words, places): (String, Vec<&Placement>)| {
            Self::new(words, flag_wishes(&places, ground, 2.0 * mm))
        };
        marks.into_iter().map(named).collect()
    }

    /// The names on a track without a plan.
    pub(super) fn of_ground(ground: Ground<'_>, mm: f64) -> Vec<Self> {
        let mut names = vec![Self::of_finish_line(ground, mm)];
        names.extend(Self::of_use(ground, mm));
        names
    }

    fn new(words: String, wishes: Vec<Wish>) -> Self {
        Self { words, wishes, sign: None }
    }

    fn of_finish_line(ground: Ground<'_>, mm: f64) -> Self {
        let gap = 2.0 * mm;
        let (inside, outside) = ground.finish_line();
        let wishes = vec![
            Wish { anchor: outside, way: Vec2::new(0.8, 0.6), from: gap, worse: 0.0 },
            Wish { anchor: outside, way: Vec2::new(-0.8, 0.6), from: gap, worse: 0.5 * gap },
            Wish { anchor: inside, way: Vec2::new(0.0, -1.0), from: gap, worse: gap },
        ];
        Self::new(FINISH_LINE.to_owned(), wishes)
    }

    /// Hazards, and what is closed.
    fn of_use(ground: Ground<'_>, mm: f64) -> Vec<Self> {
        let (layout, gap) = (ground.layout(), 2.0 * mm);
        let hazards = ground.track.hazards().iter();
        let named =
            hazards.map(|hazard| Self::new(hazards::name(hazard), hazards::wishes(hazard, ground, gap)));
        let mut names: Vec<Self> = named.collect();
        let closed = ground.track.closed_lanes();
        if let Some(&lane) = closed.first().filter(|lane| layout.has_lane(Course::Oval, **lane)) {
            let line = layout.measure(LaneNumber::FIRST);
            let spot = Spot::on_oval(LaneNumber::FIRST, line.within_lap_m(line.lap_m() * 0.30));
            let (inner, outer) = ground.across(layout.abreast(spot, lane));
            let anchor = inner.midpoint(outer);
            let from = anchor.distance(ground.across(spot).0) + gap;
            let wish = Wish { anchor, way: (inner - outer).normalize(), from, worse: 0.0 };
            names.push(Self::new(format!("{} closed", LaneList(closed)), vec![wish]));
        }
        names
    }
}

/// The names for which there is room among the labels, each with its line, and the signs of all.
pub(super) fn draw(names: &[Name], labels: &mut Labels, ground: Ground<'_>, mm: f64) -> Vec<Element> {
    let letters = Type::plain(SMALL_MM * mm);
    let mut drawn = Vec::new();
    for name in names {
        let size = (letters.width(&name.words), letters.leading());
        if let Some(placed) = labels.place(size, &name.wishes, |place| ground.is_box_on_lanes(place, mm)) {
            drawn.push(leader(placed.leader, mm));
            let box_of_words = letters.centred(&name.words, placed.place.center());
            drawn.push(text_in(&name.words, box_of_words, letters));
        }
        drawn.extend(name.sign.clone());
    }
    drawn
}

/// The line from what is named to its name.
pub(super) fn leader(Line { p0, p1 }: Line, mm: f64) -> Element {
    line(p0, p1, Pen::new("#000000", 0.22 * mm))
}

//! What is not safe while in use.

use lane_distance::{Course, Hazard, LaneNumber, Side, Spot};
use svg::node::element::Element;

use super::ground::{Ground, outline};
use super::labels::Wish;
use crate::drawing::ink::{element, group, n};

/// How wide a hazard beside the lanes is drawn, in metres: how far it reaches is not known.
pub(super) const BESIDE_M: f64 = 2.5;

/// Where a hazard between two places of its course is drawn, as distances outside the inner edge.
fn breadth_m(hazard: &Hazard, ground: Ground<'_>, (from_m, to_m): (f64, f64)) -> (f64, f64) {
    let outer_m = match hazard.on {
        Course::Oval => outside_there_m(ground, from_m).max(outside_there_m(ground, to_m)),
        // Where a straight has fewer lanes than the oval, what is outside lies outside the oval's.
        straight => ground.outer_m(straight).max(ground.outer_m(Course::Oval)),
    };
    match hazard.side {
        Side::Inside => (-BESIDE_M, 0.0),
        Side::Outside => (outer_m, outer_m + BESIDE_M),
        Side::Across => (0.0, ground.outer_m(hazard.on)),
    }
}

/// The shape of a hazard as path data; nothing where the track does not reach it.
fn shape(hazard: &Hazard, ground: Ground<'_>) -> Option<String> {
    let layout = ground.layout();
    let (from_m, to_m) = hazard.extent_m(layout, hazard.on, LaneNumber::FIRST)?;
    let breadth_m = breadth_m(hazard, ground, (from_m, to_m));
    if hazard.on != Course::Oval {
        return Some(outline(&ground.box_of_straight(hazard.on, (from_m, to_m), breadth_m)));
    }
    let station = |to_finish_m: f64| layout.station(Spot::on_oval(LaneNumber::FIRST, to_finish_m));
    Some(ground.band((station(from_m), station(to_m)), breadth_m))
}

/// How far the outermost lane's outer edge lies outside the inner edge at a place of the oval.
pub(super) fn outside_there_m(ground: Ground<'_>, to_finish_m: f64) -> f64 {
    let spot = Spot::on_oval(LaneNumber::FIRST, to_finish_m);
    let courses = Course::ALL.into_iter().filter(|&course| ground.layout().on_course(spot, course).is_some());
    courses.map(|course| ground.outer_m(course)).fold(0.0, f64::max)
}

/// Draws hazards, filled by a pattern of that id.
pub(super) fn draw(ground: Ground<'_>, dots: &str, mm: f64) -> Element {
    let shapes = ground.track.hazards().iter().filter_map(|hazard| shape(hazard, ground));
    let filled = |d: String| {
        element(
            "path",
            [
                ("d", d.into()),
                ("fill", format!("url(#{dots})").into()),
                ("stroke", "#000000".into()),
                ("stroke-width", n(0.35 * mm)),
            ],
        )
    };
    group("hazards", shapes.map(filled))
}

/// What a hazard is called on the map.
pub(super) fn name(hazard: &Hazard) -> String {
    let name = hazard.kind.to_string();
    match &hazard.lanes {
        Some(lanes) if hazard.side == Side::Across => {
            format!("{name}, {}", lane_distance::LaneList(lanes))
        }
        _ => name,
    }
}

/// Where the name of a hazard may stand: on its own side of the lanes first.
pub(super) fn wishes(hazard: &Hazard, ground: Ground<'_>, gap: f64) -> Vec<Wish> {
    let layout = ground.layout();
    let Some((from_m, to_m)) = hazard.extent_m(layout, hazard.on, LaneNumber::FIRST) else {
        return Vec::new();
    };
    let middle_m = match hazard.on {
        Course::Oval if to_m > from_m => from_m,
        _ => (from_m + to_m) / 2.0,
    };
    let pose = layout.pose(Spot { course: hazard.on, lane: LaneNumber::FIRST, to_finish_m: middle_m });
    let breadth_m = breadth_m(hazard, ground, (middle_m, middle_m));
    let measure_m = layout.lane(LaneNumber::FIRST).measure_m;
    let beside = |out_m: f64| ground.frame.at(pose.outwards(out_m - measure_m));
    let middle = beside((breadth_m.0 + breadth_m.1) / 2.0);
    let outwards = (beside(1.0) - beside(0.0)) / ground.frame.length(1.0);
    let half = ground.frame.length(breadth_m.1 - breadth_m.0) / 2.0;
    let (way, beyond, worse) = match hazard.side {
        Side::Across => (outwards, 0.0, 4.0 * gap),
        side => {
            let way = if side == Side::Inside { -outwards } else { outwards };
            (way, ground.frame.length(outside_there_m(ground, middle_m)), 6.0 * gap)
        }
    };
    vec![
        Wish { anchor: middle, way, from: half + gap, worse: 0.0 },
        Wish { anchor: middle, way: -way, from: half + beyond + gap, worse },
    ]
}

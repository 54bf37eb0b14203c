//! The numbered flags of the map.

use kurbo::{Rect, Size, Vec2};
use svg::node::Node;
use svg::node::element::Element;

use super::cones::{self, Cluster};
use super::frame::Frame;
use super::ground::Ground;
use super::hazards::outside_there_m;
use super::ink::{Pen, group, rect, text_in};
use super::labels::Wish;
use super::lettering::Type;

/// The size of a flag with some text.
pub(super) fn size(text: &str, letters: Type, mm: f64) -> (f64, f64) {
    let Size { width, height } = letters.centred(text, kurbo::Point::ORIGIN).size();
    ((width + 1.2 * mm).max(height), height)
}

/// A flag at its place.
pub(super) fn flag(text: &str, place: Rect, letters: Type, mm: f64) -> Element {
    let mut flag = group("flag");
    flag.append(rect(place, "#ffffff", Pen::new("#000000", 0.3 * mm)));
    flag.append(text_in(text, place, letters));
    flag
}

/// Where the flag of a cluster would like to stand: outside the lanes, else on the infield, square across
/// from one of its cones.
pub(super) fn wishes(cluster: &Cluster<'_>, ground: Ground<'_>, frame: Frame, gap: f64) -> Vec<Wish> {
    let layout = ground.layout();
    let outermost = cluster.cones.iter().max_by_key(|cone| cone.spot.lane);
    let innermost = cluster.cones.iter().min_by_key(|cone| cone.spot.lane);
    let mut wishes = Vec::new();
    for (cone, is_outward) in [(outermost, true), (innermost, false)] {
        let Some(cone) = cone else { continue };
        let spot = cones::spot(cone);
        let pose = layout.pose(spot);
        let anchor = cones::at(cone, frame);
        let measure_m = layout.lanes()[usize::from(spot.lane) - 1].measure_m;
        let outwards: Vec2 = (frame.at(pose.outwards(1.0)) - frame.at(pose.point)) / frame.length(1.0);
        let on_oval = layout.on_course(spot, lane_distance::Course::Oval);
        let outer_m = match on_oval {
            Some(on_oval) => outside_there_m(ground, layout.abreast(on_oval, 1).to_finish_m),
            None => ground.outer_m(spot.course),
        };
        if is_outward {
            let from = frame.length(outer_m - measure_m) + gap;
            wishes.push(Wish { anchor, way: outwards, from, worse: 0.0 });
        } else {
            wishes.push(Wish {
                anchor,
                way: -outwards,
                from: frame.length(measure_m) + gap,
                worse: 3.0 * gap,
            });
        }
    }
    wishes
}

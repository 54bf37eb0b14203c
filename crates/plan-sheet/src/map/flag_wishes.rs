//! Where the numbered flags of the map would like to stand.

use kurbo::Vec2;
use lane_distance::LaneNumber;

use super::cluster::Cluster;
use super::cones;
use super::frame::Frame;
use super::ground::Ground;
use super::hazards::outside_there_m;
use super::labels::Wish;

/// Where the flag of a cluster would like to stand: outside the lanes, else on the infield, square across
/// from one of its cones.
pub(super) fn flag_wishes(cluster: &Cluster<'_>, ground: Ground<'_>, frame: Frame, gap: f64) -> Vec<Wish> {
    let layout = ground.layout();
    let outermost = cluster.cones.iter().max_by_key(|cone| cone.spot.lane);
    let innermost = cluster.cones.iter().min_by_key(|cone| cone.spot.lane);
    let mut wishes = Vec::new();
    for (cone, is_outward) in [(outermost, true), (innermost, false)] {
        let Some(cone) = cone else { continue };
        let spot = cone.spot.spot();
        let pose = layout.pose(spot);
        let anchor = cones::at(cone, frame);
        let measure_m = layout.lane(spot.lane).measure_m;
        let outwards: Vec2 = (frame.at(pose.outwards(1.0)) - frame.at(pose.point)) / frame.length(1.0);
        let on_oval = layout.on_course(spot, lane_distance::Course::Oval);
        let outer_m = match on_oval {
            Some(on_oval) => outside_there_m(ground, layout.abreast(on_oval, LaneNumber::FIRST).to_finish_m),
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

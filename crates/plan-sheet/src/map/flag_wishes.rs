//! Where the numbered flags of the map would like to stand.

use lane_distance::{Course, LaneNumber};
use session_plan::Cone;

use super::cluster::Cluster;
use super::cones;
use super::ground::Ground;
use super::hazards::outside_there_m;
use super::labels::Wish;

/// Where the flag of a cluster would like to stand: outside the lanes, else on the infield, square across
/// from one of its cones.
pub(super) fn flag_wishes(cluster: &Cluster<'_>, ground: Ground<'_>, gap: f64) -> Vec<Wish> {
    let layout = ground.layout();
    let measure_m = |cone: &Cone| layout.lane(cone.spot.lane).measure_m;
    let wish = |cone: &Cone, outwards: f64, from_m: f64, worse: f64| {
        let (pose, frame) = (layout.pose(cone.spot.spot()), ground.frame);
        let way = (frame.at(pose.outwards(1.0)) - frame.at(pose.point)) * outwards;
        Wish { anchor: cones::at(&cone.spot, frame), way, from: from_m + gap, worse }
    };
    let outermost = cluster.cones.iter().max_by_key(|cone| cone.spot.lane).map(|cone| {
        let spot = cone.spot.spot();
        let outer_m = match layout.on_course(spot, Course::Oval) {
            Some(on_oval) => outside_there_m(ground, layout.abreast(on_oval, LaneNumber::FIRST).to_finish_m),
            None => ground.outer_m(spot.course),
        };
        wish(cone, 1.0, outer_m - measure_m(cone), 0.0)
    });
    let innermost = cluster.cones.iter().min_by_key(|cone| cone.spot.lane);
    let innermost = innermost.map(|cone| wish(cone, -1.0, measure_m(cone), 3.0 * gap));
    outermost.into_iter().chain(innermost).collect()
}

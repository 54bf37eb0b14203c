//! Where the numbered flags of the map would like to stand.

use lane_distance::{Course, LaneNumber, Placement};

use super::cones;
use super::ground::Ground;
use super::hazards::outside_there_m;
use super::labels::Wish;

/// Where the flag of some places would like to stand: outside the lanes, else on the infield, square across
/// from one of them.
pub(super) fn flag_wishes(places: &[&Placement], ground: Ground<'_>, gap: f64) -> Vec<Wish> {
    let layout = ground.layout();
    let measure_m = |place: &Placement| layout.lane(place.lane).measure_m;
    let wish = |place: &Placement, outwards: f64, from_m: f64, worse: f64| {
        let (pose, frame) = (layout.pose(place.spot()), ground.frame);
        let way = (frame.at(pose.outwards(1.0)) - frame.at(pose.point)) * outwards;
        Wish { anchor: cones::at(place, frame), way, from: from_m + gap, worse }
    };
    let outermost = places.iter().max_by_key(|place| place.lane).map(|place| {
        let spot = place.spot();
        let outer_m = match layout.on_course(spot, Course::Oval) {
            Some(on_oval) => outside_there_m(ground, layout.abreast(on_oval, LaneNumber::FIRST).to_finish_m),
            None => ground.outer_m(spot.course),
        };
        wish(place, 1.0, outer_m - measure_m(place), 0.0)
    });
    let innermost = places.iter().min_by_key(|place| place.lane);
    let innermost = innermost.map(|place| wish(place, -1.0, measure_m(place), 3.0 * gap));
    outermost.into_iter().chain(innermost).collect()
}

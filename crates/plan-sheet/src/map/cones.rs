//! Cones on the map.

use kurbo::Point;
use session_plan::Cone;
use svg::node::Node;
use svg::node::element::Element;

use super::frame::Frame;
use crate::drawing::ink::n;
use crate::drawing::sign::{Marked, sign};

/// Where a cone lies on the page.
pub(super) fn at(cone: &Cone, frame: Frame) -> Point {
    frame.at(lane_distance::Point::new(cone.spot.x_m, cone.spot.y_m))
}

/// A cone on the map: its centre is where the solver put the spot.
pub(super) fn draw(cone: &Cone, frame: Frame, radius: f64) -> Element {
    let mut sign = sign(Marked::of(cone), at(cone, frame), radius);
    sign.assign("class", "cone");
    sign.assign("data-cone", cone.order);
    sign.assign("data-x-m", n(cone.spot.x_m));
    sign.assign("data-y-m", n(cone.spot.y_m));
    sign
}

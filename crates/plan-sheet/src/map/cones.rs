//! Cones on the map.

use kurbo::Point;
use lane_distance::Spot;
use session_plan::SetupItem;
use svg::node::Node;
use svg::node::element::Element;

use super::frame::Frame;
use crate::drawing::ink::n;
use crate::drawing::sign::sign;

/// The spot of a cone.
pub(super) fn spot(cone: &SetupItem) -> Spot {
    cone.spot.spot()
}

/// Where a cone lies on the page.
pub(super) fn at(cone: &SetupItem, frame: Frame) -> Point {
    frame.at(lane_distance::Point::new(cone.spot.x_m, cone.spot.y_m))
}

/// A cone on the map: its centre is where the solver put the spot.
pub(super) fn draw(cone: &SetupItem, frame: Frame, radius: f64) -> Element {
    let mut sign = sign(&cone.what, at(cone, frame), radius);
    sign.assign("class", "cone");
    sign.assign("data-cone", cone.order);
    sign.assign("data-x-m", n(cone.spot.x_m));
    sign.assign("data-y-m", n(cone.spot.y_m));
    sign
}

//! Places of runs on the map.

use kurbo::Point;
use lane_distance::Placement;
use session_plan::{Cone, PaintedSpot};
use svg::node::Node;
use svg::node::element::Element;

use super::frame::Frame;
use crate::drawing::ink::n;
use crate::drawing::sign::{Marked, sign};

/// Where a spot lies on the page.
pub(super) fn at(spot: &Placement, frame: Frame) -> Point {
    frame.at(lane_distance::Point::new(spot.x_m, spot.y_m))
}

/// A spot that paint shows, on the map.
pub(super) fn draw_painted(painted: &PaintedSpot, frame: Frame, radius: f64) -> Element {
    let mut sign = sign(Marked::of(&painted.uses), at(&painted.spot, frame), radius);
    sign.assign("class", "painted");
    sign.assign("data-x-m", n(painted.spot.x_m));
    sign.assign("data-y-m", n(painted.spot.y_m));
    sign
}

/// A cone on the map: its centre is where the solver put the spot.
pub(super) fn draw(cone: &Cone, frame: Frame, radius: f64) -> Element {
    let mut sign = sign(Marked::of(&cone.uses), at(&cone.spot, frame), radius);
    sign.assign("class", "cone");
    sign.assign("data-cone", cone.order);
    sign.assign("data-x-m", n(cone.spot.x_m));
    sign.assign("data-y-m", n(cone.spot.y_m));
    sign
}

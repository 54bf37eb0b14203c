//! Cones by their numbers, and those that lie close to each other.

use kurbo::{Point, Rect};
use lane_distance::Spot;
use session_plan::{Plan, SetupItem};
use svg::node::Node;
use svg::node::element::Element;

use super::frame::Frame;
use super::ink::{Pen, circle, group, n, rect};
use crate::sheet::spans::spans;

/// Cones that lie so close to each other that they share a flag on the map.
#[derive(Clone, Debug)]
pub(super) struct Cluster<'a> {
    /// In the order of their numbers.
    pub(super) cones: Vec<&'a SetupItem>,
}

impl<'a> Cluster<'a> {
    /// Cones closer than some metres to another of the same cluster, each cluster by its first cone.
    pub(super) fn all(plan: &'a Plan, close_m: f64) -> Vec<Self> {
        let mut clusters: Vec<Self> = Vec::new();
        for cone in &plan.setup {
            let is_close = |cluster: &Self| {
                let spot = &cone.spot;
                (cluster.cones.iter())
                    .any(|other| (other.spot.x_m - spot.x_m).hypot(other.spot.y_m - spot.y_m) < close_m)
            };
            let (near, mut far): (Vec<Self>, Vec<Self>) = clusters.into_iter().partition(is_close);
            let mut cones: Vec<&SetupItem> = near.into_iter().flat_map(|cluster| cluster.cones).collect();
            cones.push(cone);
            cones.sort_by_key(|cone| cone.order);
            far.push(Self { cones });
            clusters = far;
        }
        clusters.sort_by_key(|cluster| cluster.cones[0].order);
        clusters
    }

    /// The numbers of its cones, such as `5–7, 9`.
    pub(super) fn numbers(&self) -> String {
        ranges(self.cones.iter().map(|cone| cone.order))
    }

    /// Its lanes, such as `lanes 3–5`.
    pub(super) fn lanes(&self) -> String {
        let lanes: std::collections::BTreeSet<u32> =
            self.cones.iter().map(|cone| cone.spot.lane.into()).collect();
        let noun = if lanes.len() == 1 { "lane" } else { "lanes" };
        format!("{noun} {}", ranges(lanes))
    }
}

/// Rising numbers, with a dash from the first to the last of those that follow each other.
pub(super) fn ranges(numbers: impl IntoIterator<Item = u32>) -> String {
    let word = |(first, last): (u32, u32)| match last - first {
        0 => first.to_string(),
        _ => format!("{first}–{last}"),
    };
    spans(numbers).into_iter().map(word).collect::<Vec<_>>().join(", ")
}

/// The spot of a cone.
pub(super) fn spot(cone: &SetupItem) -> Spot {
    cone.spot.spot()
}

/// Where a cone lies on the page.
pub(super) fn at(cone: &SetupItem, frame: Frame) -> Point {
    frame.at(lane_distance::Point::new(cone.spot.x_m, cone.spot.y_m))
}

/// Whether runs start at a cone, and whether they finish there, by what it marks.
pub(super) fn ends(what: &str) -> (bool, bool) {
    (what.contains("start"), what.contains("finish"))
}

/// Whether a run-in begins at a cone, by what it marks.
pub(super) fn has_run_in(what: &str) -> bool {
    what.contains("run-in")
}

/// The sign of a cone: filled where runs start, a ring where they finish, a ring with a point where they do
/// both; and a square round it where a run-in begins.
pub(super) fn sign(what: &str, centre: Point, radius: f64) -> Element {
    let mut sign = group("sign");
    // A white rim keeps it apart from paint.
    sign.append(circle(centre, 1.35 * radius, "#ffffff", Pen::new("none", 0.0)));
    let mut radius = radius;
    if has_run_in(what) {
        let square = Rect::from_center_size(centre, (2.0 * radius, 2.0 * radius));
        sign.append(rect(square, "#ffffff", Pen::new("#000000", 0.36 * radius)));
        radius *= 0.62;
    }
    let pen = Pen::new("#000000", 0.42 * radius);
    match ends(what) {
        (true, false) => sign.append(circle(centre, radius, "#000000", Pen::new("none", 0.0))),
        (true, true) => {
            sign.append(circle(centre, 0.85 * radius, "#ffffff", pen));
            sign.append(circle(centre, 0.38 * radius, "#000000", Pen::new("none", 0.0)));
        }
        (false, true) => sign.append(circle(centre, 0.8 * radius, "#ffffff", pen)),
        (false, false) => {}
    }
    sign
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

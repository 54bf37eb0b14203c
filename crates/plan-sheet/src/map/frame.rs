//! From metres on the ground to the page.

use kurbo::{Point, Rect, Vec2};

/// How the ground is put on the page: +y on the ground is up on the page.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    /// Units of the page to a metre.
    pub(super) scale: f64,
    /// Where the centre of the infield comes to lie on the page.
    pub(super) origin: Point,
}

impl Frame {
    /// The map itself: a unit of the page is a metre, and the centre of the infield is its origin.
    pub(super) const METRES: Self = Self { scale: 1.0, origin: Point::ORIGIN };

    /// The frame that puts a place on the ground to a place on the page.
    pub(super) fn with(scale: f64, ground: lane_distance::Point, page: Point) -> Self {
        Self { scale, origin: page - Vec2::new(ground.x, -ground.y) * scale }
    }

    /// A place on the page.
    pub(super) fn at(self, ground: lane_distance::Point) -> Point {
        self.origin + Vec2::new(ground.x, -ground.y) * self.scale
    }

    /// A length on the page.
    pub(super) fn length(self, metres: f64) -> f64 {
        metres * self.scale
    }
}

/// The box that holds some places.
pub(super) fn around(points: impl IntoIterator<Item = Point>) -> Rect {
    let mut points = points.into_iter();
    let Some(first) = points.next() else { return Rect::ZERO };
    points.fold(Rect::from_points(first, first), |all, point| all.union_pt(point))
}

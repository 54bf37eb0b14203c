//! The map as a picture.

use kurbo::Rect;
use session_plan::Plan;
use svg::node::element::Element;

use super::inset_page::InsetPage;
use super::sketch::Sketch;

/// The map of a plan.
#[derive(Debug)]
pub(super) struct Picture {
    /// What is drawn, in metres: the centre of the infield is the origin, +y is down.
    pub(super) drawing: Element,
    /// The part of the page that it takes.
    pub(super) bounds: Rect,
    /// Metres of the page that are printed as a millimetre.
    pub(super) mm: f64,
}

/// How wide pictures are printed, and how high they may be then, in millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    /// All of them.
    pub(super) width_mm: f64,
    /// The first, which holds the map.
    pub(super) first_mm: f64,
    /// Those that follow.
    pub(super) others_mm: f64,
}

impl Room {
    /// Everything in one picture, as wide as the text of a page.
    pub(super) const PAGE: Self = Self { width_mm: 180.0, first_mm: f64::INFINITY, others_mm: f64::INFINITY };

    /// Everything in one picture, as wide as a phone.
    pub(super) const PHONE: Self = Self { width_mm: 100.0, ..Self::PAGE };
}

impl Picture {
    /// Draws the map of a plan in as many pictures as the room asks for: the map, then the insets that find
    /// no room below it. Ids begin with a prefix.
    pub(super) fn all(plan: &Plan, prefix: &str, room: Room) -> (Self, Vec<InsetPage>) {
        Sketch::of(plan, prefix, room).pictures()
    }
}

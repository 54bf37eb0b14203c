//! What a map is drawn from.

use kurbo::{Point, Rect, Size};
use session_plan::Plan;

use super::arrows::Arrow;
use super::compass;
use super::cones;
use super::frame::Frame;
use super::ground::Ground;
use super::inset::InsetScale;
use super::labels::Labels;
use super::names::Name;
use super::room::Room;

/// Room for flags beside the lanes, in millimetres.
const RIM_MM: f64 = 13.0;

/// How far insets keep from the lanes, and from each other, in millimetres.
const INFIELD_MM: f64 = 8.0;
const INSETS_MM: f64 = 4.0;

/// What a map is drawn from, whatever is magnified on it.
pub(super) struct Sketch<'a> {
    pub(super) plan: &'a Plan,
    pub(super) ground: Ground<'a>,
    pub(super) prefix: &'a str,
    pub(super) room: Room,
    /// The part of the page that the track and its flags take.
    pub(super) map: Rect,
    pub(super) mm: f64,
    pub(super) arrows: Vec<Arrow>,
    pub(super) names: Vec<Name>,
}

impl<'a> Sketch<'a> {
    pub(super) fn of(plan: &'a Plan, prefix: &'a str, room: Room) -> Self {
        let ground = Ground::of(&plan.track.ground);
        let lanes = ground.bounds();
        let mm = lanes.width() / (room.width_mm - 2.0 * RIM_MM);
        let map = lanes.inflate(RIM_MM * mm, RIM_MM * mm);
        let arrows = Arrow::all(ground, Frame::METRES, mm);
        let names = Name::all(plan, ground, Frame::METRES, mm);
        Self { plan, ground, prefix, room, map, mm, arrows, names }
    }

    /// How large insets are drawn, with millimetres to a metre at most.
    pub(super) fn inset_scale(&self, largest: f64) -> InsetScale {
        InsetScale { largest, broadest: self.map.width(), mm: self.mm }
    }

    /// The part of the infield that is free for insets.
    pub(super) fn infield(&self) -> Rect {
        self.ground.infield(INFIELD_MM * self.mm)
    }

    /// How far insets keep from each other.
    pub(super) fn gap(&self) -> f64 {
        INSETS_MM * self.mm
    }

    /// Where north is shown, if it is known.
    pub(super) fn north(&self) -> Option<(f64, Rect)> {
        let side = compass::NORTH_MM * self.mm;
        let bearing_deg = self.plan.track.ground.bearing_deg()?;
        Some((bearing_deg, Rect::from_origin_size(self.map.origin(), (side, side))))
    }

    /// How long the bar is that shows the scale, and where it is.
    pub(super) fn scale_bar(&self) -> (f64, Rect) {
        let Self { map, mm, .. } = self;
        let metres = if map.width() > 120.0 { 20.0 } else { 10.0 };
        let corner = Point::new(map.x1 - metres - 2.0 * mm, map.y0 + mm);
        (metres, Rect::from_origin_size(corner, Size::new(metres, 6.0 * mm)))
    }

    /// The page before any label is put on it, with the places that no label may take: north, scale, arrows, signs,
    /// cones.
    pub(super) fn labels(&self) -> Labels {
        let mm = self.mm;
        let mut labels = Labels::new(self.map, 0.5 * mm, (mm, 40.0 * mm));
        let dot = |at: Point, radius: f64| Rect::from_center_size(at, (2.0 * radius, 2.0 * radius));
        if let Some((_, place)) = self.north() {
            labels.keep_free(place);
        }
        labels.keep_free(self.scale_bar().1.inflate(2.0 * mm, 0.0));
        for arrow in &self.arrows {
            labels.keep_free(arrow.place(mm));
        }
        for name in self.names.iter().filter(|name| name.sign.is_some()) {
            if let Some(wish) = name.wishes.first() {
                labels.keep_free(dot(wish.anchor, 1.6 * mm));
            }
        }
        for cone in &self.plan.setup {
            labels.keep_free(dot(cones::at(cone, Frame::METRES), 0.4 * mm));
        }
        labels
    }

    /// Whether a box on the page of the map lies over a lane.
    pub(super) fn is_on_lanes(&self, place: Rect) -> bool {
        let clear_m = 0.4 * self.mm;
        (0..=4).any(|across| {
            (0..=2).any(|down| {
                let point = Point::new(
                    place.x0 + place.width() * f64::from(across) / 4.0,
                    place.y0 + place.height() * f64::from(down) / 2.0,
                );
                self.ground.is_on_lanes(point, clear_m)
            })
        })
    }
}

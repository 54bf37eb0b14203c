//! What a map is drawn from.

use kurbo::{Point, Rect, Size};
use session_plan::Plan;

use super::frame::Frame;
use super::ground::Ground;
use super::labels::Labels;
use super::names::Name;
use super::paint::{self, UsedPaint};
use super::room::Room;
use super::way::Way;
use super::{arrows, compass, cones};
use crate::words::reading::reading;
use crate::words::spot::spot;
use crate::words::{capital, cone};

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
    pub(super) arrows: Vec<Way>,
    pub(super) names: Vec<Name>,
    pub(super) paint: Vec<UsedPaint<'a>>,
}

impl<'a> Sketch<'a> {
    pub(super) fn of(plan: &'a Plan, prefix: &'a str, room: Room) -> Self {
        let ground = Ground::of(&plan.track.ground);
        let lanes = ground.bounds();
        let mm = lanes.width() / (room.width_mm - 2.0 * RIM_MM);
        let map = lanes.inflate(RIM_MM * mm, RIM_MM * mm);
        let (arrows, names) = (arrows::arrows(ground, mm), Name::all(plan, ground, mm));
        let paint = paint::used(plan);
        Self { plan, ground, prefix, room, map, mm, arrows, names, paint }
    }

    /// What the map and the pages of its insets are called.
    pub(super) fn title(&self) -> String {
        format!("Map of {}", self.plan.title)
    }

    /// The map in words, for readers who cannot see it.
    pub(super) fn words(&self) -> String {
        let blocks = (1..).zip(&self.plan.blocks);
        let blocks: String =
            blocks.map(|(number, block)| format!(" Block {number}: {}.", reading(&block.read))).collect();
        let cones = self.plan.setup.iter().map(|cone| {
            let (what, lane) = (cone::marks(&cone.uses), cone.spot.lane);
            format!(" Cone {}, {what}, lane {lane}: {}.", cone.label, spot(&cone.spot))
        });
        let painted = self.plan.painted.iter().map(|painted| {
            let (what, lane) = (capital(&cone::marks(&painted.uses)), painted.spot.lane);
            format!(" {what}, lane {lane}: {}.", spot(&painted.spot))
        });
        let places: String = cones.chain(painted).collect();
        format!("The track {} to scale.{blocks}{places}", self.plan.track.name)
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
    /// places.
    pub(super) fn labels(&self) -> Labels {
        let mm = self.mm;
        let mut labels = Labels::new(self.map, 0.5 * mm, (mm, 40.0 * mm));
        let dot = |at: Point, radius: f64| Rect::from_center_size(at, (2.0 * radius, 2.0 * radius));
        let signs = self.names.iter().filter(|name| name.sign.is_some());
        let anchors = signs.filter_map(|name| Some(name.wishes.first()?.anchor));
        let spots = self.plan.setup.iter().map(|cone| &cone.spot);
        let spots = spots.chain(self.plan.painted.iter().map(|painted| &painted.spot));
        let places = spots.map(|spot| cones::at(spot, Frame::METRES));
        let free = (self.north().map(|(_, place)| place).into_iter())
            .chain([self.scale_bar().1.inflate(2.0 * mm, 0.0)])
            .chain(self.arrows.iter().map(|arrow| arrows::place(arrow, mm)))
            .chain(anchors.map(|at| dot(at, 1.6 * mm)))
            .chain(places.map(|at| dot(at, 0.4 * mm)));
        free.for_each(|place| labels.keep_free(place));
        labels
    }
}

//! What a map is drawn from, and how crowded it may be.

use kurbo::{Point, Rect, Size};
use session_plan::Plan;

use super::arrangement::{Arrangement, Infield};
use super::arrows::Arrow;
use super::compass;
use super::cones::{self, Cluster};
use super::frame::Frame;
use super::ground::Ground;
use super::inset::{self, Inset, InsetScale};
use super::inset_page::InsetPage;
use super::labels::Labels;
use super::names::Name;
use super::picture::{Picture, Room};

/// Room for flags beside the lanes, in millimetres.
const RIM_MM: f64 = 13.0;

/// How far insets keep from the lanes, and from each other, in millimetres.
const INFIELD_MM: f64 = 8.0;
const INSETS_MM: f64 = 4.0;

/// How close cones share a flag, in metres: the first distance at which every flag finds its place counts.
const CLOSE_M: [f64; 7] = [4.6, 7.0, 11.0, 18.0, 30.0, 60.0, 1000.0];

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

    /// The map, and the insets that find no room on it.
    pub(super) fn pictures(&self) -> (Picture, Vec<InsetPage>) {
        let fitting = CLOSE_M.into_iter().find_map(|close_m| self.fitting(close_m));
        // A plan may be so crowded that flags and insets never all find room that way.
        fitting.unwrap_or_else(|| {
            let insets = self.close_up();
            let crowded = CLOSE_M.into_iter().find_map(|close_m| self.crowded(close_m, &insets));
            crowded.unwrap_or_else(|| self.with_one_flag(&insets))
        })
    }

    /// Cones that share a flag share an inset.
    fn fitting(&self, close_m: f64) -> Option<(Picture, Vec<InsetPage>)> {
        let clusters = Cluster::all(self.plan, close_m);
        // Even without insets, flags need room.
        Arrangement::of(self, &clusters, &[], Infield::ForInsets)?;
        let sized = |largest: f64| -> Option<Vec<Inset<'_>>> {
            let several = clusters.iter().filter(|cluster| cluster.cones.len() > 1);
            several.map(|cluster| Inset::of(cluster, self.ground, self.inset_scale(largest))).collect()
        };
        let fits = |insets: &Vec<Inset<'_>>| {
            inset::shelves(insets.iter().collect(), self.infield(), self.gap()).left_over.is_empty()
        };
        let large = sized(inset::LARGEST[0])?;
        // Smaller ones are worth it only where then all stand on the infield.
        let smaller = || sized(inset::LARGEST[1]).filter(fits);
        let insets = if fits(&large) { large } else { smaller().unwrap_or(large) };
        let arrangement = Arrangement::of(self, &clusters, &insets, Infield::ForInsets)?;
        Some(arrangement.draw(self))
    }

    /// Cones that are farther apart share a flag, the infield is free for flags, and insets show what lies
    /// close together.
    fn crowded(&self, close_m: f64, insets: &[Inset<'_>]) -> Option<(Picture, Vec<InsetPage>)> {
        let clusters = Cluster::all(self.plan, close_m);
        let arrangement = Arrangement::of(self, &clusters, insets, Infield::ForFlags)?;
        Some(arrangement.draw(self))
    }

    /// One flag for all cones, which always finds room.
    fn with_one_flag(&self, insets: &[Inset<'_>]) -> (Picture, Vec<InsetPage>) {
        let all = Cluster { cones: self.plan.setup.iter().collect() };
        Arrangement::with_one_flag(self, all, insets).draw(self)
    }

    /// An inset for each cone, by itself or with those that lie close to it.
    fn close_up(&self) -> Vec<Inset<'a>> {
        let close = Cluster::all(self.plan, CLOSE_M[0]);
        close
            .iter()
            .flat_map(|cluster| Inset::parts(cluster, self.ground, self.inset_scale(inset::LARGEST[0])))
            .collect()
    }

    fn inset_scale(&self, largest: f64) -> InsetScale {
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

    /// The page without labels: they keep off what is drawn whatever is magnified.
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

#[cfg(test)]
mod tests {
    use lane_distance::Track;
    use session_plan::{Block, Session, Venue};

    use super::*;

    /// Whatever else is crowded, each cone has its number beside it in an inset, and a flag.
    #[test]
    fn a_plan_with_no_room_for_flags_tells_every_cone() {
        let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
        let blocks = ["60", "110", "150", "200", "300"]
            .map(|metres| Block::parse(&format!("{metres} in lanes 1-8")).expect("it is well formed"));
        let session = Session::of_blocks("all", blocks.to_vec());
        let plan = session_plan::plan(&venue, &session).expect("all lanes are open");
        let sketch = Sketch::of(&plan, "map", Room::PAGE);
        let insets = sketch.close_up();
        let (one, others) = sketch.with_one_flag(&insets);
        let one = one.drawing.to_string();
        assert!(others.is_empty());
        assert!(one.contains(&format!("1–{}", plan.setup.len())));
        let (crowded, _) = sketch.crowded(CLOSE_M[0], &insets).expect("there is room");
        for drawing in [one, crowded.drawing.to_string()] {
            for cone in &plan.setup {
                let shown = format!("data-inset-cone=\"{}\"", cone.order);
                assert_eq!(drawing.matches(&shown).count(), 1, "cone {}", cone.order);
            }
        }
    }
}

//! The map alone: the track, flags, insets, north, and what the signs mean.

use kurbo::{Line, Point, Rect, Size, Vec2};
use session_plan::Plan;
use svg::node::Node;
use svg::node::element::Element;

use super::cones::{self, Cluster};
use super::frame::Frame;
use super::ground::Ground;
use super::ink::{Pen, group, line, number, text_in};
use super::inset::{self, Inset, InsetScale, Shelves};
use super::inset_page::InsetPage;
use super::labels::{Labels, Placed};
use super::lettering::{SMALL_MM, Type};
use super::names::Name;
use super::patterns::Patterns;
use super::{arrows, compass, flags, hazards, key, paint};

/// Room for flags beside the lanes, in millimetres.
const RIM_MM: f64 = 13.0;

/// How far insets keep from the lanes, and from each other, in millimetres.
const INFIELD_MM: f64 = 8.0;
const INSETS_MM: f64 = 4.0;

/// How close cones share a flag, in metres: the first distance at which every flag finds its place counts.
const CLOSE_M: [f64; 7] = [4.6, 7.0, 11.0, 18.0, 30.0, 60.0, 1000.0];

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

/// What a map is drawn from.
#[derive(Clone, Copy)]
struct Sketch<'a> {
    plan: &'a Plan,
    ground: Ground<'a>,
    prefix: &'a str,
    room: Room,
    /// The part of the page that the track and its flags take.
    map: Rect,
    mm: f64,
}

/// Whether insets may stand on the infield.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Infield {
    ForInsets,
    ForFlags,
}

impl<'a> Sketch<'a> {
    fn of(plan: &'a Plan, prefix: &'a str, room: Room) -> Self {
        let ground = Ground::of(&plan.track.ground);
        let lanes = ground.bounds();
        let mm = lanes.width() / (room.width_mm - 2.0 * RIM_MM);
        let map = lanes.inflate(RIM_MM * mm, RIM_MM * mm);
        Self { plan, ground, prefix, room, map, mm }
    }

    fn pictures(self) -> (Picture, Vec<InsetPage>) {
        let fitting = CLOSE_M.into_iter().find_map(|close_m| self.fitting(close_m));
        // A plan may be so crowded that flags and insets never all find room that way.
        let crowded = || CLOSE_M.into_iter().find_map(|close_m| self.crowded(close_m));
        fitting.or_else(crowded).unwrap_or_else(|| self.with_one_flag())
    }

    /// Cones that share a flag share an inset.
    fn fitting(self, close_m: f64) -> Option<(Picture, Vec<InsetPage>)> {
        let clusters = Cluster::all(self.plan, close_m);
        let mut sizes = inset::LARGEST.into_iter().map(|largest| -> Option<Vec<Inset<'_>>> {
            let several = clusters.iter().filter(|cluster| cluster.cones.len() > 1);
            several.map(|cluster| Inset::of(cluster, self.ground, self.inset_scale(largest))).collect()
        });
        let (first, second) = (sizes.next().flatten()?, sizes.next().flatten());
        let fits = |insets: &Vec<Inset<'_>>| {
            inset::shelves(insets.iter().collect(), self.infield(), self.gap()).left_over.is_empty()
        };
        // Smaller ones are worth it only where then all stand on the infield.
        let insets = if fits(&first) { first } else { second.filter(fits).unwrap_or(first) };
        let (pictures, has_all_flags) = self.laid_out(&clusters, &insets, Infield::ForInsets);
        has_all_flags.then_some(pictures)
    }

    /// Cones that are farther apart share a flag, the infield is free for flags, and insets show what lies
    /// close together.
    fn crowded(self, close_m: f64) -> Option<(Picture, Vec<InsetPage>)> {
        let clusters = Cluster::all(self.plan, close_m);
        let (pictures, has_all_flags) = self.laid_out(&clusters, &self.close_up(), Infield::ForFlags);
        has_all_flags.then_some(pictures)
    }

    /// One flag for all cones, which always finds room.
    fn with_one_flag(self) -> (Picture, Vec<InsetPage>) {
        let all = Cluster { cones: self.plan.setup.iter().collect() };
        self.laid_out(&[all], &self.close_up(), Infield::ForFlags).0
    }

    /// An inset for each cone, by itself or with those that lie close to it.
    fn close_up(self) -> Vec<Inset<'a>> {
        let close = Cluster::all(self.plan, CLOSE_M[0]);
        close
            .iter()
            .flat_map(|cluster| Inset::parts(cluster, self.ground, self.inset_scale(inset::LARGEST[0])))
            .collect()
    }

    fn inset_scale(self, largest: f64) -> InsetScale {
        InsetScale { largest, broadest: self.map.width(), mm: self.mm }
    }

    fn infield(self) -> Rect {
        self.ground.infield(INFIELD_MM * self.mm)
    }

    /// How far insets keep from each other.
    fn gap(self) -> f64 {
        INSETS_MM * self.mm
    }

    /// Draws everything; and tells whether every flag found its place.
    fn laid_out(
        self,
        clusters: &[Cluster<'_>],
        insets: &[Inset<'_>],
        use_of_infield: Infield,
    ) -> ((Picture, Vec<InsetPage>), bool) {
        let Self { plan, ground, prefix, room, map, mm } = self;
        let frame = Frame::METRES;
        let mut patterns = Patterns::new(prefix, mm);
        let mut labels = Labels::new(map, 0.5 * mm);
        let (infield, gap) = (self.infield(), self.gap());
        let insets: Vec<&Inset<'_>> = insets.iter().collect();
        let shelves = match use_of_infield {
            Infield::ForInsets => inset::shelves(insets, infield, gap),
            Infield::ForFlags => Shelves { put: Vec::new(), left_over: insets, height: 0.0 },
        };
        let middle = Vec2::new(0.0, (infield.height() - shelves.height) / 2.0);
        let put: Vec<_> = shelves.put.into_iter().map(|(at, inset)| (at + middle, inset)).collect();
        for (at, inset) in &put {
            labels.keep_free(Rect::from_origin_size(*at, inset.size).inflate(mm, mm));
        }
        let mut all = group("map");
        all.append(ground.draw(frame, map, mm));
        all.append(hazards::draw(ground, frame, patterns.dots(), mm));
        all.append(paint::finish_line(ground, frame, mm));
        let used = paint::used(plan);
        all.append(paint::draw(&used, ground, frame, mm));
        if let Some(bearing_deg) = plan.track.ground.bearing_deg() {
            let side = compass::NORTH_MM * mm;
            let place = Rect::from_origin_size(map.origin(), (side, side));
            labels.keep_free(place);
            all.append(compass::north(bearing_deg, place, mm));
        }
        let metres = if map.width() > 120.0 { 20.0 } else { 10.0 };
        let corner = Point::new(map.x1 - metres - 2.0 * mm, map.y0 + mm);
        let place = Rect::from_origin_size(corner, (metres, 6.0 * mm));
        labels.keep_free(place.inflate(2.0 * mm, 0.0));
        all.append(compass::scale_bar(place, metres, mm));
        all.append(arrows::draw(ground, frame, &mut labels, mm));
        let names = Name::all(plan, ground, frame, mm);
        let dot = |at: Point, radius: f64| Rect::from_center_size(at, (2.0 * radius, 2.0 * radius));
        for name in names.iter().filter(|name| name.sign.is_some()) {
            if let Some(wish) = name.wishes.first() {
                labels.keep_free(dot(wish.anchor, 1.6 * mm));
            }
        }
        for cone in &plan.setup {
            labels.keep_free(dot(cones::at(cone, frame), 0.4 * mm));
        }
        let letters = Type::bold(3.3 * mm);
        let mut put_flags: Vec<(String, Placed)> = Vec::new();
        let blocked = |place: Rect| is_on_lanes(ground, place, 0.4 * mm);
        for cluster in clusters {
            let numbers = cluster.numbers();
            let wishes = flags::wishes(cluster, ground, frame, 2.2 * mm);
            let size = flags::size(&numbers, letters, mm);
            let placed = labels.place(size, &wishes, (mm, 40.0 * mm), blocked).or_else(|| {
                let is_alone = clusters.len() == 1 && use_of_infield == Infield::ForFlags;
                wishes.first().filter(|_| is_alone).map(|wish| Placed {
                    place: Rect::from_center_size(infield.center(), size),
                    leader: Line::new(wish.anchor, infield.center()),
                })
            });
            put_flags.extend(placed.map(|placed| (numbers, placed)));
        }
        let thin = Pen::new("#000000", 0.22 * mm);
        for cluster in clusters {
            let mut spine = cluster.cones.iter().map(|cone| cones::at(cone, frame));
            if let Some(mut before) = spine.next() {
                for next in spine {
                    all.append(line(before, next, thin));
                    before = next;
                }
            }
        }
        for (_, flag) in &put_flags {
            all.append(line(flag.leader.p0, flag.leader.p1, thin));
        }
        for name in names {
            let letters = Type::plain(SMALL_MM * mm);
            let width = name.words.iter().map(|line| letters.width(line)).fold(0.0, f64::max);
            let size = (width, letters.leading() * name.words.len() as f64);
            if let Some(placed) = labels.place(size, &name.wishes, (mm, 40.0 * mm), blocked) {
                all.append(line(placed.leader.p0, placed.leader.p1, thin));
                for (index, words) in name.words.iter().enumerate() {
                    let centre = Point::new(
                        placed.place.center().x,
                        placed.place.y0 + letters.leading() * (index as f64 + 0.5),
                    );
                    all.append(text_in(words, letters.centred(words, centre), letters));
                }
            }
            if let Some(sign) = name.sign {
                all.append(sign);
            }
        }
        for cone in &plan.setup {
            all.append(cones::draw(cone, frame, 0.5 * mm));
        }
        for (numbers, flag) in &put_flags {
            all.append(flags::flag(numbers, flag.place, letters, mm));
        }
        for (at, inset) in put {
            all.append(inset.draw(at, ground, &used, &mut patterns, mm));
        }
        let (mut meanings, key_height) = key::draw(plan, map.origin(), map.width(), &patterns, mm);
        let mut bottom = map.y1;
        let left = room.first_mm * mm - map.height() - key_height - mm - 2.0 * gap;
        let below = Rect::new(map.x0, bottom + gap, map.x1, bottom + gap + left.max(0.0));
        let shelves = inset::shelves(shelves.left_over, below, gap);
        if !shelves.put.is_empty() {
            bottom += shelves.height + 2.0 * gap;
        }
        for (at, inset) in shelves.put {
            all.append(inset.draw(at, ground, &used, &mut patterns, mm));
        }
        meanings.assign("transform", format!("translate(0 {})", number(bottom + mm - map.y0)));
        all.append(meanings);
        bottom += key_height + mm;
        let mut drawing = group("picture");
        drawing.append(patterns.definitions());
        drawing.append(all);
        let picture = Picture { drawing, bounds: Rect::new(map.x0, map.y0, map.x1, bottom), mm };
        let most = Size::new(room.width_mm * mm, room.others_mm * mm);
        let pages = InsetPage::all(shelves.left_over, ground, &used, (prefix, mm), most, gap);
        ((picture, pages), put_flags.len() == clusters.len())
    }
}

/// Whether a box on the page of the map lies over a lane.
fn is_on_lanes(ground: Ground<'_>, place: Rect, clear_m: f64) -> bool {
    (0..=4).any(|across| {
        (0..=2).any(|down| {
            let point = Point::new(
                place.x0 + place.width() * f64::from(across) / 4.0,
                place.y0 + place.height() * f64::from(down) / 2.0,
            );
            ground.is_on_lanes(point, clear_m)
        })
    })
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
        let (one, others) = sketch.with_one_flag();
        let one = one.drawing.to_string();
        assert!(others.is_empty());
        assert!(one.contains(&format!("1–{}", plan.setup.len())));
        let (crowded, _) = sketch.crowded(CLOSE_M[0]).expect("there is room");
        for drawing in [one, crowded.drawing.to_string()] {
            for cone in &plan.setup {
                let shown = format!("data-inset-cone=\"{}\"", cone.order);
                assert_eq!(drawing.matches(&shown).count(), 1, "cone {}", cone.order);
            }
        }
    }
}

//! Places that lie close to each other, magnified.

use kurbo::{Point, Rect, Size, Vec2};
use lane_distance::Spot;
use session_plan::{Cone, ConeLabel};
use svg::node::Node;
use svg::node::element::Element;

use super::cluster::Cluster;
use super::frame::{Frame, around};
use super::ground::Ground;
use super::labels::{Labels, Placed, Wish};
use super::paint::{self, UsedPaint};
use super::patterns::Patterns;
use super::sketch::Sketch;
use super::{cones, hazards};
use crate::drawing::flag;
use crate::drawing::ink::{Pen, group, line, rect, text_in, texts};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::drawing::sign::{Marked, sign};

/// A part of the ground, magnified, with a number at each cone.
#[derive(Clone, Debug)]
pub(super) struct Inset<'a> {
    cluster: Cluster<'a>,
    /// How it is magnified, with the upper left corner of its picture at the origin.
    frame: Frame,
    labels: Vec<(String, Placed)>,
    /// The names of lanes, each in its lane.
    lanes: Vec<(String, Rect)>,
    /// Its breadth and height with its title.
    pub(super) size: Size,
    /// The same of its picture alone.
    picture: Size,
}

/// Millimetres to a metre, at most, the first that lets all insets stand on the infield: with the larger a
/// lane is as high as a line of small type.
pub(super) const LARGEST: [f64; 2] = [3.3, 2.6];

/// How broad and how high an inset's picture may be, in millimetres.
const MOST_MM: (f64, f64) = (62.0, 44.0);

/// How much broader paint is drawn than on the map.
const PAINT: f64 = 1.6;

/// The size of the numbers beside cones, in millimetres.
const NUMBER_MM: f64 = 3.0;

impl<'a> Inset<'a> {
    /// The inset of a cluster, with some millimetres to a metre at most. Where numbers find no room it is made
    /// larger; nothing where even then they find none.
    pub(super) fn of(cluster: &Cluster<'a>, sketch: &Sketch<'_>, largest: f64) -> Option<Self> {
        [1.0, 1.3, 1.7, 2.2, 2.7]
            .into_iter()
            .find_map(|larger| Self::fitting(cluster, sketch, largest, larger))
    }

    /// The insets of a cluster, as many as its numbers need.
    pub(super) fn parts(cluster: &Cluster<'a>, sketch: &Sketch<'_>, largest: f64) -> Vec<Self> {
        if let Some(whole) = Self::of(cluster, sketch, largest) {
            return vec![whole];
        }
        // A number beside a cone that stands alone always finds room.
        let halves =
            cluster.cones.chunks(cluster.cones.len().div_ceil(2)).filter(|_| cluster.cones.len() > 1);
        halves.flat_map(|half| Self::parts(&Cluster { cones: half.to_vec() }, sketch, largest)).collect()
    }

    fn fitting(cluster: &Cluster<'a>, sketch: &Sketch<'_>, largest: f64, larger: f64) -> Option<Self> {
        let (ground, mm) = (sketch.ground, sketch.mm);
        // The whole breadth of each cone's lane, a little beyond.
        let reach = cluster.cones.iter().flat_map(|cone| {
            let (inner, outer) = ground.across(cone.spot.spot());
            [inner, outer]
        });
        let shown = around(reach).inflate(1.5, 1.5);
        let most = Size::new((MOST_MM.0 * mm * larger).min(sketch.map.width()), MOST_MM.1 * mm * larger);
        let room = Vec2::new(9.0, 7.0) * mm;
        let scale = (largest * mm * larger.min(1.3))
            .min((most.width - room.x) / shown.width())
            .min((most.height - room.y) / shown.height());
        let picture = Size::new(
            (shown.width() * scale + room.x).max(21.0 * mm),
            (shown.height() * scale + room.y).max(16.0 * mm),
        );
        let middle = lane_distance::Point::new(shown.center().x, -shown.center().y);
        let within = Rect::from_origin_size(Point::ORIGIN, picture);
        let frame = Frame::with(scale, middle, within.center());
        let mut labels = Labels::new(within.inset(-0.6 * mm), 0.25 * mm, (0.8 * mm, 16.0 * mm));
        let dot = Size::new(2.8 * mm, 2.8 * mm);
        for cone in &cluster.cones {
            labels.keep_free(Rect::from_center_size(cones::at(&cone.spot, frame), dot));
        }
        let number = |cone: &&Cone| {
            let number = cone.label.to_string();
            let mut wishes = Wish::all_round(cones::at(&cone.spot, frame), 16, 1.9 * mm);
            // Beside the cone first, where the lane itself leads.
            let worse = (0..).zip(&mut wishes).filter(|(turn, _)| turn % 8 != 0);
            worse.for_each(|(_, wish)| wish.worse = 1.5 * mm);
            let size = flag::size(&number, Type::bold(NUMBER_MM * mm), mm);
            Some((number, labels.place(size, &wishes, |_| false)?))
        };
        let numbers = cluster.cones.iter().map(number).collect::<Option<Vec<_>>>()?;
        let letters = Type::plain(SMALL_MM * mm);
        let magnified = Ground { frame, ..ground };
        for (from, to) in paint_of(cluster, sketch).map(|used| used.ends(magnified)) {
            labels.keep_free(Rect::from_points(from, to).inflate(PAINT * mm / 2.0, PAINT * mm / 2.0));
        }
        let lanes = lane_names(cluster, magnified, &mut labels, letters);
        // A title may be broader than its picture.
        let title_width = Type { bold: true, ..letters }.width(&headline(cluster)).min(most.width);
        let mut inset =
            Self { cluster: cluster.clone(), frame, labels: numbers, lanes, size: picture, picture };
        inset.size.width = picture.width.max(title_width);
        inset.size.height += inset.title(Point::ORIGIN, mm).1 + 0.8 * mm;
        Some(inset)
    }

    fn title_height(&self) -> f64 {
        self.size.height - self.picture.height
    }

    /// The numbers and the lanes, then the paint near the places, from an upper left corner; and how high they are.
    fn title(&self, at: Point, mm: f64) -> (Vec<Element>, f64) {
        let small = Type::plain(SMALL_MM * mm);
        let mut marks: Vec<&str> = Vec::new();
        for mark in self.cluster.cones.iter().filter_map(|cone| cone.spot.look_for.as_deref()) {
            if !marks.contains(&mark) {
                marks.push(mark);
            }
        }
        let (headline, marks) = (headline(&self.cluster), marks.join(", "));
        texts([(headline.as_str(), Type { bold: true, ..small }), (&marks, small)], at, self.size.width)
    }

    /// The cones that it shows.
    pub(super) fn cones(&self) -> impl Iterator<Item = ConeLabel> {
        self.cluster.cones.iter().map(|cone| cone.label)
    }

    /// Draws it with its upper left corner at a place.
    pub(super) fn draw(&self, at: Point, sketch: &Sketch<'_>, patterns: &mut Patterns) -> Element {
        let mm = sketch.mm;
        let picture = Rect::from_origin_size(at + Vec2::new(0.0, self.title_height()), self.picture);
        let letters = Type::plain(SMALL_MM * mm);
        let moved = picture.origin().to_vec2();
        let frame = Frame { origin: self.frame.origin + moved, ..self.frame };
        let ground = Ground { frame, ..sketch.ground };
        let cones = &self.cluster.cones;
        let clip = patterns.clip(picture);
        let magnified = [
            rect(picture, "#ffffff", Pen::NONE),
            ground.draw(picture, mm),
            hazards::draw(ground, patterns.dots(), mm),
            paint::finish_line(ground, mm),
            paint::draw(paint_of(&self.cluster, sketch), ground, PAINT * mm),
        ];
        let mut magnified = group("magnified", magnified);
        magnified.assign("clip-path", format!("url(#{clip})"));
        let (mut drawn, _) = self.title(at, mm);
        drawn.push(magnified);
        drawn.extend(self.lanes.iter().map(|(name, place)| text_in(name, *place + moved, letters)));
        drawn.extend(self.labels.iter().map(|(_, Placed { leader, .. })| {
            line(leader.p0 + moved, leader.p1 + moved, Pen::new("#000000", 0.2 * mm))
        }));
        drawn.extend(cones.iter().map(|cone| {
            let mut sign = sign(Marked::of(&cone.uses), cones::at(&cone.spot, frame), 1.05 * mm);
            sign.assign("data-inset-cone", cone.order);
            sign
        }));
        drawn.extend(
            self.labels.iter().map(|(number, label)| {
                flag::flag(number, label.place + moved, Type::bold(NUMBER_MM * mm), mm)
            }),
        );
        drawn.push(rect(picture, "none", Pen::new("#000000", 0.35 * mm)));
        group("inset", drawn)
    }
}

/// The paint that a cluster's places refer to.
fn paint_of<'b>(cluster: &'b Cluster<'_>, sketch: &'b Sketch<'_>) -> impl Iterator<Item = &'b UsedPaint<'b>> {
    let is_here = |used: &&UsedPaint<'_>| cluster.cones.iter().any(|cone| Some(cone.order) == used.cone);
    sketch.paint.iter().filter(is_here)
}

/// The name of each cone's lane, where it finds room within the lane and beside the hatching of closed ones.
fn lane_names(
    cluster: &Cluster<'_>,
    ground: Ground<'_>,
    labels: &mut Labels,
    letters: Type,
) -> Vec<(String, Rect)> {
    let layout = ground.layout();
    let mut names: Vec<(String, Rect)> = Vec::new();
    for cone in &cluster.cones {
        let spot = cone.spot.spot();
        let name = format!("lane {}", spot.lane);
        let is_too_narrow = ground.frame.length(layout.lane(spot.lane).width_m) < letters.size * 1.2;
        if is_too_narrow || names.iter().any(|(known, _)| *known == name) {
            continue;
        }
        // Along the lane, from the cone outwards: behind it and past it in turn.
        let place = (4..80).find_map(|step| {
            let along_m = f64::from(step / 2) * 0.5 * if step % 2 == 0 { 1.0 } else { -1.0 };
            let to_finish_m = match layout.straight(spot.course) {
                None => layout.measure(spot.lane).within_lap_m(spot.to_finish_m + along_m),
                Some(_) => spot.to_finish_m + along_m,
            };
            let straight = layout.straight(spot.course);
            if straight.is_some_and(|straight| !(0.0..=straight.length_m()).contains(&to_finish_m)) {
                return None;
            }
            let (inner, outer) = ground.across(Spot { to_finish_m, ..spot });
            let place = letters.centred(&name, inner.midpoint(outer));
            (!ground.is_on_hatching(place) && labels.take(place)).then_some(place)
        });
        names.extend(place.map(|place| (name, place)));
    }
    names
}

fn headline(cluster: &Cluster<'_>) -> String {
    format!("{}: {}", cluster.numbers(), cluster.lanes())
}

/// Insets in rows.
pub(super) struct Shelves<'b, 'a> {
    /// Each at its upper left corner.
    pub(super) put: Vec<(Point, &'b Inset<'a>)>,
    /// Those that found no room.
    pub(super) left_over: Vec<&'b Inset<'a>>,
    /// How high the rows are in all.
    pub(super) height: f64,
}

/// Puts insets into a part of the page, in rows from its top.
pub(super) fn shelves<'b, 'a>(insets: Vec<&'b Inset<'a>>, within: Rect, gap: f64) -> Shelves<'b, 'a> {
    let mut left_over = Vec::new();
    let mut rows: Vec<Vec<&Inset<'a>>> = Vec::new();
    let apart = |count: usize| gap * count.saturating_sub(1) as f64;
    let width = |row: &[&Inset<'a>]| row.iter().map(|inset| inset.size.width).sum::<f64>() + apart(row.len());
    // The pictures of a row begin at one height, so that the highest title and picture count.
    let most =
        |row: &[&Inset<'a>], of: fn(&Inset<'a>) -> f64| row.iter().map(|inset| of(inset)).fold(0.0, f64::max);
    let title = |row: &[&Inset<'a>]| most(row, Inset::title_height);
    let height = |row: &[&Inset<'a>]| title(row) + most(row, |inset| inset.picture.height);
    let total =
        |rows: &[Vec<&Inset<'a>>]| rows.iter().map(|row| height(row)).sum::<f64>() + apart(rows.len());
    for inset in insets {
        let mut tried = rows.clone();
        match tried.last_mut() {
            Some(row) if width(row) + gap + inset.size.width <= within.width() => row.push(inset),
            _ => tried.push(vec![inset]),
        }
        let fits = inset.size.width <= within.width() && total(&tried) <= within.height();
        if fits && left_over.is_empty() {
            rows = tried;
        } else {
            left_over.push(inset);
        }
    }
    let used = total(&rows);
    let mut put = Vec::new();
    let mut top = within.y0;
    for row in rows {
        let mut left = within.center().x - width(&row) / 2.0;
        let (high, title) = (height(&row), title(&row));
        for inset in row {
            put.push((Point::new(left, top + title - inset.title_height()), inset));
            left += inset.size.width + gap;
        }
        top += high + gap;
    }
    Shelves { put, left_over, height: used }
}

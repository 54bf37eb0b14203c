//! Where flags and insets stand on a map.

use kurbo::{Line, Point, Rect, Size, Vec2};
use svg::node::Node;
use svg::node::element::Element;

use super::cluster::Cluster;
use super::cones;
use super::flag_wishes::flag_wishes;
use super::frame::Frame;
use super::inset::{self, Inset, Shelves};
use super::inset_page::InsetPage;
use super::labels::{Labels, Placed};
use super::paint::UsedPaint;
use super::patterns::Patterns;
use super::picture::Picture;
use super::sketch::Sketch;
use super::{arrows, compass, hazards, key, paint};
use crate::drawing::flag;
use crate::drawing::ink::{Pen, group, line, number, text_in};
use crate::drawing::lettering::{SMALL_MM, Type};

/// The size of the numbers on flags, in millimetres.
const FLAG_MM: f64 = 3.3;

/// Whether insets may stand on the infield.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Infield {
    ForInsets,
    ForFlags,
}

/// Where flags and insets stand on a map.
pub(super) struct Arrangement<'b, 'a> {
    /// What each flag says.
    flags: Vec<(String, Placed)>,
    /// The cones of each flag, on the page.
    spines: Vec<Vec<Point>>,
    /// Insets on the infield, each at its upper left corner.
    insets: Vec<(Point, &'b Inset<'a>)>,
    /// Insets that find no room there.
    left_over: Vec<&'b Inset<'a>>,
    /// What has been put on the page.
    labels: Labels,
}

impl<'b, 'a> Arrangement<'b, 'a> {
    /// Puts insets and a flag for each cluster of cones on the page; nothing where a flag finds no place.
    pub(super) fn of(
        sketch: &Sketch<'a>,
        clusters: &[Cluster<'a>],
        insets: &'b [Inset<'a>],
        infield: Infield,
    ) -> Option<Self> {
        let mut arrangement = Self::of_insets(sketch, clusters, insets, infield);
        for cluster in clusters {
            let (numbers, size) = flag_of(cluster, sketch.mm);
            let wishes = flag_wishes(cluster, sketch.ground, 2.2 * sketch.mm);
            let placed = arrangement.labels.place(size, &wishes, |place| sketch.is_on_lanes(place))?;
            arrangement.flags.push((numbers, placed));
        }
        Some(arrangement)
    }

    /// One flag for all cones: on the infield if there is no better place.
    pub(super) fn with_one_flag(sketch: &Sketch<'a>, all: Cluster<'a>, insets: &'b [Inset<'a>]) -> Self {
        let clusters = [all];
        Self::of(sketch, &clusters, insets, Infield::ForFlags).unwrap_or_else(|| {
            let mut arrangement = Self::of_insets(sketch, &clusters, insets, Infield::ForFlags);
            let middle = sketch.infield().center();
            let (numbers, size) = flag_of(&clusters[0], sketch.mm);
            let place = Rect::from_center_size(middle, size);
            if let Some(&anchor) = arrangement.spines[0].first() {
                arrangement.flags.push((numbers, Placed { place, leader: Line::new(anchor, middle) }));
            }
            arrangement
        })
    }

    fn of_insets(
        sketch: &Sketch<'a>,
        clusters: &[Cluster<'a>],
        insets: &'b [Inset<'a>],
        infield: Infield,
    ) -> Self {
        let insets: Vec<&Inset<'a>> = insets.iter().collect();
        let free = sketch.infield();
        let shelves = match infield {
            Infield::ForInsets => inset::shelves(insets, free, sketch.gap()),
            Infield::ForFlags => Shelves { put: Vec::new(), left_over: insets, height: 0.0 },
        };
        let middle = Vec2::new(0.0, (free.height() - shelves.height) / 2.0);
        let insets: Vec<_> = shelves.put.into_iter().map(|(at, inset)| (at + middle, inset)).collect();
        let mut labels = sketch.labels();
        for (at, inset) in &insets {
            labels.keep_free(Rect::from_origin_size(*at, inset.size).inflate(sketch.mm, sketch.mm));
        }
        let spine = |cluster: &Cluster<'_>| {
            cluster.cones.iter().map(|cone| cones::at(cone, Frame::METRES)).collect::<Vec<_>>()
        };
        let spines = clusters.iter().map(spine).collect();
        Self { flags: Vec::new(), spines, insets, left_over: shelves.left_over, labels }
    }

    /// Draws the map, and the insets that find no room on it nor below it.
    pub(super) fn draw(mut self, sketch: &Sketch<'_>) -> (Picture, Vec<InsetPage>) {
        let Sketch { plan, ground, prefix, room, map, mm, .. } = *sketch;
        let mut patterns = Patterns::new(prefix, mm);
        let used = paint::used(plan);
        let mut all = group("map");
        draw_track(sketch, &used, &patterns, &mut all);
        self.draw_leaders(mm, &mut all);
        self.draw_names(sketch, &mut all);
        for cone in &plan.setup {
            all.append(cones::draw(cone, Frame::METRES, 0.5 * mm));
        }
        for (numbers, flag) in &self.flags {
            all.append(flag::flag(numbers, flag.place, Type::bold(FLAG_MM * mm), mm));
        }
        let (mut meanings, key_height) = key::draw(plan, map.origin(), map.width(), &patterns, mm);
        let gap = sketch.gap();
        let mut bottom = map.y1;
        let left = room.first_mm * mm - map.height() - key_height - mm - 2.0 * gap;
        let below = Rect::new(map.x0, bottom + gap, map.x1, bottom + gap + left.max(0.0));
        let shelves = inset::shelves(self.left_over, below, gap);
        if !shelves.put.is_empty() {
            bottom += shelves.height + 2.0 * gap;
        }
        for (at, inset) in self.insets.into_iter().chain(shelves.put) {
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
        (picture, pages)
    }

    /// Draws the lines from cone to cone of a flag, and from there to the flag.
    fn draw_leaders(&self, mm: f64, all: &mut Element) {
        let pen = leader_pen(mm);
        for pair in self.spines.iter().flat_map(|spine| spine.windows(2)) {
            all.append(line(pair[0], pair[1], pen));
        }
        for (_, flag) in &self.flags {
            all.append(line(flag.leader.p0, flag.leader.p1, pen));
        }
    }

    /// Draws the names for which there is room among the flags, and the signs of all.
    fn draw_names(&mut self, sketch: &Sketch<'_>, all: &mut Element) {
        let letters = Type::plain(SMALL_MM * sketch.mm);
        for name in &sketch.names {
            let size = (letters.width(&name.words), letters.leading());
            if let Some(placed) = self.labels.place(size, &name.wishes, |place| sketch.is_on_lanes(place)) {
                all.append(line(placed.leader.p0, placed.leader.p1, leader_pen(sketch.mm)));
                let box_of_words = letters.centred(&name.words, placed.place.center());
                all.append(text_in(&name.words, box_of_words, letters));
            }
            if let Some(sign) = &name.sign {
                all.append(sign.clone());
            }
        }
    }
}

/// What a flag says, and its size.
fn flag_of(cluster: &Cluster<'_>, mm: f64) -> (String, (f64, f64)) {
    let numbers = cluster.numbers();
    let size = flag::size(&numbers, Type::bold(FLAG_MM * mm), mm);
    (numbers, size)
}

fn leader_pen(mm: f64) -> Pen<'static> {
    Pen::new("#000000", 0.22 * mm)
}

/// Draws what is there whatever is labelled: lanes, hazards, paint, north, the scale, arrows.
fn draw_track(sketch: &Sketch<'_>, used: &[UsedPaint<'_>], patterns: &Patterns, all: &mut Element) {
    let (ground, frame, mm) = (sketch.ground, Frame::METRES, sketch.mm);
    all.append(ground.draw(frame, sketch.map, mm));
    all.append(hazards::draw(ground, frame, patterns.dots(), mm));
    all.append(paint::finish_line(ground, frame, mm));
    all.append(paint::draw(used, ground, frame, mm));
    if let Some((bearing_deg, place)) = sketch.north() {
        all.append(compass::north(bearing_deg, place, mm));
    }
    let (metres, place) = sketch.scale_bar();
    all.append(compass::scale_bar(place, metres, mm));
    all.append(arrows::draw(&sketch.arrows, mm));
}

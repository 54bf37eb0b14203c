//! Where flags and insets stand on a map.

use kurbo::{Line, Point, Rect, Vec2};
use svg::node::element::Element;

use super::cluster::Cluster;
use super::cones;
use super::flag_wishes::flag_wishes;
use super::frame::Frame;
use super::inset::{self, Inset, Shelves};
use super::inset_pages::inset_pages;
use super::labels::{Labels, Placed};
use super::patterns::Patterns;
use super::sketch::Sketch;
use super::{arrows, compass, hazards, key, names, paint};
use crate::drawing::flag;
use crate::drawing::ink::{group, moved};
use crate::drawing::lettering::Type;
use crate::drawing::picture::Picture;

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
            let places: Vec<_> = cluster.cones.iter().map(|cone| &cone.spot).collect();
            let wishes = flag_wishes(&places, sketch.ground, 2.2 * sketch.mm);
            let placed = arrangement
                .labels
                .place(size, &wishes, |place| sketch.ground.is_box_on_lanes(place, sketch.mm))?;
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
            cluster.cones.iter().map(|cone| cones::at(&cone.spot, Frame::METRES)).collect::<Vec<_>>()
        };
        let spines = clusters.iter().map(spine).collect();
        Self { flags: Vec::new(), spines, insets, left_over: shelves.left_over, labels }
    }

    /// Draws the map, and the insets that find no room on it nor below it.
    pub(super) fn draw(mut self, sketch: &Sketch<'_>) -> (Picture, Vec<Picture>) {
        let Sketch { plan, prefix, room, map, mm, .. } = *sketch;
        let mut patterns = Patterns::new(prefix, mm);
        let mut drawn = draw_track(sketch, &patterns);
        let between = self.between_cones();
        let leaders = between.iter().copied().chain(self.flags.iter().map(|(_, flag)| flag.leader));
        drawn.extend(leaders.map(|line| names::leader(line, mm)));
        between.into_iter().for_each(|line| self.labels.keep_off(line));
        drawn.extend(names::draw(&sketch.names, &mut self.labels, sketch.ground, mm));
        drawn.extend(plan.painted.iter().map(|spot| cones::draw_painted(spot, Frame::METRES, 0.5 * mm)));
        drawn.extend(plan.setup.iter().map(|cone| cones::draw(cone, Frame::METRES, 0.5 * mm)));
        let flags = self.flags.iter();
        drawn.extend(
            flags.map(|(numbers, flag)| flag::flag(numbers, flag.place, Type::bold(FLAG_MM * mm), mm)),
        );
        let (key, key_height) = key::draw(plan, map.origin(), map.width(), &patterns, mm);
        let gap = sketch.gap();
        let mut bottom = map.y1;
        let left = room.first_mm * mm - map.height() - key_height - mm - 2.0 * gap;
        let below = Rect::new(map.x0, bottom + gap, map.x1, bottom + gap + left.max(0.0));
        let shelves = inset::shelves(self.left_over, below, gap);
        if !shelves.put.is_empty() {
            bottom += shelves.height + 2.0 * gap;
        }
        let insets = self.insets.into_iter().chain(shelves.put);
        drawn.extend(insets.map(|(at, inset)| inset.draw(at, sketch, &mut patterns)));
        drawn.push(moved(key, Vec2::new(0.0, bottom + mm - map.y0)));
        let picture = Picture {
            title: sketch.title(),
            words: sketch.words(),
            drawings: patterns.with(group("map", drawn)),
            bounds: Rect::new(map.x0, map.y0, map.x1, bottom + key_height + mm),
            mm,
        };
        (picture, inset_pages(shelves.left_over, sketch))
    }

    /// The lines from cone to cone of a flag.
    fn between_cones(&self) -> Vec<Line> {
        let pairs = self.spines.iter().flat_map(|spine| spine.windows(2));
        pairs.map(|pair| Line::new(pair[0], pair[1])).collect()
    }
}

/// What a flag says, and its size.
fn flag_of(cluster: &Cluster<'_>, mm: f64) -> (String, (f64, f64)) {
    let numbers = cluster.numbers();
    let size = flag::size(&numbers, Type::bold(FLAG_MM * mm), mm);
    (numbers, size)
}

/// What is there whatever is labelled: lanes, hazards, paint, north, the scale, arrows.
fn draw_track(sketch: &Sketch<'_>, patterns: &Patterns) -> Vec<Element> {
    let (ground, mm) = (sketch.ground, sketch.mm);
    let mut drawn = vec![
        ground.draw(sketch.map, mm),
        hazards::draw(ground, patterns.dots(), mm),
        paint::finish_line(ground, mm),
        paint::draw(&sketch.paint, ground, mm),
    ];
    drawn.extend(sketch.north().map(|(bearing_deg, place)| compass::north(bearing_deg, place, mm)));
    let (metres, place) = sketch.scale_bar();
    drawn.extend([compass::scale_bar(place, metres, mm), arrows::draw(&sketch.arrows, mm)]);
    drawn
}

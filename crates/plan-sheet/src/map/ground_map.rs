//! The track alone, so large that a lane can be pointed at.

use std::collections::BTreeMap;

use kurbo::{Point, Rect, Size};
use lane_distance::Track;
use svg::node::element::Element;

use super::ground::Ground;
use super::labels::Labels;
use super::names::{self, Name};
use super::paint::UsedPaint;
use super::patterns::Patterns;
use super::{arrows, compass, hazards, paint};
use crate::drawing::ink::{Pen, group, pair, stroke};
use crate::drawing::paint_style::core;
use crate::drawing::picture::Picture;

/// How wide the narrowest lane is, in millimetres: 24 of the units that style sheets call a pixel.
const LANE_MM: f64 = 6.35;

/// How wide the map of a page is, in millimetres.
const PAGE_MM: f64 = 180.0;

/// How broad paint is drawn on the map of a page, in metres.
const THIN_M: f64 = 0.2;

/// Room for names beside the lanes, in millimetres.
const RIM_MM: f64 = 12.0;

/// How large a map is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GroundMapSize {
    /// So large that a lane can be pointed at.
    Finger,
    /// As wide as a page; paint is black.
    Page,
}

impl GroundMapSize {
    /// How many metres a millimetre of the map is.
    fn mm(self, ground: Ground<'_>) -> f64 {
        match self {
            Self::Finger => {
                let widths = ground.layout().lanes().iter().map(|lane| lane.width_m);
                widths.fold(f64::INFINITY, f64::min) / LANE_MM
            }
            Self::Page => (ground.bounds().width() + 2.0 * hazards::BESIDE_M) / (PAGE_MM - 2.0 * RIM_MM),
        }
    }
}

/// The track alone as SVG, with its paint, its hazards and its closed lanes. A unit of the picture is a metre, and the
/// centre of the infield is its origin: what is at `x`, `y` of the picture is at `x`, `-y` of the ground.
///
/// ```
/// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
/// let map = plan_sheet::ground_map(&track, plan_sheet::GroundMapSize::Finger);
/// assert!(map.starts_with("<svg") && map.contains("finish line"));
/// ```
pub fn ground_map(track: &Track, size: GroundMapSize) -> String {
    let ground = Ground::of(track);
    let mm = size.mm(ground);
    let rim_m = hazards::BESIDE_M + RIM_MM * mm;
    let map = ground.bounds().inflate(rim_m, rim_m);
    let patterns = Patterns::new("ground", mm);
    let ways = arrows::arrows(ground, mm);
    let mut labels = Labels::new(map, 0.5 * mm, (mm, 40.0 * mm));
    let side = compass::NORTH_MM * mm;
    let north = track
        .bearing_deg()
        .map(|bearing_deg| (bearing_deg, Rect::from_origin_size(map.origin(), (side, side))));
    let bar_m = 10.0;
    let bar = Rect::from_origin_size(
        Point::new(map.x1 - bar_m - 2.0 * mm, map.y0 + mm),
        Size::new(bar_m, 6.0 * mm),
    );
    let free = (north.map(|(_, place)| place).into_iter()).chain([bar.inflate(2.0 * mm, 0.0)]);
    free.chain(ways.iter().map(|way| arrows::place(way, mm))).for_each(|place| labels.keep_free(place));
    let mut drawn = vec![
        ground.draw(map, mm),
        hazards::draw(ground, patterns.dots(), mm),
        paint::finish_line(ground, mm),
        match size {
            GroundMapSize::Finger => all_paint(ground, mm),
            GroundMapSize::Page => thin_paint(ground),
        },
        arrows::draw(&ways, mm),
        compass::scale_bar(bar, bar_m, mm),
    ];
    drawn.extend(north.map(|(bearing_deg, place)| compass::north(bearing_deg, place, mm)));
    drawn.extend(names::draw(&Name::of_ground(ground, mm), &mut labels, ground, mm));
    let picture = Picture {
        title: format!("The track {}", track.name()),
        words: format!("The track {} to scale, with its paint.", track.name()),
        drawings: patterns.with(group("map", drawn)),
        bounds: map,
        mm,
    };
    picture.svg()
}

/// Everything that is painted in every lane: black edges, and over them a line for each colour.
fn all_paint(ground: Ground<'_>, mm: f64) -> Element {
    let mut edges = String::new();
    let mut colours: BTreeMap<&str, String> = BTreeMap::new();
    for (colour, line) in painted(ground) {
        edges += &line;
        *colours.entry(core(colour)).or_default() += &line;
    }
    let black = stroke(edges, Pen::new("#000000", 0.65 * mm));
    let cores = colours.into_iter().map(|(colour, lines)| stroke(lines, Pen::new(colour, 0.35 * mm)));
    group("paint", std::iter::once(black).chain(cores))
}

/// The same, where there is no room for colours.
fn thin_paint(ground: Ground<'_>) -> Element {
    let lines: String = painted(ground).map(|(_, line)| line).collect();
    group("paint", [stroke(lines, Pen::new("#000000", THIN_M))])
}

/// The colour of each mark in each lane, and its line as path data.
fn painted<'a>(ground: Ground<'a>) -> impl Iterator<Item = (&'a str, String)> {
    let track = ground.track;
    let marks = track.layout().lanes().iter().flat_map(|lane| track.walk(lane.number));
    marks.filter_map(move |(spot, mark)| {
        let mark = track.mark(mark)?;
        let (from, to) = UsedPaint { spot, mark, cone: None }.ends(ground);
        Some((&*mark.colour, format!("M{}L{}", pair(from), pair(to))))
    })
}

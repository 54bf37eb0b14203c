//! Insets on pages of their own, where they find no room beside their map.

use kurbo::Rect;
use session_plan::ConeLabel;

use super::inset::{self, Inset};
use super::patterns::Patterns;
use super::sketch::Sketch;
use crate::drawing::ink::group;
use crate::drawing::picture::Picture;
use crate::sheet::spans::cone_ranges;

/// Insets on as many pages as they take, each as wide as the map, and no higher than there is room unless one
/// inset by itself is.
pub(super) fn inset_pages(mut insets: Vec<&Inset<'_>>, sketch: &Sketch<'_>) -> Vec<Picture> {
    let mm = sketch.mm;
    let mut pages = Vec::new();
    while !insets.is_empty() {
        let within = |height: f64| Rect::new(0.0, 0.0, sketch.room.others_width_mm * mm, height);
        let mut shelves = inset::shelves(insets.clone(), within(sketch.room.others_mm * mm), sketch.gap());
        if shelves.put.is_empty() {
            shelves = inset::shelves(vec![insets[0]], within(f64::INFINITY), sketch.gap());
            shelves.left_over = insets[1..].to_vec();
        }
        let mut patterns = Patterns::new(&format!("{}-{}", sketch.prefix, pages.len() + 2), mm);
        let mut cones: Vec<ConeLabel> = shelves.put.iter().flat_map(|(_, inset)| inset.cones()).collect();
        cones.sort_unstable();
        let words = format!("Places of the map magnified, with their numbers: cones {}.", cone_ranges(cones));
        let drawn = shelves.put.into_iter().map(|(at, inset)| inset.draw(at, sketch, &mut patterns));
        let all = group("insets", drawn);
        pages.push(Picture {
            title: sketch.title(),
            words,
            drawings: patterns.with(all),
            bounds: within(shelves.height).inflate(0.0, 0.2 * mm),
            mm,
        });
        insets = shelves.left_over;
    }
    pages
}

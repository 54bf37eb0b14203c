//! Insets on pages of their own, where they find no room beside their map.

use kurbo::{Point, Rect, Size};
use svg::node::Node;

use super::ground::Ground;
use super::inset::{self, Inset};
use super::paint::UsedPaint;
use super::patterns::Patterns;
use super::picture::Picture;
use crate::drawing::ink::group;
use crate::sheet::spans::ranges;

/// A picture of insets alone, as wide as the map.
#[derive(Debug)]
pub(super) struct InsetPage {
    pub(super) picture: Picture,
    /// The cones that it shows, by their numbers.
    pub(super) cones: String,
}

impl InsetPage {
    /// Insets on as many pages as they take, each as wide as asked, and no higher than asked unless one
    /// inset by itself is.
    pub(super) fn all(
        mut insets: Vec<&Inset<'_>>,
        ground: Ground<'_>,
        paint: &[UsedPaint<'_>],
        (prefix, mm): (&str, f64),
        most: Size,
        gap: f64,
    ) -> Vec<Self> {
        let mut pages = Vec::new();
        while !insets.is_empty() {
            let within = |height: f64| Rect::new(0.0, 0.0, most.width, height);
            let mut shelves = inset::shelves(insets.clone(), within(most.height), gap);
            if shelves.put.is_empty() {
                shelves = inset::shelves(vec![insets[0]], within(f64::INFINITY), gap);
                shelves.left_over = insets[1..].to_vec();
            }
            let mut patterns = Patterns::new(&format!("{prefix}-{}", pages.len() + 2), mm);
            let mut all = group("insets");
            let mut cones: Vec<u32> = Vec::new();
            for (at, inset) in shelves.put {
                all.append(inset.draw(at, ground, paint, &mut patterns, mm));
                cones.extend(inset.cones());
            }
            cones.sort_unstable();
            let mut drawing = group("picture");
            drawing.append(patterns.definitions());
            drawing.append(all);
            let bounds =
                Rect::from_origin_size(Point::ORIGIN, (most.width, shelves.height)).inflate(0.0, 0.2 * mm);
            pages.push(Self { picture: Picture { drawing, bounds, mm }, cones: ranges(cones) });
            insets = shelves.left_over;
        }
        pages
    }
}

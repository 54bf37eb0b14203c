//! The list of cones beside the map.

use kurbo::Point;
use svg::node::element::Element;

use crate::drawing::ink::{Pen, group, line, texts};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::sheet::cone_row::{ConeRow, cone_groups};
use crate::sheet::spans::{cone_ranges, ranges};

/// The columns, each with how broad it is in millimetres.
const COLUMNS: [(&str, f64); 4] = [("Cone", 16.0), ("Lane", 14.0), ("Where", 104.0), ("For", 46.0)];

/// Draws the list with its upper left corner at a place, and returns its height.
pub(super) fn draw(cones: &[ConeRow], at: Point, mm: f64) -> (Element, f64) {
    let small = Type::plain(SMALL_MM * mm);
    let bold = Type { bold: true, ..small };
    let mut drawn = Vec::new();
    let mut y = at.y;
    let mut row = |cells: [&str; 4], first: Type, others: Type| {
        let mut x = at.x;
        let mut highest: f64 = 0.0;
        for ((cell, letters), (_, width)) in
            cells.into_iter().zip([first, others, others, others]).zip(COLUMNS)
        {
            let (lines, height) = texts([(cell, letters)], Point::new(x, y), (width - 2.0) * mm);
            drawn.extend(lines);
            highest = highest.max(height);
            x += width * mm;
        }
        y += highest.max(small.leading()) + 0.4 * mm;
        drawn.push(line(Point::new(at.x, y), Point::new(x, y), Pen::new("#8a8a8a", 0.15 * mm)));
        y += 0.4 * mm;
    };
    row(COLUMNS.map(|(name, _)| name), bold, bold);
    for cones in cone_groups(cones) {
        let ConeRow { place, steps, serves, .. } = &cones[0];
        let steps = steps.as_ref().map_or_else(String::new, |steps| format!("; {steps} steps"));
        let numbers = cone_ranges(cones.iter().map(|cone| cone.label));
        let lanes = ranges(cones.iter().map(|cone| cone.lane.get().into()));
        row([&numbers, &lanes, &format!("{place}{steps}"), serves], bold, small);
    }
    (group("legend", drawn), y - at.y)
}

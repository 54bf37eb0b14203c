//! The list of cones beside the map.

use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

use crate::drawing::ink::{Pen, group, line, text};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::sheet::cone_row::{ConeRow, cone_groups};
use crate::sheet::spans::ranges;

/// The columns, each with how broad it is in millimetres.
const COLUMNS: [(&str, f64); 4] = [("Cone", 16.0), ("Lane", 14.0), ("Where", 104.0), ("For", 46.0)];

/// Draws the list with its upper left corner at a place, and returns its height.
pub(super) fn draw(cones: &[ConeRow], at: Point, mm: f64) -> (Element, f64) {
    let small = Type::plain(SMALL_MM * mm);
    let bold = Type { bold: true, ..small };
    let mut all = group("legend");
    let mut y = at.y;
    let mut row = |cells: [String; 4], first: Type, others: Type| {
        let mut x = at.x;
        let mut lines = 1;
        for (index, (cell, (_, width))) in cells.iter().zip(COLUMNS).enumerate() {
            let letters = if index == 0 { first } else { others };
            let wrapped = letters.wrapped(cell, (width - 2.0) * mm);
            for (number, words) in wrapped.iter().enumerate() {
                let baseline = y + letters.drop() + number as f64 * letters.leading();
                all.append(text(words, Point::new(x, baseline), letters));
            }
            lines = lines.max(wrapped.len());
            x += width * mm;
        }
        y += lines as f64 * small.leading() + 0.4 * mm;
        all.append(line(Point::new(at.x, y), Point::new(x, y), Pen::new("#8a8a8a", 0.15 * mm)));
        y += 0.4 * mm;
    };
    row(COLUMNS.map(|(name, _)| name.to_owned()), bold, bold);
    for group in cone_groups(cones) {
        let ConeRow { place, steps, serves, .. } = &group[0];
        let steps = steps.as_ref().map_or_else(String::new, |steps| format!("; {steps} steps"));
        let cells = [
            ranges(group.iter().map(|cone| cone.number)),
            ranges(group.iter().map(|cone| cone.lane.get().into())),
            format!("{place}{steps}"),
            serves.clone(),
        ];
        row(cells, bold, small);
    }
    (all, y - at.y)
}

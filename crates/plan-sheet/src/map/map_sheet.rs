//! The map as a sheet of its own: what stands over it and below it.

use kurbo::{Point, Rect};
use svg::node::Node;
use svg::node::element::Element;

use super::legend;
use crate::drawing::ink::{group, number, text};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::sheet::sheet::Sheet;
use crate::strip::unrolled::{self, Unrolled};

/// Space between the parts, in millimetres.
const APART_MM: f64 = 6.0;

/// Puts title, list of cones, strips and cautions round the map, and returns the room that they take.
pub(super) fn around(sheet: &Sheet, map: Element, bounds: Rect, mm: f64) -> (Vec<Element>, Rect) {
    let margin = 3.0 * mm;
    let small = Type::plain(SMALL_MM * mm);
    let heading = Type::bold(3.8 * mm);
    let mut drawings = Vec::new();
    let mut top = Text { x: bounds.x0, y: 0.0, width: bounds.width(), drawing: group("heading") };
    top.lines(&sheet.title, Type::bold(5.5 * mm));
    top.lines(&circumstances(sheet), small);
    let above = top.y + 2.0 * mm;
    top.drawing.assign("transform", format!("translate(0 {})", number(bounds.y0 - above)));
    drawings.push(top.drawing);
    drawings.push(map);
    let mut y = bounds.y1 + APART_MM * mm;
    if !sheet.cones.is_empty() {
        let mut title = Text { x: bounds.x0, y, width: bounds.width(), drawing: group("heading") };
        title.lines(sheet.walk_title, heading);
        title.lines(
            &[Some(sheet.walk.as_str()), sheet.stride.as_deref()]
                .into_iter()
                .flatten()
                .collect::<Vec<_>>()
                .join(" "),
            small,
        );
        let (list, height) = legend::draw(&sheet.cones, Point::new(bounds.x0, title.y), mm);
        y = title.y + height + APART_MM * mm;
        drawings.extend([title.drawing, list]);
    }
    let strips = Unrolled::all(sheet);
    if !strips.is_empty() {
        let mut title = Text { x: bounds.x0, y, width: bounds.width(), drawing: group("heading") };
        title.lines("Lanes unrolled: start at the foot, finish at the top", heading);
        title.lines("Metres from the start along the measure line; shaded parts are bends.", small);
        y = title.y + 2.0 * mm;
        drawings.push(title.drawing);
        y = rows_of_strips(strips, Point::new(bounds.x0, y), mm, &mut drawings);
    }
    let mut foot = Text { x: bounds.x0, y, width: bounds.width(), drawing: group("cautions") };
    foot.lines("Take care", heading);
    for caution in &sheet.cautions {
        foot.lines(caution, small);
    }
    let bottom = foot.y;
    drawings.push(foot.drawing);
    let all = Rect::new(bounds.x0, bounds.y0 - above, bounds.x1, bottom);
    (drawings, all.inflate(margin, margin))
}

/// Two strips side by side; and where the next thing may begin.
fn rows_of_strips(strips: Vec<Unrolled>, at: Point, mm: f64, drawings: &mut Vec<Element>) -> f64 {
    let mut y = at.y;
    let mut strips = strips.into_iter().peekable();
    while strips.peek().is_some() {
        let mut height: f64 = 0.0;
        for (column, strip) in (0..2).zip(strips.by_ref()) {
            let x = at.x + f64::from(column) * (unrolled::WIDTH_MM + APART_MM) * mm;
            let mut placed = group("unrolled");
            let transform = format!("translate({} {}) scale({})", number(x), number(y), number(mm));
            placed.assign("transform", transform);
            placed.append(strip.drawing);
            drawings.push(placed);
            height = height.max(strip.size.height);
        }
        y += (height + APART_MM) * mm;
    }
    y
}

/// Day, hours, track, what is closed, wind.
fn circumstances(sheet: &Sheet) -> String {
    let parts = [
        sheet.date.clone(),
        sheet.times.clone(),
        Some(format!("Track: {}", sheet.track)),
        sheet.wind.as_ref().map(|wind| format!("wind {wind}")),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// Lines of text one under the other.
struct Text {
    x: f64,
    y: f64,
    width: f64,
    drawing: Element,
}

impl Text {
    fn lines(&mut self, words: &str, letters: Type) {
        for line in letters.wrapped(words, self.width) {
            self.drawing.append(text(&line, Point::new(self.x, self.y + letters.drop()), letters));
            self.y += letters.leading();
        }
    }
}

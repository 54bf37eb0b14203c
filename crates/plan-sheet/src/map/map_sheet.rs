//! The map as a sheet of its own: what stands over it and below it.

use kurbo::{Point, Vec2};
use svg::node::Node;
use svg::node::element::Element;

use super::legend;
use crate::drawing::ink::{group, moved, number, texts};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::drawing::picture::Picture;
use crate::sheet::sheet::Sheet;
use crate::strip::unrolled::{WIDTH_MM, whole_strips};

/// Space between the parts, in millimetres.
const APART_MM: f64 = 6.0;

/// Puts title, list of cones, strips and cautions round a map.
pub(super) fn around(sheet: &Sheet, mut map: Picture) -> Picture {
    let (bounds, mm) = (map.bounds, map.mm);
    let small = Type::plain(SMALL_MM * mm);
    let heading = Type::bold(3.8 * mm);
    let words = |class: &str, y: f64, words: &[(&str, Type)]| {
        let (lines, height) = texts(words.iter().copied(), Point::new(bounds.x0, y), bounds.width());
        (group(class, lines), y + height)
    };
    let (title, below) =
        words("heading", 0.0, &[(&sheet.title, Type::bold(5.5 * mm)), (&circumstances(sheet), small)]);
    let above = below + 2.0 * mm;
    map.drawings.insert(0, moved(title, Vec2::new(0.0, bounds.y0 - above)));
    let mut y = bounds.y1 + APART_MM * mm;
    if !sheet.cones.is_empty() {
        let walk = [Some(sheet.walk.as_str()), sheet.stride.as_deref()];
        let walk = walk.into_iter().flatten().collect::<Vec<_>>().join(" ");
        let (title, below) = words("heading", y, &[(sheet.walk_title, heading), (&walk, small)]);
        let (list, height) = legend::draw(&sheet.cones, Point::new(bounds.x0, below), mm);
        y = below + height + APART_MM * mm;
        map.drawings.extend([title, list]);
    }
    if let Some(none) = sheet.no_cones {
        let (line, below) = words("heading", y, &[(none, small)]);
        y = below + APART_MM * mm;
        map.drawings.push(line);
    }
    let strips = whole_strips(sheet);
    if !strips.is_empty() {
        let titles = [
            ("Lanes unrolled: start at the foot, finish at the top", heading),
            ("Metres along the measure line from where they set off; shaded parts are bends.", small),
        ];
        let (title, below) = words("heading", y, &titles);
        map.drawings.push(title);
        y = rows_of_strips(strips, Point::new(bounds.x0, below + 2.0 * mm), mm, &mut map.drawings);
    }
    let mut cautions = vec![("Take care", heading)];
    cautions.extend(sheet.cautions.iter().map(|caution| (caution.as_str(), small)));
    let (foot, bottom) = words("cautions", y, &cautions);
    map.drawings.push(foot);
    (map.bounds.y0, map.bounds.y1) = (bounds.y0 - above, bottom);
    map.bounds = map.bounds.inflate(3.0 * mm, 3.0 * mm);
    map
}

/// Two strips side by side; and where the next thing may begin.
fn rows_of_strips(mut strips: Vec<Picture>, at: Point, mm: f64, drawings: &mut Vec<Element>) -> f64 {
    let mut y = at.y;
    for row in strips.chunks_mut(2) {
        let height = row.iter().map(|strip| strip.bounds.height()).fold(0.0, f64::max);
        for (column, strip) in (0..).zip(row) {
            let x = at.x + f64::from(column) * (WIDTH_MM + APART_MM) * mm;
            let mut placed = group("unrolled", strip.drawings.drain(..));
            let transform = format!("translate({} {}) scale({})", number(x), number(y), number(mm));
            placed.assign("transform", transform);
            drawings.push(placed);
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

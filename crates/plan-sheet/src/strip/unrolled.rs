//! A lane unrolled, as a drawing.

use kurbo::{Point, Rect, Size};
use svg::node::Node;
use svg::node::element::Element;

use super::ribbon::{Passed, Ribbon};
use super::spread::spread;
use super::strip_part::{Part, cuts};
use super::strip_row::{Row, RowKind, rows};
use crate::drawing::flag;
use crate::drawing::ink::{Pen, group, line, polygon, rect, stroke, text};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::drawing::paint_style;
use crate::drawing::sign::{Marked, sign};
use crate::sheet::sheet::Sheet;

/// How wide a strip is, in millimetres.
pub(crate) const WIDTH_MM: f64 = 87.0;

/// Where the parts of a strip lie, in millimetres from its left: the lane, and the words beside it.
const LANE_MM: (f64, f64) = (13.0, 18.0);
const WORDS_MM: f64 = 25.0;

/// How wide the metres are before the words, and the lines of words.
const METRES_MM: f64 = 15.0;
const LINE_MM: f64 = WIDTH_MM - WORDS_MM - METRES_MM;

/// The flags end so far from the left.
const FLAG_MM: f64 = LANE_MM.0 - 1.0;

/// The letters of flags.
const FLAG: Type = Type::bold(3.0);

/// Half the length of the arrow.
const ARROW_MM: f64 = 5.0;

/// A strip as a drawing in millimetres.
pub(crate) struct Unrolled {
    pub(crate) title: String,
    /// The same in words.
    pub(crate) description: String,
    pub(crate) drawing: Element,
    pub(crate) size: Size,
}

impl Unrolled {
    pub(crate) fn all(sheet: &Sheet) -> Vec<Self> {
        Self::in_parts(sheet, f64::INFINITY).into_iter().flatten().collect()
    }

    /// The strips, each in parts of which none is higher than some millimetres.
    pub(crate) fn in_parts(sheet: &Sheet, most_mm: f64) -> Vec<Vec<Self>> {
        let ribbons = Ribbon::all(sheet);
        let longest_m = ribbons.iter().map(|ribbon| ribbon.shown_m).fold(1.0, f64::max);
        // One scale for all, so that their lengths can be compared.
        let scale = (170.0 / longest_m).clamp(0.45, 1.2);
        let small = Type::plain(SMALL_MM);
        let cut = |ribbon: &Ribbon| {
            let rows = rows(ribbon, small, LINE_MM);
            let mut count = 1;
            loop {
                let parts: Vec<Self> = cuts(&rows, count, scale, small)
                    .into_iter()
                    .map(|part| Self::of(ribbon, &rows, scale, part))
                    .collect();
                // A part holds a row at least.
                if count >= rows.len() || parts.iter().all(|part| part.size.height <= most_mm) {
                    return parts;
                }
                count += 1;
            }
        };
        ribbons.iter().map(cut).collect()
    }

    fn of(ribbon: &Ribbon, rows: &[Row], scale: f64, part: Part) -> Self {
        let small = Type::plain(SMALL_MM);
        let (from_m, to_m) = part.ends_m;
        let title = match part.count {
            1 => ribbon.title(),
            count => format!("{} ({} of {count})", ribbon.title(), part.number),
        };
        let mut drawing = group("strip");
        let top = draw_heading(&title, ribbon.laps().as_deref(), &mut drawing) + 1.5;
        let rows = part.rows(rows, small, LINE_MM);
        // Heights count from the beginning of the part upwards.
        let up = |from_start_m: f64| (from_start_m - from_m) * scale;
        let length = up(to_m);
        let wished: Vec<f64> = rows.iter().map(|row| up(row.from_start_m)).collect();
        let sizes: Vec<f64> = rows.iter().map(|row| row.lines.len() as f64 * small.leading()).collect();
        let middles = spread(&wished, &sizes);
        let ends =
            |index: usize, sign: f64| middles.get(index).map_or(0.0, |m| m + sign * sizes[index] / 2.0);
        let flags = flags_of(ribbon, part, length);
        let flag_ends = |sign: f64| flags.iter().map(move |(_, up)| up + sign * FLAG.height());
        let lowest = flag_ends(-1.0).fold(ends(0, -1.0).min(-3.0), f64::min);
        let highest =
            flag_ends(1.0).fold(ends(rows.len().saturating_sub(1), 1.0).max(length + 3.0), f64::max);
        let y = |up: f64| top + highest - up;
        drawing.append(lane(ribbon, part, &|from_start_m| y(up(from_start_m))));
        // Where the flags leave room for it.
        if flags.iter().all(|(_, up)| (up - length / 2.0).abs() > ARROW_MM + FLAG.height()) {
            drawing.append(arrow(Point::new(LANE_MM.0 - 5.0, y(length / 2.0))));
        }
        for (row, (up, middle)) in rows.iter().zip(wished.iter().zip(&middles)) {
            draw_row(row, y(*up), y(*middle), &mut drawing);
        }
        let middle = (LANE_MM.0 + LANE_MM.1) / 2.0;
        if part.number == 1 {
            drawing.append(sign(Marked::START, Point::new(middle, y(0.0)), 1.05));
        }
        if part.number == part.count {
            drawing.append(sign(Marked::FINISH, Point::new(middle, y(length)), 1.05));
        }
        for (numbers, up) in &flags {
            let (width, height) = flag::size(numbers, FLAG, 1.0);
            let corner = Point::new((FLAG_MM - width).max(0.0), y(*up) - height / 2.0);
            let place = Rect::from_origin_size(corner, (width, height));
            drawing.append(flag::flag(numbers, place, FLAG, 1.0));
        }
        let description = rows
            .iter()
            .map(|row| {
                let metres = row.metres().map(|metres| format!("{metres} m: ")).unwrap_or_default();
                format!("{metres}{}.", row.lines.join(" "))
            })
            .collect::<Vec<_>>()
            .join(" ");
        let size = Size::new(WIDTH_MM, top + highest - lowest + 1.0);
        Self { title, description, drawing, size }
    }
}

/// Draws the heading of a strip, and returns its height.
fn draw_heading(title: &str, laps: Option<&str>, drawing: &mut Element) -> f64 {
    let (bold, small) = (Type::bold(3.3), Type::plain(SMALL_MM));
    let mut top = 0.0;
    for (words, letters) in [(Some(title), bold), (laps, small)] {
        for words in words.map(|words| letters.wrapped(words, WIDTH_MM)).unwrap_or_default() {
            drawing.append(text(&words, Point::new(0.0, top + letters.drop()), letters));
            top += letters.leading();
        }
    }
    top
}

/// Draws a row of words with its middle at a height, and the line that leads to it from its place on the lane.
fn draw_row(row: &Row, place: f64, middle: f64, drawing: &mut Element) {
    let small = Type::plain(SMALL_MM);
    let letters = Type { bold: row.kind == RowKind::End, ..small };
    let metres = row.metres();
    let first = middle - row.lines.len() as f64 * small.leading() / 2.0;
    let beside = Point::new(WORDS_MM - 1.0, first + small.leading() / 2.0);
    let wide = metres.as_deref().map_or(0.0, |metres| letters.width(metres) + 1.4);
    let to = Point::new((WORDS_MM + METRES_MM - 1.4 - wide).max(beside.x), beside.y);
    let thin = Pen::new("#000000", 0.18);
    drawing.append(line(Point::new(LANE_MM.1, place), beside, thin));
    drawing.append(line(beside, to, thin));
    let baseline = |index: usize| first + small.drop() + index as f64 * small.leading();
    if let Some(metres) = metres {
        let mut shown = text(&metres, Point::new(WORDS_MM + METRES_MM - 2.0, baseline(0)), letters);
        shown.assign("text-anchor", "end");
        drawing.append(shown);
    }
    for (index, words) in row.lines.iter().enumerate() {
        drawing.append(text(words, Point::new(WORDS_MM + METRES_MM, baseline(index)), letters));
    }
}

/// The lane itself: its bends shaded, its paint across it. `y` says how
/// far down the page a place is, from its metres from the start.
fn lane(ribbon: &Ribbon, part: Part, y: &dyn Fn(f64) -> f64) -> Element {
    let mut all = group("lane");
    let (left, right) = LANE_MM;
    let (from_m, to_m) = part.ends_m;
    let (foot, head) = (y(from_m), y(to_m));
    let pen = Pen::new("#000000", 0.3);
    all.append(rect(Rect::new(left, head, right, foot), "#ffffff", Pen::new("none", 0.0)));
    for &(bend_from_m, bend_to_m) in &ribbon.bends {
        let (bend_from_m, bend_to_m) = (bend_from_m.max(from_m), bend_to_m.min(to_m));
        if bend_from_m < bend_to_m {
            let bend = Rect::new(left, y(bend_to_m), right, y(bend_from_m));
            all.append(rect(bend, "#dcdcdc", Pen::new("none", 0.0)));
        }
    }
    all.append(stroke(format!("M{left} {foot}V{head}M{right} {foot}V{head}"), pen));
    for passed in ribbon.passed.iter().filter(|passed| part.holds(passed.from_start_m)) {
        all.append(mark(passed, y(passed.from_start_m)));
    }
    for (y, is_end) in [(foot, part.number == 1), (head, part.number == part.count)] {
        if is_end {
            all.append(line(Point::new(left, y), Point::new(right, y), Pen::new("#000000", 0.6)));
        } else {
            // Torn off.
            let step = (right - left) / 4.0;
            all.append(stroke(format!("M{left} {y}l{step} -1l{step} 2l{step} -2l{step} 1"), pen));
        }
    }
    all
}

/// An arrow in the direction of running.
fn arrow(at: Point) -> Element {
    let mut arrow = group("arrow");
    let pen = Pen::new("#000000", 0.45);
    arrow.append(line(Point::new(at.x, at.y + ARROW_MM - 1.0), Point::new(at.x, at.y - 3.0), pen));
    let head = [(0.0, -ARROW_MM), (-1.2, -2.0), (1.2, -2.0)].map(|(x, y)| Point::new(at.x + x, at.y + y));
    arrow.append(polygon(&head, "#000000"));
    arrow
}

/// The flags at the ends of a part, and how far up each has its middle: as many as the numbers need beside
/// the lane.
fn flags_of(ribbon: &Ribbon, part: Part, length: f64) -> Vec<(String, f64)> {
    let (start, finish) = ribbon.cones();
    let ends = [(start, 0.0, part.number == 1), (finish, length, part.number == part.count)];
    let mut flags: Vec<(String, f64)> = Vec::new();
    for (numbers, up, _) in ends.into_iter().filter(|(_, _, is_here)| *is_here) {
        let widths = numbers.split(' ').map(|range| FLAG.width(range));
        let width = widths.fold(FLAG_MM - 1.2, f64::max);
        // The first numbers stand uppermost.
        let lines = FLAG.wrapped(&numbers, width).into_iter().rev();
        flags.extend(lines.map(|line| (line.trim_end_matches(',').to_owned(), up)));
    }
    let wished: Vec<f64> = flags.iter().map(|(_, up)| *up).collect();
    // Those of a very short run stand apart all the same.
    let apart = spread(&wished, &vec![FLAG.height() + 0.4; wished.len()]);
    flags.into_iter().zip(apart).map(|((numbers, _), up)| (numbers, up)).collect()
}

fn mark(passed: &Passed, y: f64) -> Element {
    let (left, right) = LANE_MM;
    let (from, to) = paint_style::reach(passed.form);
    let ends = (Point::new(left + from * (right - left), y), Point::new(left + to * (right - left), y));
    let mut all = group("paint");
    all.append(line(ends.0, ends.1, Pen::new("#000000", 0.6)));
    let core = paint_style::core(&passed.colour);
    if core != "#000000" {
        all.append(line(ends.0, ends.1, Pen::new(core, 0.28)));
    }
    all
}

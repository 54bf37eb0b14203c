//! A lane unrolled, as a drawing.

use kurbo::{Point, Rect};
use svg::node::Node;
use svg::node::element::Element;

use super::ribbon::Ribbon;
use super::spread::spread;
use super::strip_part::{Part, Stretch};
use super::strip_row::{Row, RowKind, rows, rows_of};
use crate::drawing::flag;
use crate::drawing::ink::{Pen, group, line, polygon, rect, stroke, text, texts};
use crate::drawing::lettering::{SMALL_MM, Type};
use crate::drawing::paint_style::{paint, reach};
use crate::drawing::picture::Picture;
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

/// The letters of words.
const SMALL: Type = Type::plain(SMALL_MM);

/// Half the length of the arrow.
const ARROW_MM: f64 = 5.0;

/// Every strip of a sheet in one part, in millimetres.
pub(crate) fn whole_strips(sheet: &Sheet) -> Vec<Picture> {
    strips_in_parts(sheet, Stretch::Whole).into_iter().flatten().collect()
}

/// The strips, each in as many parts as show it.
pub(crate) fn strips_in_parts(sheet: &Sheet, stretch: Stretch) -> Vec<Vec<Picture>> {
    let ribbons = Ribbon::all(sheet, stretch);
    let parts: Vec<Vec<Part>> = ribbons.iter().map(|ribbon| ribbon.parts(stretch)).collect();
    let longest_m = parts.iter().flatten().map(Part::length_m).fold(1.0, f64::max);
    // One scale for all, so that their lengths can be compared.
    let scale = (170.0 / longest_m).clamp(0.45, 1.2);
    let draw = |(ribbon, parts): (&Ribbon<'_>, Vec<Part>)| {
        let rows = rows(ribbon, SMALL, LINE_MM);
        parts.into_iter().map(|part| picture(ribbon, &rows, scale, part)).collect()
    };
    ribbons.iter().zip(parts).map(draw).collect()
}

fn picture(ribbon: &Ribbon<'_>, rows: &[Row], scale: f64, part: Part) -> Picture {
    let (from_m, to_m) = part.ends_m;
    let title = match part.count {
        1 => ribbon.title(),
        count => format!("{} ({} of {count})", ribbon.title(), part.number),
    };
    let laps = ribbon.laps();
    let heading = [(title.as_str(), Type::bold(3.3))].into_iter();
    let heading = heading.chain(laps.as_deref().map(|laps| (laps, SMALL)));
    let (mut drawn, top) = texts(heading, Point::ORIGIN, WIDTH_MM);
    let top = top + 1.5;
    let rows = rows_of(part, rows, SMALL, LINE_MM);
    // Heights count from the beginning of the part upwards.
    let up = |from_start_m: f64| (from_start_m - from_m) * scale;
    let length = up(to_m);
    let wished: Vec<f64> = rows.iter().map(|row| up(row.from_start_m)).collect();
    let sizes: Vec<f64> = rows.iter().map(|row| row.lines.len() as f64 * SMALL.leading()).collect();
    let middles = spread(&wished, &sizes);
    let flags = flags_of(ribbon, part, &up);
    let of_rows = middles.iter().zip(&sizes).map(|(middle, size)| (middle - size / 2.0, middle + size / 2.0));
    let of_flags = flags.iter().map(|(_, up)| (up - FLAG.height(), up + FLAG.height()));
    let (lowest, highest) = of_rows
        .chain(of_flags)
        .fold((-3.0, length + 3.0), |(low, high): (f64, f64), ends| (low.min(ends.0), high.max(ends.1)));
    let y = |up: f64| top + highest - up;
    drawn.push(lane(ribbon, part, &|from_start_m| y(up(from_start_m))));
    // Where the flags leave room for it.
    if flags.iter().all(|(_, up)| (up - length / 2.0).abs() > ARROW_MM + FLAG.height()) {
        drawn.push(arrow(Point::new(LANE_MM.0 - 5.0, y(length / 2.0))));
    }
    for (row, (up, middle)) in rows.iter().zip(wished.iter().zip(&middles)) {
        drawn.extend(draw_row(row, y(*up), y(*middle)));
    }
    let middle = (LANE_MM.0 + LANE_MM.1) / 2.0;
    for (marked, at_m) in signs(ribbon).into_iter().filter(|(_, at_m)| part.holds(*at_m)) {
        drawn.push(sign(marked, Point::new(middle, y(up(at_m))), 1.05));
    }
    for (numbers, up) in &flags {
        let (width, height) = flag::size(numbers, FLAG, 1.0);
        let corner = Point::new((FLAG_MM - width).max(0.0), y(*up) - height / 2.0);
        let place = Rect::from_origin_size(corner, (width, height));
        drawn.push(flag::flag(numbers, place, FLAG, 1.0));
    }
    let words = rows.iter().map(|row| {
        let metres = row.metres().map(|metres| format!("{metres} m: ")).unwrap_or_default();
        format!("{metres}{}.", row.lines.join(" "))
    });
    let words = words.collect::<Vec<_>>().join(" ");
    let bounds = Rect::new(0.0, 0.0, WIDTH_MM, top + highest - lowest + 1.0);
    Picture { title, words, drawings: vec![group("strip", drawn)], bounds, mm: 1.0 }
}

/// A row of words with its middle at a height, and the line that leads to it from its place on the lane.
fn draw_row(row: &Row, place: f64, middle: f64) -> Vec<Element> {
    let letters = Type { bold: row.kind == RowKind::End, ..SMALL };
    let metres = row.metres();
    let first = middle - row.lines.len() as f64 * SMALL.leading() / 2.0;
    let beside = Point::new(WORDS_MM - 1.0, first + SMALL.leading() / 2.0);
    let wide = metres.as_deref().map_or(0.0, |metres| letters.width(metres) + 1.4);
    let to = Point::new((WORDS_MM + METRES_MM - 1.4 - wide).max(beside.x), beside.y);
    let thin = Pen::new("#000000", 0.18);
    let mut drawn = vec![line(Point::new(LANE_MM.1, place), beside, thin), line(beside, to, thin)];
    drawn.extend(metres.map(|metres| {
        let end = Point::new(WORDS_MM + METRES_MM - 2.0, first + SMALL.drop());
        let mut shown = text(&metres, end, letters);
        shown.assign("text-anchor", "end");
        shown
    }));
    let lines = row.lines.iter().map(|words| (words.as_str(), letters));
    drawn.extend(texts(lines, Point::new(WORDS_MM + METRES_MM, first), f64::INFINITY).0);
    drawn
}

/// The lane itself: its bends shaded, its paint across it. `y` says how
/// far down the page a place is, from its metres from the start.
fn lane(ribbon: &Ribbon<'_>, part: Part, y: &dyn Fn(f64) -> f64) -> Element {
    let (left, right) = LANE_MM;
    let (from_m, to_m) = part.ends_m;
    let (foot, head) = (y(from_m), y(to_m));
    let pen = Pen::new("#000000", 0.3);
    let mut drawn = vec![rect(Rect::new(left, head, right, foot), "#ffffff", Pen::NONE)];
    for &(bend_from_m, bend_to_m) in &ribbon.bends {
        let (bend_from_m, bend_to_m) = (bend_from_m.max(from_m), bend_to_m.min(to_m));
        if bend_from_m < bend_to_m {
            drawn.push(rect(Rect::new(left, y(bend_to_m), right, y(bend_from_m)), "#dcdcdc", Pen::NONE));
        }
    }
    drawn.push(stroke(format!("M{left} {foot}V{head}M{right} {foot}V{head}"), pen));
    for passed in ribbon.passed.iter().filter(|passed| part.holds(passed.from_start_m)) {
        let across = reach(passed.mark.form);
        let [from, to] =
            [across.0, across.1].map(|part| Point::new(left + part * (right - left), y(passed.from_start_m)));
        drawn.push(group("paint", paint(from, to, &passed.mark.colour, (0.6, 0.28))));
    }
    for (y, is_end) in [(foot, part.is_first()), (head, part.is_last())] {
        drawn.push(if is_end {
            line(Point::new(left, y), Point::new(right, y), Pen::new("#000000", 0.6))
        } else {
            // Torn off.
            let step = (right - left) / 4.0;
            stroke(format!("M{left} {y}l{step} -1l{step} 2l{step} -2l{step} 1"), pen)
        });
    }
    group("lane", drawn)
}

/// An arrow in the direction of running.
fn arrow(at: Point) -> Element {
    let shaft = [ARROW_MM - 1.0, -3.0].map(|y| Point::new(at.x, at.y + y));
    let head = [(0.0, -ARROW_MM), (-1.2, -2.0), (1.2, -2.0)].map(|(x, y)| Point::new(at.x + x, at.y + y));
    let shaft = line(shaft[0], shaft[1], Pen::new("#000000", 0.45));
    group("arrow", [shaft, polygon(&head, "#000000")])
}

/// The signs along a ribbon, with how far from where it begins they are, in metres.
fn signs(ribbon: &Ribbon<'_>) -> Vec<(Marked, f64)> {
    let run_in = ribbon.run_in.iter().map(|_| (Marked::RUN_IN, 0.0));
    let marks = ribbon.check_marks.iter().map(|mark| (Marked::CHECK_MARK, mark.from_start_m));
    let ends = [(Marked::START, ribbon.start_m()), (Marked::FINISH, ribbon.shown_m)];
    run_in.chain(marks).chain(ends).collect()
}

/// The flags of a part, and how far up each has its middle: as many as the numbers need beside the lane.
fn flags_of(ribbon: &Ribbon<'_>, part: Part, up: &dyn Fn(f64) -> f64) -> Vec<(String, f64)> {
    let mut flags: Vec<(String, f64)> = Vec::new();
    for (numbers, at_m) in ribbon.cones().into_iter().filter(|(_, at_m)| part.holds(*at_m)) {
        let widths = numbers.split(' ').map(|range| FLAG.width(range));
        let width = widths.fold(FLAG_MM - 1.2, f64::max);
        // The first numbers stand uppermost.
        let lines = FLAG.wrapped(&numbers, width).into_iter().rev();
        flags.extend(lines.map(|line| (line.trim_end_matches(',').to_owned(), up(at_m))));
    }
    flags.sort_by(|a, b| a.1.total_cmp(&b.1));
    let wished: Vec<f64> = flags.iter().map(|(_, up)| *up).collect();
    // Those of a very short run stand apart all the same.
    let apart = spread(&wished, &vec![FLAG.height() + 0.4; wished.len()]);
    flags.into_iter().zip(apart).map(|((numbers, _), up)| (numbers, up)).collect()
}

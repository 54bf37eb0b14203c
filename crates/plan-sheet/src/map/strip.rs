//! A lane unrolled from start to finish, with the paint that is passed.

use kurbo::{Point, Rect, Size};
use session_plan::Plan;
use svg::node::Node;
use svg::node::element::Element;

use super::cones;
use super::document::document;
use super::flags;
use super::ink::{Pen, group, line, polygon, rect, stroke, text};
use super::lettering::{SMALL_MM, Type};
use super::paint;
use super::ribbon::{Passed, Ribbon};
use super::spread::spread;

/// A lane unrolled from start to finish, to the scale that all strips of a plan have.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// How far is run, in which lanes, of which block.
    pub title: String,
    /// The picture, with its title in it.
    pub svg: String,
}

/// Every run of a plan that differs from the others, as the lane that is run, unrolled: start at the foot,
/// finish at the top, and all paint between them with its metres from the start.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Block, Session, Venue};
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let session = Session::of_block("60s", Block::parse("8 x 60 in lanes 1-8").expect("it is well formed"));
/// let plan = session_plan::plan(&venue, &session).expect("all lanes are open");
/// let strips = plan_sheet::strips(&plan);
/// assert!(strips[0].title.starts_with("Block 1: 60 m, lane"));
/// assert!(strips[0].svg.contains("finish line"));
/// ```
pub fn strips(plan: &Plan) -> Vec<Strip> {
    let drawn = Unrolled::all(plan);
    drawn
        .into_iter()
        .map(|strip| {
            let bounds = Rect::from_origin_size(Point::ORIGIN, strip.size);
            let svg = document(&strip.title, &strip.said, bounds, 1.0, vec![strip.drawing]);
            Strip { title: strip.title, svg }
        })
        .collect()
}

/// How wide a strip is, in millimetres.
pub(super) const WIDTH_MM: f64 = 87.0;

/// Where the parts of a strip lie, in millimetres from its left: the lane, and the words beside it.
const LANE_MM: (f64, f64) = (13.0, 18.0);
const WORDS_MM: f64 = 25.0;
const METRES_MM: f64 = 15.0;

/// A strip as a drawing in millimetres.
pub(super) struct Unrolled {
    pub(super) title: String,
    /// The same in words.
    said: String,
    pub(super) drawing: Element,
    pub(super) size: Size,
}

/// A line of a strip's list.
struct Row {
    from_start_m: f64,
    lines: Vec<String>,
    bold: bool,
}

impl Unrolled {
    pub(super) fn all(plan: &Plan) -> Vec<Self> {
        let ribbons = Ribbon::all(plan);
        let longest_m = ribbons.iter().map(|ribbon| ribbon.shown_m).fold(1.0, f64::max);
        // One scale for all, so that their lengths can be compared.
        let scale = (170.0 / longest_m).clamp(0.45, 1.2);
        ribbons.iter().map(|ribbon| Self::of(ribbon, scale)).collect()
    }

    fn of(ribbon: &Ribbon, scale: f64) -> Self {
        let small = Type::plain(SMALL_MM);
        let title = ribbon.title();
        let mut drawing = group("strip");
        let heading = Type::bold(3.3);
        let mut top = 0.0;
        for words in heading.wrapped(&title, WIDTH_MM) {
            drawing.append(text(&words, Point::new(0.0, top + heading.drop()), heading));
            top += heading.leading();
        }
        for words in ribbon.laps().map(|laps| small.wrapped(&laps, WIDTH_MM)).unwrap_or_default() {
            drawing.append(text(&words, Point::new(0.0, top + small.drop()), small));
            top += small.leading();
        }
        let rows = rows(ribbon, small);
        let length = ribbon.shown_m * scale;
        // Heights count from the start upwards.
        let wished: Vec<f64> = rows.iter().map(|row| row.from_start_m * scale).collect();
        let sizes: Vec<f64> = rows.iter().map(|row| row.lines.len() as f64 * small.leading()).collect();
        let middles = spread(&wished, &sizes);
        let ends =
            |index: usize, sign: f64| middles.get(index).map_or(0.0, |m| m + sign * sizes[index] / 2.0);
        let lowest = ends(0, -1.0).min(-3.0);
        let highest = ends(rows.len().saturating_sub(1), 1.0).max(length + 3.0);
        top += 1.5;
        let y = |up: f64| top + highest - up;
        drawing.append(lane(ribbon, scale, &y));
        let thin = Pen::new("#000000", 0.18);
        for (row, (up, middle)) in rows.iter().zip(wished.iter().zip(&middles)) {
            let letters = Type { bold: row.bold, ..small };
            let metres = format!("{:.2}", row.from_start_m);
            let first = y(*middle) - row.lines.len() as f64 * small.leading() / 2.0;
            let beside = Point::new(WORDS_MM - 1.0, first + small.leading() / 2.0);
            let to =
                Point::new((WORDS_MM + METRES_MM - 2.8 - letters.width(&metres)).max(beside.x), beside.y);
            drawing.append(line(Point::new(LANE_MM.1, y(*up)), beside, thin));
            drawing.append(line(beside, to, thin));
            let baseline = |index: usize| first + small.drop() + index as f64 * small.leading();
            let mut shown = text(&metres, Point::new(WORDS_MM + METRES_MM - 2.0, baseline(0)), letters);
            shown.assign("text-anchor", "end");
            drawing.append(shown);
            for (index, words) in row.lines.iter().enumerate() {
                drawing.append(text(words, Point::new(WORDS_MM + METRES_MM, baseline(index)), letters));
            }
        }
        let (start, finish) = ribbon.cones();
        let middle = (LANE_MM.0 + LANE_MM.1) / 2.0;
        let letters = Type::bold(3.0);
        // The flags of a very short run stand apart all the same.
        let apart = spread(&[0.0, length], &[letters.height() + 0.4; 2]);
        let ends = [("start", start, 0.0), ("finish", finish, length)];
        for ((what, numbers, up), flag_up) in ends.into_iter().zip(apart) {
            drawing.append(cones::sign(what, Point::new(middle, y(up)), 1.05));
            if !numbers.is_empty() {
                let (width, height) = flags::size(&numbers, letters, 1.0);
                let corner = Point::new((LANE_MM.0 - 1.0 - width).max(0.0), y(flag_up) - height / 2.0);
                let place = Rect::from_origin_size(corner, (width, height));
                drawing.append(flags::flag(&numbers, place, letters, 1.0));
            }
        }
        let said = rows
            .iter()
            .map(|row| format!("{:.2} m: {}.", row.from_start_m, row.lines.join(" ")))
            .collect::<Vec<_>>()
            .join(" ");
        let size = Size::new(WIDTH_MM, top + highest - lowest + 1.0);
        Self { title, said, drawing, size }
    }
}

/// The lane itself: its bends shaded, its paint across it, an arrow in the direction of running.
fn lane(ribbon: &Ribbon, scale: f64, y: &dyn Fn(f64) -> f64) -> Element {
    let mut all = group("lane");
    let (left, right) = LANE_MM;
    let length = ribbon.shown_m * scale;
    let pen = Pen::new("#000000", 0.3);
    all.append(rect(Rect::new(left, y(length), right, y(0.0)), "#ffffff", Pen::new("none", 0.0)));
    for &(from_m, to_m) in &ribbon.bends {
        let bend = Rect::new(left, y(to_m * scale), right, y(from_m * scale));
        all.append(rect(bend, "#dcdcdc", Pen::new("none", 0.0)));
    }
    all.append(stroke(format!("M{left} {}V{}M{right} {}V{}", y(0.0), y(length), y(0.0), y(length)), pen));
    for passed in &ribbon.passed {
        all.append(mark(passed, y(passed.from_start_m * scale)));
    }
    for up in [0.0, length] {
        all.append(line(Point::new(left, y(up)), Point::new(right, y(up)), Pen::new("#000000", 0.6)));
    }
    // Where the flags leave room for it.
    if length > 16.0 {
        let at = Point::new(left - 5.0, y(length / 2.0));
        all.append(line(
            Point::new(at.x, at.y + 4.0),
            Point::new(at.x, at.y - 3.0),
            Pen::new("#000000", 0.45),
        ));
        let head = [(0.0, -5.0), (-1.2, -2.0), (1.2, -2.0)].map(|(x, y)| Point::new(at.x + x, at.y + y));
        all.append(polygon(&head, "#000000"));
    }
    all
}

fn mark(passed: &Passed, y: f64) -> Element {
    let (left, right) = LANE_MM;
    let (from, to) = paint::reach(passed.form);
    let ends = (Point::new(left + from * (right - left), y), Point::new(left + to * (right - left), y));
    let mut all = group("paint");
    all.append(line(ends.0, ends.1, Pen::new("#000000", 0.6)));
    let core = paint::core(&passed.colour);
    if core != "#000000" {
        all.append(line(ends.0, ends.1, Pen::new(core, 0.28)));
    }
    all
}

/// What is passed, in order, from start to finish; paint at one place shares a row.
fn rows(ribbon: &Ribbon, letters: Type) -> Vec<Row> {
    let wrapped =
        |words: &str, bold: bool| Type { bold, ..letters }.wrapped(words, WIDTH_MM - WORDS_MM - METRES_MM);
    let mut rows = vec![Row {
        from_start_m: 0.0,
        lines: wrapped(&format!("start: {}", ribbon.start), true),
        bold: true,
    }];
    let mut places: Vec<(f64, String)> = Vec::new();
    for passed in &ribbon.passed {
        let words = match passed.colour.as_str() {
            "white" => passed.name.clone(),
            colour => format!("{} ({colour})", passed.name),
        };
        match places.last_mut() {
            Some((at_m, known)) if (passed.from_start_m - *at_m).abs() < 0.005 => {
                *known += &format!("; {words}")
            }
            _ => places.push((passed.from_start_m, words)),
        }
    }
    rows.extend(places.into_iter().map(|(from_start_m, words)| Row {
        from_start_m,
        lines: wrapped(&words, false),
        bold: false,
    }));
    let finish = format!("finish: {}", ribbon.finish);
    rows.push(Row { from_start_m: ribbon.shown_m, lines: wrapped(&finish, true), bold: true });
    rows
}

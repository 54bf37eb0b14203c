//! The few kinds of things that are drawn.

use kurbo::{Point, Rect, Vec2};
use svg::node::element::Element;
use svg::node::{Node, Text, Value};

use super::lettering::Type;

/// An element with its attributes.
pub(crate) fn element<const N: usize>(name: &str, attributes: [(&str, Value); N]) -> Element {
    let mut element = Element::new(name);
    for (name, value) in attributes {
        element.assign(name, value);
    }
    element
}

/// A group of what is drawn.
pub(crate) fn group(class: &str, parts: impl IntoIterator<Item = Element>) -> Element {
    let mut group = element("g", [("class", class.into())]);
    for part in parts {
        group.append(part);
    }
    group
}

/// What is drawn, moved on the page.
pub(crate) fn moved(mut drawing: Element, by: Vec2) -> Element {
    drawing.assign("transform", format!("translate({} {})", number(by.x), number(by.y)));
    drawing
}

/// A length or coordinate to a tenth of a millimetre of track, without needless decimals.
pub(crate) fn number(value: f64) -> String {
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A place in path data.
pub(crate) fn pair(point: Point) -> String {
    format!("{} {}", number(point.x), number(point.y))
}

/// A number as the value of an attribute.
pub(crate) fn n(value: f64) -> Value {
    number(value).into()
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pen<'a> {
    pub(crate) colour: &'a str,
    pub(crate) width: f64,
}

impl<'a> Pen<'a> {
    /// For shapes that are filled alone.
    pub(crate) const NONE: Self = Self::new("none", 0.0);

    pub(crate) const fn new(colour: &'a str, width: f64) -> Self {
        Self { colour, width }
    }
}

/// A path of which only the line is drawn.
pub(crate) fn stroke(d: String, pen: Pen<'_>) -> Element {
    let (colour, width) = (pen.colour.into(), n(pen.width));
    element("path", [("d", d.into()), ("fill", "none".into()), ("stroke", colour), ("stroke-width", width)])
}

/// A straight line.
pub(crate) fn line(from: Point, to: Point, pen: Pen<'_>) -> Element {
    let ends = [("x1", n(from.x)), ("y1", n(from.y)), ("x2", n(to.x)), ("y2", n(to.y))];
    let mut line = element("line", ends);
    line.assign("stroke", pen.colour);
    line.assign("stroke-width", n(pen.width));
    line
}

/// A box.
pub(crate) fn rect(rect: Rect, fill: &str, pen: Pen<'_>) -> Element {
    let place =
        [("x", n(rect.x0)), ("y", n(rect.y0)), ("width", n(rect.width())), ("height", n(rect.height()))];
    outlined(element("rect", place), fill, pen)
}

/// A round.
pub(crate) fn circle(centre: Point, radius: f64, fill: &str, pen: Pen<'_>) -> Element {
    outlined(element("circle", [("cx", n(centre.x)), ("cy", n(centre.y)), ("r", n(radius))]), fill, pen)
}

fn outlined(mut shape: Element, fill: &str, pen: Pen<'_>) -> Element {
    shape.assign("fill", fill);
    if pen.width > 0.0 {
        shape.assign("stroke", pen.colour);
        shape.assign("stroke-width", n(pen.width));
    }
    shape
}

/// A shape with straight sides.
pub(crate) fn polygon(points: &[Point], fill: &str) -> Element {
    let points: Vec<String> =
        points.iter().map(|point| format!("{},{}", number(point.x), number(point.y))).collect();
    element("polygon", [("points", points.join(" ").into()), ("fill", fill.into())])
}

/// The head of an arrow: where its tip is, which way it points (of length 1), how long and half how broad it is.
pub(crate) fn arrow_head(tip: Point, way: Vec2, long: f64, half_broad: f64) -> Element {
    let (foot, side) = (tip - way * long, Vec2::new(-way.y, way.x) * half_broad);
    polygon(&[tip, foot + side, foot - side], "#000000")
}

/// A line of text that begins at a place on its baseline.
pub(crate) fn text(content: &str, at: Point, letters: Type) -> Element {
    let mut text = element("text", [("x", n(at.x)), ("y", n(at.y)), ("font-size", n(letters.size))]);
    if letters.bold {
        text.assign("font-weight", "bold");
    }
    text.append(Text::new(readable(content)));
    text
}

/// A line of text in the middle of a box.
pub(crate) fn text_in(content: &str, place: Rect, letters: Type) -> Element {
    let baseline = place.center().y + letters.drop() - letters.height() / 2.0;
    let mut text = text(content, Point::new(place.center().x, baseline), letters);
    text.assign("text-anchor", "middle");
    text
}

/// Texts one under the other in lines of a width, from a place at the upper left; and how high they are.
pub(crate) fn texts<'a>(
    texts: impl IntoIterator<Item = (&'a str, Type)>,
    at: Point,
    width: f64,
) -> (Vec<Element>, f64) {
    let mut height = 0.0;
    let mut lines = Vec::new();
    for (words, letters) in texts {
        for line in letters.wrapped(words, width) {
            lines.push(text(&line, Point::new(at.x, at.y + height + letters.drop()), letters));
            height += letters.leading();
        }
    }
    (lines, height)
}

/// What XML can hold: other control characters are shown as what they are, unknown.
pub(crate) fn readable(content: &str) -> String {
    let is_known = |letter: char| {
        matches!(letter, ' '..='\u{d7ff}' | '\u{e000}'..='\u{fffd}' | '\u{10000}'..) && letter != '\u{7f}'
    };
    content
        .chars()
        .map(|letter| match letter {
            '\t' | '\n' | '\r' => ' ',
            letter if is_known(letter) => letter,
            _ => char::REPLACEMENT_CHARACTER,
        })
        .collect()
}

//! How paint is drawn.

use kurbo::Point;
use lane_distance::Form;
use svg::node::element::Element;

use super::ink::{Pen, line};

/// Paint from a place to another: its colour between black edges, each as broad as asked.
pub(crate) fn paint(from: Point, to: Point, colour: &str, (edges, inner): (f64, f64)) -> Vec<Element> {
    let black = line(from, to, Pen::new("#000000", edges));
    match core(colour) {
        "#000000" => vec![black],
        core => vec![black, line(from, to, Pen::new(core, inner))],
    }
}

/// The part of the lane that a mark reaches across, from the inner line.
pub(crate) const fn reach(form: Form) -> (f64, f64) {
    match form {
        Form::Line | Form::Edge | Form::Curve => (0.0, 1.0),
        Form::ShortLine => (0.2, 0.8),
        Form::Tick => (0.0, 0.4),
    }
}

/// The colour of a mark, of those that marks have in the trade; white for others.
pub(crate) fn core(colour: &str) -> &'static str {
    // Of two colours, as in white with blue, the one that other marks lack.
    let known = [
        ("yellow", "#ffd400"),
        ("blue", "#2a6fdb"),
        ("green", "#1f9d55"),
        ("red", "#e03131"),
        ("orange", "#f08c00"),
        ("black", "#000000"),
    ];
    known.iter().find(|(name, _)| colour.contains(name)).map_or("#ffffff", |(_, colour)| *colour)
}

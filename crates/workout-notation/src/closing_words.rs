//! Words that say that lanes are closed.

use crate::phrases::Phrases;

/// What lanes are given to that is no group of runners.
const ELSE: &[&str] =
    &["javelin", "discus", "hammer", "shot", "throws", "jumps", "football", "rugby", "public"];

/// Words that say of the lanes in front of them that they are closed.
pub(crate) const CLOSED: Phrases = Phrases::new(&[
    &[&[
        "closed",
        "closes",
        "closing",
        "shuts",
        "shut",
        "blocked",
        "reserved",
        "unavailable",
        "flooded",
        "waterlogged",
        "icy",
        "frozen",
        "iced",
        "booked",
        "busy",
        "taken",
        "occupied",
        "relaid",
        "repainted",
        "resurfaced",
    ]],
    &[&["coned"], &["off"]],
    &[&["coned"]],
    &[&["has"], &["a"], &["pothole", "puddle", "hole"]],
    &[&["in"], &["use"]],
    &[&["not"], &["to"], &["be"], &["used"]],
    &[&["go", "goes", "going"], &["to"], &["the"], ELSE],
    &[&["go", "goes", "going"], &["to"], ELSE],
    &[&["under"], &["water"]],
    &[&["not"], &["available", "open"]],
    &[&["not"], &["in"], &["use"]],
    &[&["out"], &["of"], &["use", "action", "bounds"]],
    &[&["out"]],
    &[&["off"], &["limits"]],
    &[&["off"], &["-"], &["limits"]],
]);

/// Words that say of the lanes in front of them that they are open, which with a time says when they are closed.
pub(crate) const OPEN: Phrases = Phrases::new(&[
    &[&["back"], &["in"], &["use"]],
    &[&["comes", "back"], &["free", "open"]],
    &[&["opens", "open", "free", "available", "back"], &["again"]],
    &[&["opens", "open", "reopens", "reopen", "opening", "reopening", "free", "available", "back"]],
]);

/// Words that say of the lanes behind them that nobody runs there.
pub(crate) const KEEP_OUT: Phrases = Phrases::new(&[
    &[&["not", "icy", "flooded", "waterlogged", "frozen", "wet"], &["in", "on"]],
    &[&["keep", "stay"], &["out"], &["of"]],
    &[&["keep", "stay"], &["off"]],
    &[&["cant", "cannot", "dont"], &["use"]],
    &[&["can", "don"], &["'"], &["t"], &["use"]],
    &[&["closed", "shut", "no", "not", "avoid", "avoiding", "without"]],
]);

//! Words that say that lanes are closed.

use crate::phrases::Phrases;

/// Words that say of the lanes in front of them that they are closed.
pub(crate) const CLOSED: Phrases = Phrases::new(&[
    &[&[
        "closed",
        "shut",
        "blocked",
        "reserved",
        "unavailable",
        "flooded",
        "waterlogged",
        "icy",
        "frozen",
        "iced",
    ]],
    &[&["under"], &["water"]],
    &[&["not"], &["available", "open"]],
    &[&["not"], &["in"], &["use"]],
    &[&["out"], &["of"], &["use", "action", "bounds"]],
    &[&["off"], &["limits"]],
    &[&["off"], &["-"], &["limits"]],
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

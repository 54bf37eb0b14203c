//! Words for a rest.

/// Words for a recovery that follows, or that stood before.
pub(crate) const RESTS: &[&str] = &[
    "rest",
    "rests",
    "rec",
    "recs",
    "recovery",
    "recoveries",
    "recover",
    "r",
    "rr",
    "recov",
    "pause",
    "pauses",
    "ri",
];

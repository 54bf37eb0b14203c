//! How fast people go between runs: common practice, no source.

/// How fast people walk back to a start, in metres a second.
pub const WALK_M_PER_S: f64 = 1.4;

/// How fast people jog between runs, in metres a second.
pub(crate) const JOG_M_PER_S: f64 = 2.5;

/// A jog that must be faster than this is a run, in metres a second.
pub(crate) const FASTEST_JOG_M_PER_S: f64 = 4.0;

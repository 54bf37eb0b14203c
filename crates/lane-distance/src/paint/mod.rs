//! Marks, sets of marks, and how a spot is read by them.

pub(crate) mod base;
pub(crate) mod landmark;
pub(crate) mod mark;
pub(crate) mod paint;
pub(crate) mod placement;

//! The lanes of a plan unrolled, to scale, as SVG.

mod ribbon;
mod spread;
pub(crate) mod strip;
pub(crate) mod strip_part;
mod strip_row;
pub(crate) mod unrolled;

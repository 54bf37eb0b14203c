//! What every view of a plan shows: blocks, rows, waves and cones.

pub(crate) mod cone_row;
pub(crate) mod place_row;
pub(crate) mod sheet;
pub(crate) mod sheet_block;
pub(crate) mod sheet_row;
pub(crate) mod spans;
pub(crate) mod wave;
pub(crate) mod week_sheet;

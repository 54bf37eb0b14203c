//! Pieces, paths, lanes and points: where the running lines lie.

pub(crate) mod course;
pub(crate) mod lane;
pub(crate) mod lane_number;
pub(crate) mod line;
pub(crate) mod path;
pub(crate) mod piece;
pub(crate) mod point;
pub(crate) mod spot;
pub(crate) mod station;

//! Answers that the track alone gives.

pub(crate) mod choices;
pub(crate) mod curve;
pub(crate) mod lane_table;
pub(crate) mod lines_near;
pub(crate) mod mark_table;
pub(crate) mod measurement;
pub(crate) mod round_distances;
pub(crate) mod view;

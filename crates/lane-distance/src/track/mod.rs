//! A track as its file describes it: lanes, paint, hazards and what is closed.

pub(crate) mod built_in;
pub(crate) mod ground_checks;
pub(crate) mod hazard;
pub(crate) mod key;
pub(crate) mod lane_error;
pub(crate) mod layout;
pub(crate) mod paint_checks;
pub(crate) mod track;
pub(crate) mod track_fault;

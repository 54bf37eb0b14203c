//! A track as its file describes it: lanes, paint, hazards and what is closed.

pub(crate) mod built_in;
pub(crate) mod closed_spec;
pub(crate) mod hazard;
pub(crate) mod key;
pub(crate) mod lane_error;
pub(crate) mod layout;
pub(crate) mod one_or_many;
pub(crate) mod tolerance;
pub(crate) mod track;
pub(crate) mod track_fault;
pub(crate) mod track_spec;

//! What is said of a plan.

pub(crate) mod day;
pub(crate) mod file_fault;
pub(crate) mod occasion;
pub(crate) mod take_care;
pub(crate) mod target;
pub(crate) mod track_fault;
pub(crate) mod walk_words;

//! The kinds of file that an answer can be written as.

pub(crate) mod format;
pub(crate) mod rendered;

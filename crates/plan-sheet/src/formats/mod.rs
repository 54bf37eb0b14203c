//! The kinds of file that an answer can be written as.

pub(crate) mod format;
pub(crate) mod own_picture;
pub(crate) mod plan_size;
pub(crate) mod planned;
pub(crate) mod rendered;

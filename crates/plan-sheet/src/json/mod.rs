//! Plans, weeks and answers as JSON: the values, and beside them the words.

pub(crate) mod care;
mod doubt_json;
pub(crate) mod finding;
pub(crate) mod lines;
pub(crate) mod plan_json;
pub(crate) mod week_json;

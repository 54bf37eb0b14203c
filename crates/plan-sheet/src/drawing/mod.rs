//! What map and strips are drawn with.

mod advances;
pub(crate) mod code;
pub(crate) mod flag;
pub(crate) mod ink;
pub(crate) mod lettering;
pub(crate) mod paint_style;
pub(crate) mod picture;
pub(crate) mod sign;

//! What map and strips are drawn with.

pub(crate) mod code;
pub(crate) mod flag;
pub(crate) mod fonts;
pub(crate) mod ink;
pub(crate) mod lettering;
pub(crate) mod paint_style;
pub(crate) mod picture;
pub(crate) mod sign;

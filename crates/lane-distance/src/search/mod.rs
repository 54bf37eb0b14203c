//! Where a run starts and finishes, and how far it is.

pub(crate) mod bend_share;
pub(crate) mod curved_start;
pub(crate) mod join;
pub(crate) mod lane_run;
pub(crate) mod nearest;
pub(crate) mod on_paint_run;
pub(crate) mod pair;
pub(crate) mod place;
pub(crate) mod route;
pub(crate) mod search;
pub(crate) mod stagger;
mod whole_part;

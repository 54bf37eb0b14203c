//! Where a run starts and finishes, and how far it is.

pub(crate) mod bend_share;
pub(crate) mod curved_start;
pub(crate) mod join;
pub(crate) mod measurement;
pub(crate) mod pair;
pub(crate) mod place;
pub(crate) mod run;
pub(crate) mod search;
pub(crate) mod stagger;

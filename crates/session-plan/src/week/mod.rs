//! What a week adds up to.

pub(crate) mod pace_band;
pub(crate) mod week;
pub(crate) mod week_entry;
pub(crate) mod week_load;

//! Who runs, when and under which rules of the venue.

pub(crate) mod bests;
pub(crate) mod fastest;
pub(crate) mod hours;
pub(crate) mod house_rules;
pub(crate) mod session;
pub(crate) mod timezone;
pub(crate) mod venue;

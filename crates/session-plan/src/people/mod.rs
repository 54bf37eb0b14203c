//! Who runs, when and under which rules of the venue.

pub(crate) mod age_group;
pub(crate) mod bests;
mod clocks;
pub(crate) mod fastest;
pub(crate) mod getting_up_to_speed;
pub(crate) mod hours;
pub(crate) mod house_rules;
pub(crate) mod lane_closure;
pub(crate) mod late_changes;
pub(crate) mod late_fault;
pub(crate) mod page_address;
pub(crate) mod session;
pub(crate) mod session_changes;
pub(crate) mod shares;
pub(crate) mod since;
pub(crate) mod sprint_speed;
pub(crate) mod time_of_day;
pub(crate) mod timezone;
pub(crate) mod venue;
pub(crate) mod wind;

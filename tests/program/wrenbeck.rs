//! The sessions of the demonstration.

/// Every session of Wrenbeck, in the order of the week.
pub(crate) const WRENBECK: [&str; 8] = [
    "monday-two-groups",
    "tuesday-sprints",
    "wednesday-hurdles-and-relay",
    "thursday-middle-distance",
    "friday-starts",
    "saturday-alone",
    "saturday-club-evening",
    "sunday-easy",
];

/// The file of one of them.
pub(crate) fn session(name: &str) -> String {
    format!("sessions/wrenbeck/{name}.yaml")
}

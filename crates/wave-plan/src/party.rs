//! A group on its own clock.

use crate::itinerary::Itinerary;

/// A group on its own clock: it shares lanes, finish and timers with the others, and waits for nothing else.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Party {
    /// When it can begin, in seconds from the start of the evening.
    pub begins_s: f64,
    /// What it does, one after the other. Everybody is done with one before anybody begins the next.
    pub itineraries: Vec<Itinerary>,
}

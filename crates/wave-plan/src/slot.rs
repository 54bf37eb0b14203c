//! The place of an itinerary in the evening.

use crate::itinerary::Itinerary;

/// An itinerary in the evening of its party. Those of one party follow one another.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slot<'a> {
    /// The party, counted from 0.
    pub(crate) party: usize,
    /// How long after the end of the one before it can begin; for the first of a party, after the start of
    /// the evening. In seconds.
    pub(crate) delay_s: f64,
    pub(crate) itinerary: &'a Itinerary,
    /// The wave that each runner had in a plan before, counted from 0.
    pub(crate) before: &'a [Option<usize>],
}

//! Who runs when.

/// Who runs when, in all parties.
#[derive(Clone, Debug, PartialEq)]
pub struct EveningPlan {
    /// For each party, in the order given, its itineraries in their order.
    pub parties: Vec<Vec<ItineraryPlan>>,
    /// When the last runner is done, in seconds from the start.
    pub end_s: f64,
    /// No plan ends before this, in seconds from the start.
    pub bound_s: f64,
    /// Whether it is proven that no plan ends before this one.
    pub is_proven: bool,
}

/// One itinerary, with its times.
#[derive(Clone, Debug, PartialEq)]
pub struct ItineraryPlan {
    /// Its waves in the order of their starts.
    pub waves: Vec<WavePlan>,
    /// When its first wave could begin, in seconds from the start of the evening.
    pub begins_s: f64,
    /// When its last runner is done, in seconds from the start of the evening.
    pub end_s: f64,
    /// No plan of it alone lasts less than this, in seconds.
    pub bound_s: f64,
    /// Whether it is proven that no plan of it lasts less than this one.
    pub is_proven: bool,
}

/// One wave.
#[derive(Clone, Debug, PartialEq)]
pub struct WavePlan {
    /// Its members, as indices into the runners of the itinerary, the fastest first.
    pub members: Vec<usize>,
    /// When each of its runs starts, in seconds from the start of the evening.
    pub go_s: Vec<f64>,
    /// For each of its runs, the lane of each member, also of those who have done all theirs.
    pub lanes: Vec<Vec<u8>>,
}

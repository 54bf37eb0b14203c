//! Who runs when.

/// Who runs when.
#[derive(Clone, Debug, PartialEq)]
pub struct SquadPlan {
    /// For each set, in the order given, its waves in the order of their starts.
    pub sets: Vec<Vec<WavePlan>>,
    /// When the last runner is done, in seconds from the start.
    pub end_s: f64,
    /// No plan ends before this, in seconds from the start.
    pub bound_s: f64,
    /// Whether it is proven that no plan ends before this one.
    pub is_proven: bool,
}

/// One wave.
#[derive(Clone, Debug, PartialEq)]
pub struct WavePlan {
    /// Its members, as indices into the runners of the set, the fastest first.
    pub members: Vec<usize>,
    /// When each repetition starts, in seconds from the start of the plan.
    pub go_s: Vec<f64>,
    /// For each repetition, the lane of each member.
    pub lanes: Vec<Vec<u8>>,
}

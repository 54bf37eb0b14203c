//! What keeps waves apart.

/// How many people time the finishes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Timers {
    /// One: no two finish windows may overlap.
    #[default]
    One,
    /// Two: at most two finish windows may overlap.
    Two,
    /// One for each party: windows of one party may not overlap.
    EachGroup,
    /// Nobody times: windows may overlap freely.
    Untimed,
}

/// What keeps waves apart. A finish window lasts from the fastest member's finish to the slowest's.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimingRules {
    /// The least time between the finish windows of two waves, in seconds.
    pub timing_gap_s: f64,
    /// The least time between two starts, in seconds.
    pub start_gap_s: f64,
    /// How many people time the finishes.
    pub timers: Timers,
}

impl TimingRules {
    /// The least time from the end of one itinerary of a party to the next: its first wave stands on its start, and
    /// nothing of the one before is in its way.
    pub(crate) fn least_break_s(&self) -> f64 {
        STAND_S.max(self.start_gap_s).max(self.timing_gap_s)
    }
}

impl Default for TimingRules {
    fn default() -> Self {
        Self { timing_gap_s: 5.0, start_gap_s: 10.0, timers: Timers::One }
    }
}

/// The least distance between two runners in one lane, in metres.
pub(crate) const FOLLOW_M: f64 = 10.0;

/// How long before its go a wave stands on its start, in seconds.
pub(crate) const STAND_S: f64 = 10.0;

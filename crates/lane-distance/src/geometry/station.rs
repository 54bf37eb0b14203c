//! A line square across the track.

/// A line square across all lanes, somewhere along the lap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Index of the piece of the path.
    pub piece: usize,
    /// Part of the piece that lies behind, 0 at its start and 1 at its end.
    pub fraction: f64,
}

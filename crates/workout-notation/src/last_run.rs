//! What the run was that was read last, as far as what follows depends on it.

/// What the run was that was read last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum LastRun {
    /// A plain distance, in metres.
    Metres(f64),
    /// Plain laps.
    Laps(f64),
    /// A time, in seconds.
    Timed(f64),
    /// A flying run.
    Flying,
    /// Another kind.
    Other,
}

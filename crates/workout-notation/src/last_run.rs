//! What the run was that was read last, as far as what follows depends on it.

use crate::track_part::TrackPart;

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
    /// A straight or a bend.
    Part(TrackPart),
    /// Another kind.
    Other,
}

impl LastRun {
    /// How long a slow runner takes for it, in seconds, where it is a plain distance.
    pub(crate) fn slowest_s(self) -> Option<f64> {
        match self {
            Self::Metres(metres) => Some(metres / slowest_m_s(metres)),
            Self::Laps(laps) => Some(laps * 400.0 / slowest_m_s(laps * 400.0)),
            _ => None,
        }
    }

    /// Whether somebody could run it in this time, in seconds: a child as well as the fastest of all.
    pub(crate) fn is_likely_time(self, seconds: f64) -> bool {
        let metres = match self {
            Self::Metres(metres) => metres,
            Self::Laps(laps) => laps * 400.0,
            _ => return false,
        };
        let fastest_m_s = match metres {
            ..=450.0 => 10.6,
            ..=1100.0 => 8.0,
            _ => 7.2,
        };
        (metres / fastest_m_s..=metres / slowest_m_s(metres)).contains(&seconds)
    }
}

/// How fast a child runs so many metres, in metres a second.
fn slowest_m_s(metres: f64) -> f64 {
    if metres <= 600.0 { 4.0 } else { 3.2 }
}

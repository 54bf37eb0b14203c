//! Pace bands: how the metres of a week are sorted by speed.

use serde::Serialize;

use crate::plan::rep::Rep;

/// A band of speeds. A run belongs to the band of its own target: its distance over its target time,
/// for a range, the middle. Without a target it belongs to the last band, and so does every
/// run-in.
///
/// | band | speed | 400 m in |
/// |---|---|---|
/// | below 4 m/s | jogs and easy runs | more than 1:40 |
/// | 4 to 5.5 m/s | steady to threshold | 1:40 to 1:12.7 |
/// | 5.5 to 7 m/s | race pace of the middle distances | 1:12.7 to 57.1 s |
/// | from 7 m/s | sprints | 57.1 s or less |
/// | no target | | |
///
/// The cuts are round numbers, not physiology: a coach of beginners and one of internationals would
/// each give the bands other names.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PaceBand {
    /// The slowest speed in it, in metres a second; nothing where it has no target.
    pub from_m_per_s: Option<f64>,
    /// The speed that is too fast for it, in metres a second.
    pub below_m_per_s: Option<f64>,
}

/// The pace bands, the slowest first; runs without a target come last.
pub const PACE_BANDS: [PaceBand; 5] = [
    PaceBand { from_m_per_s: Some(0.0), below_m_per_s: Some(4.0) },
    PaceBand { from_m_per_s: Some(4.0), below_m_per_s: Some(5.5) },
    PaceBand { from_m_per_s: Some(5.5), below_m_per_s: Some(7.0) },
    PaceBand { from_m_per_s: Some(7.0), below_m_per_s: None },
    PaceBand { from_m_per_s: None, below_m_per_s: None },
];

/// The place of a run's band among [`PACE_BANDS`].
pub(crate) fn band_of(rep: &Rep) -> usize {
    let target_s = rep.target_s.map(|to_s| rep.target_from_s.map_or(to_s, |from_s| (from_s + to_s) / 2.0));
    let speed = target_s.filter(|target_s| *target_s > 0.0).map(|target_s| rep.distance_m / target_s);
    speed.map_or(PACE_BANDS.len() - 1, band_at)
}

fn band_at(m_per_s: f64) -> usize {
    PACE_BANDS
        .iter()
        .position(|band| {
            band.from_m_per_s.is_some_and(|from| m_per_s >= from)
                && band.below_m_per_s.is_none_or(|below| m_per_s < below)
        })
        .unwrap_or(PACE_BANDS.len() - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_speed_has_one_band_and_a_cut_belongs_to_the_faster() {
        for (speed, place) in [(0.0, 0), (3.999, 0), (4.0, 1), (5.499, 1), (5.5, 2), (7.0, 3), (12.0, 3)] {
            assert_eq!(band_at(speed), place, "{speed} m/s");
        }
    }
}

//! How fast somebody sprints, from their bests.

use crate::people::bests::Bests;
use crate::people::fastest::fastest_s;
use crate::people::getting_up_to_speed::GettingUpToSpeed;

/// A best over 200 m in terms of one over 100 m: common practice, no source.
const TIMES_100: f64 = 2.03;

/// A club athlete's best over 100 m in seconds, where none is known: common practice, no source.
const USUAL_100_S: f64 = 15.0;

/// The last part of a leg is run at so much of the top speed at least: whatever bests say.
const LEAST_SHARE: f64 = 0.75;

/// How fast somebody sprints.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SprintSpeed {
    /// The speed that the runner gets up to, in metres a second.
    pub(crate) top_m_per_s: f64,
    /// The speed near the end of a leg of about 100 m, in metres a second.
    pub(crate) end_m_per_s: f64,
    /// Whether it is a club athlete's, as nothing is known of the runner.
    pub(crate) is_usual: bool,
}

impl SprintSpeed {
    /// By the nearest bests from which one over 100 m or 200 m can be had; a club athlete's where there is none.
    pub(crate) fn from_bests<'b>(mut bests: impl Iterator<Item = &'b Bests>) -> Self {
        let known = bests.find_map(|bests| {
            let (over_100, over_200) = (bests.over(100.0).ok(), bests.over(200.0).ok());
            Some(match (over_100, over_200) {
                (Some(over_100_s), over_200) => {
                    Self::from_times(over_100_s, over_200.unwrap_or(TIMES_100 * over_100_s))
                }
                (None, over_200) => Self::from_times(over_200? / TIMES_100, over_200?),
            })
        });
        let usual = || Self { is_usual: true, ..Self::from_times(USUAL_100_S, TIMES_100 * USUAL_100_S) };
        known.unwrap_or_else(usual)
    }

    /// Of somebody who runs the end of a leg at a speed.
    pub(crate) fn from_end(end_m_per_s: f64) -> Self {
        let over_100_s = 100.0 / end_m_per_s / (TIMES_100 - 1.0);
        Self { end_m_per_s, ..Self::from_times(over_100_s, TIMES_100 * over_100_s) }
    }

    /// From bests over 100 m and 200 m: the second 100 m of a 200 m is run as a leg ends.
    fn from_times(over_100_s: f64, over_200_s: f64) -> Self {
        let over_100_s = over_100_s.max(fastest_s(100.0));
        let GettingUpToSpeed { top_m_per_s } = GettingUpToSpeed::from_time(over_100_s, 100.0);
        let end_m_per_s = 100.0 / (over_200_s - over_100_s).max(f64::EPSILON);
        let end_m_per_s = end_m_per_s.clamp(LEAST_SHARE * top_m_per_s, top_m_per_s);
        Self { top_m_per_s, end_m_per_s, is_usual: false }
    }

    /// The same from a standing start.
    pub(crate) const fn getting_up(self) -> GettingUpToSpeed {
        GettingUpToSpeed { top_m_per_s: self.top_m_per_s }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn speed(times: &[(f64, f64)]) -> SprintSpeed {
        SprintSpeed::from_bests([&Bests::new(times.to_vec(), 1.06)].into_iter())
    }

    #[test]
    fn a_leg_ends_as_the_second_half_of_a_200() {
        assert!((speed(&[(100.0, 11.9), (200.0, 24.2)]).end_m_per_s - 100.0 / 12.3).abs() < 1e-9);
        // A 200 m alone, or a 100 m alone, stands for the other.
        let (long, short) = (speed(&[(200.0, 2.03 * 12.0)]), speed(&[(100.0, 12.0)]));
        assert!((long.top_m_per_s - short.top_m_per_s).abs() < 1e-9);
        assert!((long.end_m_per_s - short.end_m_per_s).abs() < 1e-9);
        assert!((SprintSpeed::from_end(short.end_m_per_s).top_m_per_s - short.top_m_per_s).abs() < 1e-9);
    }

    #[test]
    fn without_a_best_a_club_athlete_stands_in() {
        let (nothing, far) = (speed(&[]), speed(&[(1500.0, 280.0)]));
        assert!(nothing.is_usual && nothing == far);
        assert!(!speed(&[(200.0, 26.0)]).is_usual);
    }

    #[test]
    fn odd_bests_give_a_speed_all_the_same() {
        for times in [vec![(100.0, 30.0), (200.0, 25.0)], vec![(100.0, 0.1)], vec![(100.0, 1e6)]] {
            let speed = speed(&times);
            assert!(speed.top_m_per_s > 0.0 && speed.end_m_per_s > 0.0, "{times:?}: {speed:?}");
            assert!(speed.getting_up().time_s(60.0).is_finite(), "{times:?}");
        }
    }
}

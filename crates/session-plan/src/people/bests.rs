//! Bests, race paces, and targets.

use serde::Serialize;
use workout_notation::Pace;

use crate::people::fastest::power_law;

/// Riegel's exponent.
pub const RIEGEL_EXPONENT: f64 = 1.06;

/// The times that Riegel's law is used for, in seconds: from 1:30 to 4 h.
pub const RIEGEL_RANGE_S: std::ops::RangeInclusive<f64> = 90.0..=14_400.0;

/// Carries a race time over to another distance by Riegel's power law: t₂ = t₁·(d₂ / d₁)^k.
///
/// P. S. Riegel, "Athletic Records and Human Endurance", American Scientist 69 (1981): k = 1.06 for
/// running. The law describes races that last some minutes to some hours; outside 1:30 to 4 h this
/// refuses to answer.
///
/// ```
/// use session_plan::riegel;
///
/// // 5 km in 20:00 carried to 10 km: 20 min × 2^1.06 = 41:42.
/// let time_s = riegel(1200.0, 5000.0, 10_000.0, 1.06)?;
/// assert!((time_s - 2501.9).abs() < 0.1);
/// assert!(riegel(52.0, 400.0, 800.0, 1.06).is_err());
/// # Ok::<(), session_plan::TargetError>(())
/// ```
///
/// # Errors
///
/// [`TargetError::OutsideRiegel`] where one of the times is below 1:30 or above 4 h.
pub fn riegel(time_s: f64, from_m: f64, to_m: f64, exponent: f64) -> Result<f64, TargetError> {
    let carried_s = time_s * libm::pow(to_m / from_m, exponent);
    for (seconds, metres) in [(time_s, from_m), (carried_s, to_m)] {
        if !RIEGEL_RANGE_S.contains(&seconds) {
            return Err(TargetError::OutsideRiegel { from_m, to_m, seconds, metres });
        }
    }
    Ok(carried_s)
}

/// Why there is no target.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "kind")]
pub enum TargetError {
    /// No best is known at all.
    #[serde(rename = "no best known")]
    NoBest {
        /// The distance, in metres.
        metres: f64,
    },
    /// The only bests that are known cannot be carried over.
    #[serde(rename = "outside Riegel's law")]
    OutsideRiegel {
        /// The distance whose time is known, in metres.
        from_m: f64,
        /// The distance that it was to be carried to, in metres.
        to_m: f64,
        /// The time that is out of range, in seconds.
        seconds: f64,
        /// The distance of that time, in metres.
        metres: f64,
    },
}

/// Best times over race distances, and how to carry them to others.
#[derive(Clone, Debug, PartialEq)]
pub struct Bests {
    /// Distance in metres and time in seconds, the shortest distance first.
    times: Vec<(f64, f64)>,
    /// Riegel's exponent.
    pub exponent: f64,
}

impl Default for Bests {
    fn default() -> Self {
        Self { times: Vec::new(), exponent: RIEGEL_EXPONENT }
    }
}

impl Bests {
    /// Best times, each a distance in metres and a time in seconds.
    pub fn new(mut times: Vec<(f64, f64)>, exponent: f64) -> Self {
        times.sort_by(|a, b| a.0.total_cmp(&b.0));
        Self { times, exponent }
    }

    /// The times that are known: distance in metres and time in seconds, the shortest distance first.
    pub fn times(&self) -> &[(f64, f64)] {
        &self.times
    }

    /// Whether none is known.
    pub const fn is_empty(&self) -> bool {
        self.times.is_empty()
    }

    /// The best over a distance, in seconds: the one that is known; between two that are known, the time on the power
    /// law through both; beyond them, the nearest carried over by Riegel's law.
    ///
    /// Between neighbours t = t₁·(d / d₁)^k with k = ln(t₂ / t₁) / ln(d₂ / d₁): Riegel's law with the athlete's own
    /// exponent, which holds for sprints as well, as both ends are known.
    ///
    /// ```
    /// use session_plan::Bests;
    ///
    /// let bests = Bests::new(vec![(400.0, 56.0), (800.0, 128.0)], 1.06);
    /// // 56 s × 1.5^(ln(128 / 56) / ln 2): 600 m in 1:30.8.
    /// assert!((bests.over(600.0)? - 90.82).abs() < 0.01);
    /// assert_eq!(bests.over(400.0)?, 56.0);
    /// # Ok::<(), session_plan::TargetError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`TargetError`] where none is known, or it cannot be carried over.
    pub fn over(&self, metres: f64) -> Result<f64, TargetError> {
        let known = self.times.iter().find(|(known_m, _)| (known_m - metres).abs() < 1e-6);
        let below = self.times.iter().rev().find(|(known_m, _)| *known_m < metres);
        let above = self.times.iter().find(|(known_m, _)| *known_m > metres);
        match (known, below, above) {
            (Some((_, time_s)), ..) => Ok(*time_s),
            (None, Some(below), Some(above)) => Ok(power_law(*below, *above, metres)),
            (None, Some((from_m, time_s)), None) | (None, None, Some((from_m, time_s))) => {
                riegel(*time_s, *from_m, metres, self.exponent)
            }
            (None, None, None) => Err(TargetError::NoBest { metres }),
        }
    }

    /// The target of a run: its time, or the faster and the slower of two.
    ///
    /// ```
    /// use session_plan::Bests;
    /// use workout_notation::Pace;
    ///
    /// let bests = Bests::new(vec![(800.0, 128.0)], 1.06);
    /// let rate = Pace::Rate { seconds: 75.0, per_m: 400.0 };
    /// assert_eq!(bests.target(&rate, 600.0)?, (112.5, None));
    /// assert_eq!(bests.target(&Pace::Race(800.0), 200.0)?, (32.0, None));
    /// assert_eq!(bests.target(&Pace::Percent(80.0), 800.0)?, (160.0, None));
    /// let slower = Pace::OffRace { race_m: 800.0, seconds: 2.0, per_m: Some(400.0) };
    /// assert_eq!(bests.target(&slower, 200.0)?, (33.0, None));
    /// # Ok::<(), session_plan::TargetError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`TargetError`] where the pace needs a best that is not known or cannot be carried over.
    pub fn target(&self, pace: &Pace, distance_m: f64) -> Result<(f64, Option<f64>), TargetError> {
        Ok(match *pace {
            Pace::Time { seconds, to_s } => (seconds, to_s),
            Pace::Rate { seconds, per_m } => (seconds * distance_m / per_m, None),
            Pace::Percent(percent) => (self.over(distance_m)? / percent * 100.0, None),
            Pace::Race(race_m) => (self.over(race_m)? * distance_m / race_m, None),
            Pace::OffRace { race_m, seconds, per_m } => {
                let slower_s = seconds * per_m.map_or(1.0, |per_m| distance_m / per_m);
                (self.over(race_m)? * distance_m / race_m + slower_s, None)
            }
        })
    }
}

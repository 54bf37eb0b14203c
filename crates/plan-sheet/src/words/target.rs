//! The time that a run is to take, in words.

use crate::words::numbers::{clock, listed};
use session_plan::{Rep, TargetError};
use workout_notation::MILE_M;

/// The target of a run: a time, or a range of times.
pub(crate) fn target(rep: &Rep) -> Option<String> {
    let to = clock(rep.target_s?);
    Some(match rep.target_from_s {
        Some(from_s) => format!("{} to {to}", clock(from_s)),
        None => to,
    })
}

/// Why there is no target, and over which distances.
pub(crate) fn no_target(why: &TargetError, to_m: &[f64]) -> String {
    let distances = listed(to_m);
    match why {
        TargetError::NoBest { .. } if *to_m == [MILE_M] => "no best is known for a mile".to_owned(),
        TargetError::NoBest { .. } => format!("no best is known for {distances} m"),
        TargetError::OutsideRiegel { from_m, seconds, metres, .. } => format!(
            "a best over {from_m} m cannot be carried to {distances} m: Riegel's law holds for races of 1:30 to 4 h, \
             not for {metres} m in {}",
            clock(*seconds)
        ),
    }
}

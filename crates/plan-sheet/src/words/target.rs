//! The time that a run is to take, in words.

use crate::words::numbers::clock;
use session_plan::Rep;

/// The target of a run: a time, or a range of times.
pub(crate) fn target(rep: &Rep) -> Option<String> {
    let to = clock(rep.target_s?);
    Some(match rep.target_from_s {
        Some(from_s) => format!("{} to {to}", clock(from_s)),
        None => to,
    })
}

//! How coaches write a block of repetitions.
//!
//! | written | read as |
//! |---|---|
//! | `6 x 200` | six repetitions of 200 m; `x`, `X`, `×` and `*` are the same |
//! | `200` | one repetition |
//! | `6x200m`, `2 x 1km`, `4 x 110yd`, `1 mile` | units: m (where none is written), km, yd, mile |
//! | `in lane 2`, `lane 2` | all in lane 2 |
//! | `in lanes 2-5`, `lanes 2,4,6` | each repetition in each of these lanes, side by side |
//! | `on the bend` | each wholly on one bend |
//! | `on the home straight`, `on the back straight` | on that straight with its chute |
//! | `on the home straight the other way` | on that straight, against the direction of running |
//! | `@ 48`, `@ 48s`, `@ 1:12` | target time of each repetition |
//! | `rest 90s`, `rest 3min`, `rest 3:00` | standing rest between repetitions |
//!
//! ```
//! use session_plan::Block;
//!
//! let block = Block::parse("3 x 300 @ 48s rest 3min in lanes 2-5").expect("it is well formed");
//! assert_eq!(block.count, 3);
//! assert_eq!(block.distance.metres, 300.0);
//! assert_eq!(block.lanes.expect("it names lanes").numbers, [2, 3, 4, 5]);
//! assert_eq!(block.target.expect("it has a target").seconds, 48.0);
//! assert_eq!(block.rest.expect("it has a rest").seconds, 180.0);
//! ```
//!
//! Reading is total: any text gives a block or problems, in time linear in the text. Several problems
//! in one text are all reported.

mod block;
mod parser;
mod token;

use crate::problem::Problem;

pub use block::{Block, Distance, Lanes, MOST_REPS, PlaceWords, Seconds};

/// Reads a distance alone, in metres: `200`, `1km`, `110 yd`.
///
/// ```
/// assert_eq!(session_plan::notation::distance("1 mile"), Ok(1609.344));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn distance(text: &str) -> Result<f64, Problem> {
    parser::distance(text)
}

/// Reads a duration alone, in seconds: `48`, `48.5s`, `3min`, `1:12`.
///
/// ```
/// assert_eq!(session_plan::notation::seconds("1:12.5"), Ok(72.5));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn seconds(text: &str) -> Result<f64, Problem> {
    parser::seconds(text)
}

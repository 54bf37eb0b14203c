//! How coaches write a block of a workout.
//!
//! Spacing and case do not matter; `x`, `X`, `×` and `*` are the same; `+` and `,` are the same
//! between runs. A number without a unit is metres where a distance is meant, seconds where a time is.
//!
//! | written | read as |
//! |---|---|
//! | `6 x 200`, `200` | repetitions of one distance |
//! | `3 x (4 x 200)`, `3 x 4 x 200`, `3 sets of 4 x 200` | sets |
//! | `300 + 200 + 100`, `2 x (500, 300, 200)` | runs of several distances |
//! | `200-400-600-400-200` | a ladder |
//! | `200m`, `1km`, `110yd`, `1 mile`, `2 laps` | units; a lap is a lap of the lane that is run |
//! | `flying 30 with 20 run-in` | a rolling start: 20 m to get up to speed, then 30 m |
//! | `110h`, `110h to hurdle 5` | over hurdles, to the finish or to a hurdle |
//! | `exchange zone 2` | a baton exchange through the second takeover zone |
//! | `in-and-out 50s`, `800 in-and-out 50s` | fast and easy by turns of 50 m, over a lap or a distance |
//! | `20 min steady` | a run by time |
//! | `in lane 2`, `lanes 2-5`, `lanes 2,4,6` | the lanes; several run side by side |
//! | `on the bend`, `on the home straight`, `on the back straight` | a place |
//! | `on the home straight the other way`, `against the wind` | a straight, run the other way |
//! | `from the 400 m start`, `to the finish line`, `finishing at …` | an end that is fixed |
//! | `starting together` | a group start on a curved line, breaking for the inside |
//! | `@ 32`, `@ 32s`, `@ 1:12`, `in 48-50s` | a time for each run |
//! | `@ 75/400`, `@ 3:20/km` | a pace |
//! | `@ 90%`, `@ 800 pace`, `@ 5k pace` | a part of the speed of a best; the pace of a race |
//! | `easy`, `steady`, `hard`, … | an effort |
//! | `rest 90s`, `rec 2min` | from the end of a run to the next start |
//! | `off 3:00` | from one start to the next |
//! | `rest 2min / 8min`, `8min between sets` | between runs, and between sets |
//! | `jog 200`, `walk 100` | on to where the next run starts |
//! | `walk back` | back to the start |
//! | `standing` | the next run starts where the last ended |
//! | `changing ends` | the next run starts at other paint, and so on by turns |
//! | `warm-up 15 min`, `drills` | lines that are not runs |
//!
//! ```
//! use session_plan::notation::{Block, Body, Gap, Pace};
//!
//! let block = Block::parse("3 x 300 @ 48s rest 3min in lanes 2-5").expect("it is well formed");
//! let steps = block.steps();
//! assert_eq!(steps.len(), 3);
//! assert_eq!(steps[0].lanes.expect("it names lanes").value, [2, 3, 4, 5]);
//! assert_eq!(steps[0].pace.expect("it has a pace").value, Pace::Time { seconds: 48.0, to_s: None });
//! assert_eq!(steps[0].gap, Some(Gap::Rest(180.0)));
//! assert_eq!(steps[2].gap, None); // nothing follows the last run
//! ```
//!
//! What is said behind a run in a list means that run where it is a time; lanes, places, recoveries
//! and paces said last mean the whole list:
//!
//! ```
//! use session_plan::notation::{Block, Pace};
//!
//! let block = Block::parse("2 x (300 @ 48 + 200 @ 30) rest 2min / 8min in lane 3").expect("it is well formed");
//! let times: Vec<_> = block.steps().iter().map(|step| step.pace.map(|pace| pace.value)).collect();
//! let time = |seconds| Some(Pace::Time { seconds, to_s: None });
//! assert_eq!(times, [time(48.0), time(30.0), time(48.0), time(30.0)]);
//! assert_eq!(block.to_string(), "2 x (300 @ 48s + 200 @ 30s) in lanes 3 rest 2:00 8:00 between sets");
//! ```
//!
//! Reading is total: any text gives a block or problems, in time linear in the text. Several problems
//! in one text are all reported. A block that is printed and read again is the same block.

mod block;
mod clauses;
mod cursor;
mod effort;
mod list;
mod note;
mod pace;
mod parser;
mod print;
mod quantity;
mod recovery;
mod run;
mod spanned;
mod token;
mod vocabulary;
mod wherein;

use crate::problem::Problem;

pub use block::{
    Block, Body, Details, Gap, Group, Item, Length, MOST_REPS, Pace, Recovery, Run, RunKind, Step, Way,
};
pub use spanned::Spanned;

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

/// Reads lanes alone: `2`, `2-5`, `2,4,6`.
///
/// ```
/// assert_eq!(session_plan::notation::lanes("2-4, 6"), Ok(vec![2, 3, 4, 6]));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn lanes(text: &str) -> Result<Vec<u8>, Problem> {
    parser::lanes(text)
}

/// Reads the distance of a race alone, in metres, up to 100 km: `800`, `5k`, `mile`.
///
/// ```
/// assert_eq!(session_plan::notation::race_distance("mile"), Ok(1609.344));
/// ```
///
/// # Errors
///
/// A [`Problem`] with its place in the text.
pub fn race_distance(text: &str) -> Result<f64, Problem> {
    parser::race_distance(text)
}

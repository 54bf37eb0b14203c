//! Lanes that cannot be run in.

use std::collections::BTreeSet;
use std::fmt;

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;

/// Why a lane cannot be run in.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LaneError {
    /// The course has no such lane.
    #[error("there is no lane {lane} on the {course}; open there: {}", LaneList(.open))]
    Missing {
        /// The lane that was asked for.
        lane: u8,
        /// Where it was asked for.
        course: Course,
        /// The lanes that are open.
        open: Vec<LaneNumber>,
    },
    /// The lane is closed.
    #[error("lane {lane} is closed; open on the {course}: {}", LaneList(.open))]
    Closed {
        /// The lane that was asked for.
        lane: u8,
        /// Where it was asked for.
        course: Course,
        /// The lanes that are open.
        open: Vec<LaneNumber>,
    },
}

/// Lanes or their numbers as people say them, in order: `lane 2`, `lanes 2 to 6`, `lanes 1, 3 and 4`, `no lane`.
///
/// ```
/// use lane_distance::LaneList;
///
/// assert_eq!(LaneList(&[2, 3, 4, 5, 6]).to_string(), "lanes 2 to 6");
/// assert_eq!(LaneList(&[4, 1, 3, 3]).to_string(), "lanes 1, 3 and 4");
/// ```
#[derive(Clone, Copy, Debug)]
pub struct LaneList<'a, L = LaneNumber>(pub &'a [L]);

impl<L: Copy + Into<u8>> LaneList<'_, L> {
    /// The lanes without the word, as under a heading that has it.
    ///
    /// ```
    /// use lane_distance::LaneList;
    ///
    /// assert_eq!(LaneList(&[2, 3, 4]).numbers(), "2 to 4");
    /// ```
    pub fn numbers(self) -> String {
        let lanes: BTreeSet<u8> = self.0.iter().map(|&lane| lane.into()).collect();
        match (lanes.first(), lanes.last()) {
            (Some(first), Some(last)) if lanes.len() > 2 && usize::from(last - first) + 1 == lanes.len() => {
                format!("{first} to {last}")
            }
            (_, Some(last)) if lanes.len() > 1 => {
                let before: Vec<String> = lanes.iter().take(lanes.len() - 1).map(u8::to_string).collect();
                format!("{} and {last}", before.join(", "))
            }
            (_, last) => last.map(u8::to_string).unwrap_or_default(),
        }
    }
}

impl<L: Copy + Into<u8>> fmt::Display for LaneList<'_, L> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0 {
            [] => f.write_str("no lane"),
            lanes => {
                let word =
                    if lanes.iter().all(|&lane| lane.into() == lanes[0].into()) { "lane" } else { "lanes" };
                write!(f, "{word} {}", self.numbers())
            }
        }
    }
}

//! Where on the track a repetition is to be laid.

use std::fmt;

use crate::geometry::course::Course;

/// Where on the track a repetition is to be laid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Place {
    /// On the home straight where it fits there, and on the oval.
    #[default]
    Anywhere,
    /// On one course, in the direction of running.
    On(Course),
    /// On a straight, the other way: into or with a wind that the direction of running does not
    /// offer.
    Against(Course),
    /// Wholly on one bend.
    Bend,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Anywhere => f.write_str("track"),
            Self::On(course) => write!(f, "{course}"),
            Self::Against(course) => write!(f, "{course}, run the other way"),
            Self::Bend => f.write_str("bend"),
        }
    }
}

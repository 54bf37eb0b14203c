//! The number of a lane.

use std::fmt;

use serde::{Deserialize, Serialize};

/// The most lanes that a course may have.
pub const MOST_LANES: u8 = 10;

/// The number of a lane, 1 for the innermost: at least 1 and at most [`MOST_LANES`]. A track may have
/// fewer lanes; [`Track::lane_number`](crate::Track::lane_number) makes sure of its own.
///
/// ```
/// use lane_distance::LaneNumber;
///
/// assert_eq!(LaneNumber::new(2), Some(LaneNumber::of::<2>()));
/// assert_eq!((LaneNumber::new(0), LaneNumber::new(11)), (None, None));
/// assert_eq!(LaneNumber::of::<2>().to_string(), "2");
/// ```
///
/// One that is written in a program is checked when the program is compiled:
///
/// ```compile_fail
/// let lane = lane_distance::LaneNumber::of::<11>();
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct LaneNumber(u8);

/// A number that no lane can have.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("there is no lane {0}; lanes are numbered from 1 to {MOST_LANES}")]
pub struct NoSuchLaneError(pub u8);

impl LaneNumber {
    /// The innermost lane.
    pub const FIRST: Self = Self::of::<1>();

    /// Every lane that a course may have, from the inside.
    pub const ALL: [Self; MOST_LANES as usize] = {
        let mut all = [Self::FIRST; MOST_LANES as usize];
        let mut index = 0;
        while index < all.len() {
            all[index] = Self(index as u8 + 1);
            index += 1;
        }
        all
    };

    /// A lane by its number; nothing where no lane can have it.
    pub const fn new(number: u8) -> Option<Self> {
        if number >= 1 && number <= MOST_LANES { Some(Self(number)) } else { None }
    }

    /// A lane whose number is known to the program: another number does not compile.
    pub const fn of<const NUMBER: u8>() -> Self {
        const { assert!(NUMBER >= 1 && NUMBER <= MOST_LANES, "no lane has this number") };
        Self(NUMBER)
    }

    /// Lanes from the inside: so many, and at most [`MOST_LANES`].
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// assert!(LaneNumber::first(3).map(LaneNumber::get).eq([1, 2, 3]));
    /// ```
    pub fn first(count: u8) -> impl Iterator<Item = Self> + Clone {
        Self::ALL.into_iter().take(count.into())
    }

    /// The number, at least 1.
    pub const fn get(self) -> u8 {
        self.0
    }

    /// Its place in a list of all lanes from the inside: 0 for lane 1.
    pub const fn index(self) -> usize {
        self.0 as usize - 1
    }
}

impl TryFrom<u8> for LaneNumber {
    type Error = NoSuchLaneError;

    fn try_from(number: u8) -> Result<Self, NoSuchLaneError> {
        Self::new(number).ok_or(NoSuchLaneError(number))
    }
}

impl From<LaneNumber> for u8 {
    fn from(lane: LaneNumber) -> Self {
        lane.get()
    }
}

impl PartialEq<u8> for LaneNumber {
    fn eq(&self, number: &u8) -> bool {
        self.get() == *number
    }
}

impl fmt::Display for LaneNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(&self.get(), f)
    }
}

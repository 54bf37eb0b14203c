//! A block of repetitions, as read.

use std::ops::Range;

use lane_distance::Place;

use super::parser;
use crate::problem::Problem;

/// The most repetitions in one session.
pub const MOST_REPS: u32 = 500;

/// A block of repetitions, as read from one line of a workout.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// The line as it was written.
    pub text: String,
    /// How many repetitions.
    pub count: u32,
    /// How far each is.
    pub distance: Distance,
    /// The lanes that are run, if any are named.
    pub lanes: Option<Lanes>,
    /// Where on the track it is run, if that is said.
    pub place: Option<PlaceWords>,
    /// The target time of each repetition.
    pub target: Option<Seconds>,
    /// The standing rest between repetitions.
    pub rest: Option<Seconds>,
}

impl Block {
    /// Reads a block.
    ///
    /// # Errors
    ///
    /// Every [`Problem`] of the text, in its order.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        parser::block(text)
    }
}

/// A distance and where it stands in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Distance {
    /// The distance in metres.
    pub metres: f64,
    /// Its bytes in the text.
    pub span: Range<usize>,
}

/// A duration and where it stands in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Seconds {
    /// The duration in seconds.
    pub seconds: f64,
    /// Its bytes in the text.
    pub span: Range<usize>,
}

/// Lanes and where they stand in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Lanes {
    /// The lanes' numbers, in the order written.
    pub numbers: Vec<u8>,
    /// Their bytes in the text.
    pub span: Range<usize>,
}

/// Where on the track a block is run, and where that stands in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceWords {
    /// The place.
    pub place: Place,
    /// Its bytes in the text.
    pub span: Range<usize>,
}

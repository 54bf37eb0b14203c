//! A training session, before it is laid out on a track.

use chrono::NaiveDate;

use crate::hours::Hours;
use crate::notation::Block;

/// A training session: what is to be run, before it is laid out on a track.
#[derive(Clone, Debug, PartialEq)]
pub struct Session {
    /// What the session is called.
    pub title: String,
    /// The day, if it is known.
    pub date: Option<NaiveDate>,
    /// The booking: when the track is the squad's.
    pub hours: Option<Hours>,
    /// The blocks, in the order they are run.
    pub blocks: Vec<Block>,
}

impl Session {
    /// A session of a single block.
    pub fn of_block(title: impl Into<String>, block: Block) -> Self {
        Self { title: title.into(), date: None, hours: None, blocks: vec![block] }
    }
}

//! Cutting the text of a whole session into its blocks.

use crate::block::Block;
use crate::problem::Problem;
use crate::workout::{Part, Workout};

impl Workout {
    /// Reads the text of a whole session: a line, or many.
    ///
    /// # Errors
    ///
    /// Every [`Problem`] of the text, in its order.
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        let blocks = vec![Block::parse(text)?];
        Ok(Self { title: None, date: None, parts: vec![Part { group: None, blocks }] })
    }
}

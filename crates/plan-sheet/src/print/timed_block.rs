//! A block on the pages where its times are taken.

use serde::Serialize;

use crate::print::time_boxes::TimeBoxes;
use crate::sheet::sheet_block::SheetBlock;
use crate::words::block_words;

/// A block of a squad with the boxes for its times.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct TimedBlock {
    number: usize,
    reading: String,
    /// Who does it, when it is, and how far.
    facts: String,
    boxes: TimeBoxes,
    /// Splits, places on the way, and what else there is to say.
    lines: Vec<String>,
}

impl TimedBlock {
    /// A block, if it has runs.
    pub(crate) fn of(block: &SheetBlock) -> Option<Self> {
        let facts: Vec<&str> =
            block.group.iter().chain(&block.when).chain(&block.total).map(String::as_str).collect();
        Some(Self {
            number: block.number,
            reading: block.reading.clone(),
            facts: facts.join(" · "),
            boxes: TimeBoxes::of(block)?,
            lines: [block_words::splits(block), block_words::beside(block)].concat(),
        })
    }
}

//! The blocks of a page.

use super::run::{Run, runs};
use crate::sheet::sheet_block::SheetBlock;

/// A block of a page.
pub(crate) struct PageBlock {
    pub(crate) sheet: SheetBlock,
    pub(crate) runs: Vec<Run>,
    /// The blocks that are run at the same time have the same.
    pub(crate) stage: usize,
}

impl PageBlock {
    pub(crate) fn of(block: &SheetBlock) -> Self {
        Self { sheet: block.clone(), runs: runs(block), stage: 0 }
    }

    /// What it is called at the head of the screen.
    pub(crate) fn head(&self) -> String {
        match &self.sheet.group {
            Some(group) => format!("{group}: {}", self.sheet.reading),
            None => self.sheet.reading.clone(),
        }
    }

    /// Whether its runs could start and finish elsewhere: they are alike, and the block is not bound to its places.
    pub(crate) fn can_choose(&self) -> bool {
        let mut distances = self.sheet.rows.iter().map(|row| &row.metres);
        let first = distances.next();
        first.is_some() && distances.all(|metres| Some(metres) == first) && !self.sheet.has_handovers
    }

    /// The one thing to know before it is run: what breaks the plan, else what it passes.
    pub(crate) fn warning(&self) -> Option<String> {
        let care = || self.sheet.cautions.first().map(|caution| format!("Take care: {caution}"));
        self.sheet.impossible.first().cloned().or_else(care)
    }
}

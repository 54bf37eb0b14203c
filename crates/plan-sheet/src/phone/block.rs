//! The blocks of a page.

use super::run::{Run, runs};
use crate::sheet::sheet_block::SheetBlock;

/// A block of a page.
pub(super) struct PageBlock {
    pub(super) sheet: SheetBlock,
    pub(super) runs: Vec<Run>,
    /// The blocks that are run at the same time have the same.
    pub(super) stage: usize,
}

impl PageBlock {
    pub(super) fn of(block: &SheetBlock) -> Self {
        Self { sheet: block.clone(), runs: runs(block), stage: 0 }
    }

    /// What it is called at the head of the screen.
    pub(super) fn head(&self) -> String {
        match &self.sheet.group {
            Some(group) => format!("{group}: {}", self.sheet.reading),
            None => self.sheet.reading.clone(),
        }
    }

    /// The one thing to know before it is run: what breaks the plan, else what it passes.
    pub(super) fn warning(&self) -> Option<String> {
        let care = || self.sheet.cautions.first().map(|caution| format!("Take care: {caution}"));
        self.sheet.impossible.first().cloned().or_else(care)
    }
}

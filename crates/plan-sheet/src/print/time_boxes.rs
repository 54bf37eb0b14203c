//! The boxes for the times of a block.

use serde::Serialize;

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::wave::Wave;

/// A line for each who runs, with a box for each repetition.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct TimeBoxes {
    waves: Vec<Wave>,
    /// Whether waves have names.
    has_waves: bool,
    /// Whether repetitions need the number of their set.
    has_sets: bool,
    /// Whether lines need their targets.
    has_own_targets: bool,
}

impl TimeBoxes {
    /// The boxes of a block, if it has runs.
    pub(crate) fn of(block: &SheetBlock) -> Option<Self> {
        let mut waves = block.waves.clone();
        // They are said once for the block.
        waves.iter_mut().flat_map(|wave| &mut wave.lines).for_each(|line| line.splits.clear());
        let &SheetBlock { has_waves, has_sets, has_own_targets, .. } = block;
        (!waves.is_empty()).then_some(Self { waves, has_waves, has_sets, has_own_targets })
    }
}

//! The waves of a plan that was made before.

use std::collections::BTreeMap;

use crate::plan::block_at::BlockAt;
use crate::plan::plan::Plan;

/// Which wave each athlete had in each block of a plan that was made before.
#[derive(Clone, Debug, Default)]
pub(crate) struct Kept(BTreeMap<(BlockAt, String), u32>);

impl Kept {
    /// The waves of a plan, by the place of the block and the name of the athlete.
    pub(crate) fn of(plan: &Plan) -> Self {
        let runs = plan.blocks.iter().flat_map(|block| block.reps.iter().map(move |rep| (block.at, rep)));
        let waves =
            runs.flat_map(|(at, rep)| rep.athletes.iter().map(move |name| ((at, name.clone()), rep.wave)));
        Self(waves.collect())
    }

    /// Whether nothing was planned before.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The wave that an athlete had in a block, counted from 0.
    pub(crate) fn wave(&self, at: BlockAt, name: &str) -> Option<usize> {
        let wave = self.0.get(&(at, name.to_owned()))?;
        Some(*wave as usize - 1)
    }
}

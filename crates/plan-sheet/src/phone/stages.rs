//! Which blocks are run at the same time.

use super::block::PageBlock;

/// The number of the stage of each block, from 0: blocks whose times overlap are counted down to as one.
pub(super) fn stages(blocks: &[PageBlock]) -> Vec<usize> {
    let times: Vec<Option<(f64, f64)>> = blocks.iter().map(times).collect();
    let mut stages: Vec<usize> = (0..blocks.len()).collect();
    for next in 1..blocks.len() {
        for before in 0..next {
            let is_at_once = |((from, to), (other_from, other_to)): ((f64, f64), (f64, f64))| {
                from < other_to && other_from < to && blocks[before].sheet.group != blocks[next].sheet.group
            };
            if times[before].zip(times[next]).is_some_and(is_at_once) {
                let (kept, joined) = (stages[before], stages[next]);
                stages.iter_mut().filter(|stage| **stage == joined).for_each(|stage| *stage = kept);
            }
        }
    }
    stages
}

/// When the first run of a block goes and the last one is in, where the plan knows both.
fn times(block: &PageBlock) -> Option<(f64, f64)> {
    let rows = || block.runs.iter().flat_map(|run| &run.rows);
    Some((
        rows().filter_map(|row| row.go_s).reduce(f64::min)?,
        rows().filter_map(|row| row.done_s).reduce(f64::max)?,
    ))
}

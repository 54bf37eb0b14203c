//! The runs of a block: all lanes that go together.

use super::prompts::{is_alike, passes, prompts};
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::{SheetRow, SheetSplit};
use lane_distance::LaneNumber;

/// One repetition of one wave in all its lanes, timed by one clock.
pub(super) struct Run {
    /// Its repetition, and its set and wave where there are several: `Rep 2, wave 1`.
    pub(super) name: String,
    /// The first run of its block with the same places and splits, by name.
    pub(super) as_in: Option<String>,
    /// The rest after it, where it is the same in all lanes.
    pub(super) rest: Option<String>,
    pub(super) lanes: Vec<RunLane>,
    /// The places that its lanes pass, with their times.
    pub(super) passes: Vec<SheetSplit>,
}

/// One lane of a run.
pub(super) struct RunLane {
    pub(super) row: SheetRow,
    prompts: Vec<SheetSplit>,
}

impl Run {
    /// The run of the rows that go together.
    fn of(block: &SheetBlock, rows: &[SheetRow]) -> Self {
        let first = &rows[0];
        let lanes: Vec<RunLane> =
            rows.iter().map(|row| RunLane { row: row.clone(), prompts: prompts(row) }).collect();
        let prompts: Vec<(LaneNumber, Vec<SheetSplit>)> =
            lanes.iter().map(|lane| (lane.row.lane, lane.prompts.clone())).collect();
        Self {
            name: name(block, first),
            as_in: None,
            rest: first.rest.clone().filter(|_| rows.iter().all(|row| row.rest == first.rest)),
            passes: passes(&prompts),
            lanes,
        }
    }

    /// The run in its first lane, which goes with all others.
    pub(super) fn first(&self) -> &SheetRow {
        &self.lanes[0].row
    }

    /// Its name within a sentence.
    pub(super) fn label(&self) -> String {
        self.name.to_lowercase()
    }

    /// Whether it has a single box for its time.
    pub(super) fn has_one_box(&self) -> bool {
        matches!(self.lanes.as_slice(), [lane] if lane.row.athletes.len() < 2)
    }

    /// The number of its rows in the table.
    pub(super) fn rows(&self) -> usize {
        self.lanes.len() + usize::from(!self.passes.is_empty())
    }

    /// Whether each of its lanes has the same start, finish and splits in `other`.
    fn is_laid_out_as(&self, other: &Self) -> bool {
        self.lanes.iter().all(|lane| other.lanes.iter().any(|known| lane.is_laid_out_as(known)))
    }
}

impl RunLane {
    /// A box for each athlete, with the name as it is spoken and as it was written; where nobody is named, one box
    /// for the lane.
    pub(super) fn boxes(&self) -> Vec<Option<(&str, &str)>> {
        let SheetRow { athletes, names, .. } = &self.row;
        if athletes.is_empty() {
            return vec![None];
        }
        athletes
            .iter()
            .zip(names)
            .map(|(called, written)| Some((called.as_str(), written.as_str())))
            .collect()
    }

    fn is_laid_out_as(&self, other: &Self) -> bool {
        self.row.lane == other.row.lane
            && self.row.has_places_of(&other.row)
            && self.prompts.len() == other.prompts.len()
            && self.prompts.iter().zip(&other.prompts).all(|(a, b)| is_alike(a, b))
    }
}

/// The runs of a block, in order.
pub(super) fn runs(block: &SheetBlock) -> Vec<Run> {
    let mut runs: Vec<Run> = block.runs().map(|rows| Run::of(block, rows)).collect();
    for index in 1..runs.len() {
        let (before, from) = runs.split_at_mut(index);
        let first = before.iter().find(|run| from[0].is_laid_out_as(run));
        from[0].as_in = first.map(|run| run.name.clone());
    }
    runs
}

fn name(block: &SheetBlock, row: &SheetRow) -> String {
    let mut name = format!("Rep {}", row.rep);
    if block.has_sets {
        name = format!("Set {}, rep {}", row.set, row.rep);
    }
    if block.has_waves {
        name += &format!(", wave {}", row.wave);
    }
    name
}

//! A run, to be drawn on the map.

use lane_distance::Track;
use serde::Serialize;

use crate::map::run_picture::{LaneRun, MapRun};
use crate::phone::run::Run;

/// A run of a block, to be drawn on the map when it is asked for.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct RunOnMap {
    /// The number of its block.
    block: usize,
    /// The place of the run among those of its block, from 0.
    run: usize,
    /// The run in words, for readers who cannot see it.
    words: String,
    /// It on the map, as path data.
    #[serde(flatten)]
    paths: MapRun,
}

impl RunOnMap {
    pub(super) fn of(track: &Track, block: usize, number: usize, run: &Run) -> Self {
        let lanes: Vec<LaneRun> = run.lanes().collect();
        let ends: Vec<String> = run.ends.iter().map(|end| format!("{}: {}", end.word, end.place)).collect();
        let words = format!("{}: {}. {}.", run.name, run.what, ends.join(". "));
        Self { block, run: number, words, paths: MapRun::of(track, &lanes) }
    }
}

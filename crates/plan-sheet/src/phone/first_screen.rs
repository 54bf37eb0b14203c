//! The first screen of a page as it stands before a script fills it.

use super::block::PageBlock;
use super::run::Run;
use super::run_words::Ends;
use super::session::PageSession;
use crate::map::run_picture::RunPicture;

/// The run with which a page opens.
pub(super) struct FirstScreen {
    /// The block, with its group.
    pub(super) head: String,
    pub(super) name: String,
    pub(super) what: String,
    pub(super) ends: Vec<Ends>,
    pub(super) warning: Option<String>,
    pub(super) picture: RunPicture,
    /// Who runs and in which lane, where there are several boxes for times.
    pub(super) names: Vec<(String, String)>,
    pub(super) bar: Bar,
}

/// What stands above the button all through a stage, so that nothing moves from run to run.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Bar {
    /// The number of names in its largest run; 0 where each run has one box.
    pub(super) names: usize,
    /// Whether runs overlap, so that others that run are named too.
    pub(super) overlaps: bool,
}

impl FirstScreen {
    /// The run of a session that goes first; where it has none, its first block.
    pub(super) fn of(session: &PageSession) -> Self {
        let opening = session.blocks.iter().find(|block| !block.runs.is_empty()).or(session.blocks.first());
        let stage = opening.map(|block| block.stage);
        let at_once = session.blocks.iter().filter(|block| Some(block.stage) == stage);
        let runs = at_once.flat_map(|block| block.runs.iter().map(move |run| (block, run)));
        let first = runs.min_by(|(_, a), (_, b)| a.go_or_never_s().total_cmp(&b.go_or_never_s()));
        let block = first.map(|(block, _)| block).or(opening);
        let run = first.map(|(_, run)| run);
        let bar = stage.map(|stage| Bar::of(&session.blocks, stage)).unwrap_or_default();
        Self {
            head: block.map(PageBlock::head).unwrap_or_default(),
            name: run.map(|run| run.name.clone()).unwrap_or_default(),
            what: run.map(|run| run.what.clone()).unwrap_or_default(),
            ends: run.map(|run| run.ends.clone()).unwrap_or_default(),
            warning: block.and_then(PageBlock::warning),
            picture: run.and_then(|run| run.picture(&session.ground)).unwrap_or_else(RunPicture::nowhere),
            names: run.map(Run::names).unwrap_or_default(),
            bar,
        }
    }
}

impl FirstScreen {
    /// A button for each name of the largest run of the stage; those that the first run leaves empty keep their place.
    pub(super) fn slots(&self) -> Vec<Option<&(String, String)>> {
        (0..self.bar.names).map(|slot| self.names.get(slot)).collect()
    }
}

impl Bar {
    pub(super) fn of(blocks: &[PageBlock], stage: usize) -> Self {
        let runs = || blocks.iter().filter(|block| block.stage == stage).flat_map(|block| &block.runs);
        let names = runs().map(|run| run.boxes().len()).max().unwrap_or_default();
        let mut times: Vec<(f64, f64)> =
            runs().filter_map(|run| Some((run.first().go_s?, run.done_s()?))).collect();
        times.sort_by(|(a, _), (b, _)| a.total_cmp(b));
        let overlaps = times.windows(2).any(|pair| pair[1].0 < pair[0].1);
        Self { names: if names > 1 { names } else { 0 }, overlaps }
    }
}

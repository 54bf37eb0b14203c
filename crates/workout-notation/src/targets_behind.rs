//! Targets in a sentence behind the runs that they are for: `3 x (300/200/100), 6 min. 300 in 48, 200 in 30, 100 fast`.

use crate::block::{Block, Body, Item};
use crate::forms::{Details, Run, RunKind, RunLength};

/// The fewest distances that have a target in such a sentence, where it stands in its own line: one alone is rather a run.
pub(crate) const FEWEST: usize = 2;

/// A block with the targets that another block is, where that has nothing but a distance of each and how fast it is to be
/// run; nothing where it is a block of its own, or has fewer distances.
pub(crate) fn with_targets(runs: &Block, targets: &Block, fewest: usize) -> Option<Block> {
    let (Body::Runs(series), Body::Runs(said)) = (&runs.body, &targets.body) else { return None };
    if said.count != 1 || said.items.len() < fewest {
        return None;
    }
    let targets: Vec<(f64, &Details)> = match said.items.as_slice() {
        // What stands behind the only run is said of all there are.
        [Item::Run(run)] if run.details == Details::default() => vec![target(run, &said.details)?],
        items if said.details == Details::default() => {
            items.iter().map(target_of_item).collect::<Option<_>>()?
        }
        _ => return None,
    };
    let known: Vec<f64> = runs.steps().iter().filter_map(|step| metres(step.run)).collect();
    let has_own = runs.steps().iter().any(|step| step.pace.is_some());
    let is_said = targets.iter().all(|(target_m, _)| known.contains(target_m));
    let differ =
        targets.iter().enumerate().all(|(at, (m, _))| targets[..at].iter().all(|(other, _)| other != m));
    if has_own || !is_said || !differ || !targets.iter().any(|(_, details)| details.pace.is_some()) {
        return None;
    }
    let mut series = series.clone();
    give(&mut series.items, &targets);
    // Read again, each word of it has its place in the text.
    let block = Block::parse(&Block { body: Body::Runs(series), ..runs.clone() }.to_string()).ok()?;
    Some(Block { label: runs.label.clone(), start: runs.start, rest_after: runs.rest_after.clone(), ..block })
}

fn target_of_item(item: &Item) -> Option<(f64, &Details)> {
    match item {
        Item::Run(run) => target(run, &run.details),
        Item::Series(_) => None,
    }
}

/// The distance of a run and how fast it is to be run, where nothing else is said of it.
fn target<'a>(run: &Run, details: &'a Details) -> Option<(f64, &'a Details)> {
    let Details { pace, effort, .. } = details;
    let only = Details { pace: pace.clone(), effort: effort.clone(), ..Details::default() };
    let is_target = *details == only && (pace.is_some() || effort.is_some());
    is_target.then(|| metres(run).map(|run_m| (run_m, details))).flatten()
}

const fn metres(run: &Run) -> Option<f64> {
    match run.kind.value {
        RunKind::Plain(RunLength::Metres(metres)) => Some(metres),
        _ => None,
    }
}

/// Gives each run the target of its distance.
fn give(items: &mut [Item], targets: &[(f64, &Details)]) {
    for item in items {
        match item {
            Item::Series(series) => give(&mut series.items, targets),
            Item::Run(run) => {
                let own = metres(run);
                if let Some((_, details)) = targets.iter().find(|(target_m, _)| Some(*target_m) == own) {
                    run.details.pace.clone_from(&details.pace);
                    run.details.effort.clone_from(&details.effort);
                }
            }
        }
    }
}

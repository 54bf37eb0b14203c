//! An item of a list, as it is read.

use crate::block::{Item, Series};
use crate::forms::{Details, Recovery, RecoveryKind, Run, RunKind, RunLength, effort};
use crate::spanned::Spanned;

/// An easy distance behind repetitions is a recovery up to here, in metres.
const LONGEST_EASY_M: f64 = 400.0;

/// An item of a list.
pub(crate) struct Listed {
    pub(crate) item: Item,
    /// What stands behind it.
    pub(crate) details: Details,
    /// Whether it has a count.
    pub(crate) is_counted: bool,
}

/// A series as what is repeated of it.
pub(crate) fn repeated(series: Series) -> Vec<Item> {
    if series.count == 1 && series.details == Details::default() {
        series.items
    } else {
        vec![Item::Series(Box::new(series))]
    }
}

/// The run of an item that has only one.
pub(crate) fn run_of(item: &mut Item) -> Option<&mut Run> {
    match item {
        Item::Run(run) => Some(run),
        Item::Series(series) => match series.items.as_mut_slice() {
            [Item::Run(run)] => Some(run),
            _ => None,
        },
    }
}

/// The run that an item repeats, where that is all there is in it.
pub(crate) fn run_in(item: &Item) -> Option<&Run> {
    match item {
        Item::Run(run) => Some(run),
        Item::Series(series) => match series.items.as_slice() {
            [item] => run_in(item),
            _ => None,
        },
    }
}

/// The run that is all there is in an item.
pub(crate) fn only_run(item: &Item) -> Option<Item> {
    match item {
        Item::Series(series) => match series.items.as_slice() {
            [Item::Run(run)] => Some(Item::Run(run.clone())),
            _ => None,
        },
        Item::Run(_) => None,
    }
}

/// Whether it is a run by time and nothing else: behind it a time alone is the next such run.
pub(crate) fn is_bare_timed(item: &Item) -> bool {
    matches!(item, Item::Run(run) if matches!(run.kind.value, RunKind::Timed { .. }) && run.details == Details::default())
}

/// The recovery that an easy run behind a harder one is: `400 hard / 400 easy`.
pub(crate) fn recovery_of(
    before: &Item,
    details: &Details,
    listed: &Listed,
) -> Option<Spanned<RecoveryKind>> {
    let (Item::Run(before), Item::Run(run)) = (before, &listed.item) else { return None };
    let RunKind::Plain(RunLength::Metres(metres)) = run.kind.value else { return None };
    let effort = |own: &Details, more: &Details| {
        own.effort.as_ref().or(more.effort.as_ref()).map(|effort| effort.value.clone())
    };
    let is_plain = matches!(before.kind.value, RunKind::Plain(_));
    let hard = effort(&before.details, details)?;
    let easy = effort(&run.details, &listed.details)?;
    let is_easy = |effort: &str| ["easy", "float", "jogging", "walking"].contains(&effort);
    let is_so = is_plain
        && !listed.is_counted
        && is_easy(&easy)
        && !is_easy(&hard)
        && details.recovery.kind.is_none()
        && listed.details.pace.is_none();
    let kind = if easy == "walking" { RecoveryKind::Walk(metres) } else { RecoveryKind::Jog(metres) };
    is_so.then(|| Spanned::new(kind, run.kind.span.clone()))
}

/// The recovery that an easy run behind repetitions is that have none: `8 x 200 fast, 100 easy`.
pub(crate) fn easy_behind_repetitions(before: &Listed, listed: &Listed) -> Option<Spanned<RecoveryKind>> {
    let (own, Item::Run(run)) = (run_in(&before.item)?, &listed.item) else { return None };
    let RunKind::Plain(RunLength::Metres(metres)) = run.kind.value else { return None };
    let effort = run.details.effort.as_ref().or(listed.details.effort.as_ref())?;
    let is_so = before.is_counted
        && !listed.is_counted
        && ["easy", "float", "jogging", "walking"].contains(&effort.value.as_str())
        && metres <= LONGEST_EASY_M
        && before.details.recovery == Recovery::default()
        && own.details.recovery == Recovery::default()
        && matches!(own.kind.value, RunKind::Plain(_));
    let kind = if effort.value == "walking" { RecoveryKind::Walk(metres) } else { RecoveryKind::Jog(metres) };
    is_so.then(|| Spanned::new(kind, run.kind.span.clone()))
}

/// What stands before a run, such as `easy 20 min`, becomes a detail of it like what follows.
pub(crate) fn own(mut item: Item, mut details: Details) -> Listed {
    if let Item::Run(run) = &mut item {
        let before = std::mem::take(&mut run.details);
        details.effort = effort::joined(before.effort, details.effort);
        details.pace = details.pace.or(before.pace);
        details.stance = details.stance.or(before.stance);
    }
    Listed { item, details, is_counted: false }
}

/// An item with its count.
pub(crate) fn counted(count: u32, item: Item, details: Details) -> Listed {
    let Listed { mut item, mut details, .. } = own(item, details);
    if count == 1 {
        return Listed { item, details, is_counted: true };
    }
    if let Item::Series(series) = &mut item {
        if series.count == 1 {
            series.count = count;
            return Listed { item, details, is_counted: true };
        }
        // `2 x (4 x 200 rest 60s / 5min)`: those sets are the turns of the count before.
        if series.runs_of_one_turn() == 1 && details.recovery.set_rest.is_none() {
            details.recovery.set_rest = series.details.recovery.set_rest.take();
        }
    }
    let item = Item::Series(Box::new(Series { count, items: vec![item], details: Details::default() }));
    Listed { item, details, is_counted: true }
}

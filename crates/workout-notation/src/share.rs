//! Sharing what was read for several runs among them.

use crate::block::{Item, Series};
use crate::doubt::Doubt;
use crate::forms::{Details, Gap, Pace, Recovery, RecoveryKind, Run, RunKind, RunLength};
use crate::shared::{Equal, PerDistance, Shared, SharedPace};
use crate::spanned::Spanned;

impl Shared {
    /// Shares the values among the runs of an item where their number fits, and says what could be meant otherwise.
    pub(crate) fn share(&mut self, item: &mut Item) -> Option<Doubt> {
        if let Some(equal) = self.equal.take() {
            as_far_as_each(item, &equal);
        }
        if let Some(rest) = self.per_distance.take() {
            grow(item, &rest);
        }
        let mut doubt = None;
        self.progress(item);
        self.step(item);
        if self.efforts.len() > 1 && spread_by_turns(item, self.efforts.len()).is_some() {
            for (details, effort) in each_details(item).into_iter().zip(self.efforts.iter().cycle()) {
                details.effort = Some(effort.clone());
            }
            self.efforts.clear();
        }
        if self.paces.len() > 1
            && let Some(each) = match self.is_alternating {
                true => spread_by_turns(item, self.paces.len()),
                false => spread(item, self.paces.len(), false),
            }
        {
            for (index, details) in each_details(item).into_iter().enumerate() {
                let turn = if self.is_alternating { index } else { index / each as usize };
                let pace = &self.paces[turn % self.paces.len()];
                let value = match pace.value {
                    SharedPace::Time(seconds) => Pace::Time { seconds, to_s: None },
                    SharedPace::Race(metres) => Pace::Race(metres),
                    SharedPace::Percent(percent) => Pace::Percent(percent),
                };
                details.pace = Some(Spanned::new(value, pace.span.clone()));
            }
            doubt = (each > 1 && !self.is_alternating).then_some(Doubt::TargetsInTurn { each });
            self.is_alternating = false;
            self.paces.clear();
        }
        if self.rests.len() > 1 && spread(item, self.rests.len(), true).is_some() {
            for (details, rest) in each_details(item).into_iter().zip(&self.rests) {
                details.recovery.gap = Some(Spanned::new(Gap::Rest(rest.value), rest.span.clone()));
            }
            self.rests.clear();
        }
        doubt
    }

    /// Fills in what lies between the first time and the last of runs that become faster.
    fn progress(&mut self, item: &Item) {
        let Item::Series(series) = item else { return };
        let runs = series.runs() as usize;
        if !std::mem::take(&mut self.is_progression) || runs < 3 || series.items.len() > 1 {
            return;
        }
        if let [first, last] = self.paces.as_slice()
            && let (SharedPace::Time(from_s), SharedPace::Time(to_s)) = (first.value, last.value)
        {
            let span = first.span.start..last.span.end;
            let time = |run: usize| {
                let seconds = from_s + (to_s - from_s) * run as f64 / (runs - 1) as f64;
                let tenths = (seconds * 10.0).round() / 10.0;
                Spanned::new(SharedPace::Time(tenths), span.clone())
            };
            self.paces = (0..runs).map(time).collect();
        }
    }
}

/// The fastest that times become by steps, as a part of the first.
const LEAST_STEPPED: f64 = 0.5;

impl Shared {
    /// Writes out the times of runs each of which differs as much from the one before.
    fn step(&mut self, item: &Item) {
        let (Item::Series(series), Some(step_s)) = (item, self.step_s) else { return };
        let runs = series.runs() as usize;
        if runs < 2 || series.items.len() > 1 {
            return;
        }
        if let [first] = self.paces.as_slice()
            && let SharedPace::Time(first_s) = first.value
            && first_s + step_s * (runs - 1) as f64 >= first_s * LEAST_STEPPED
        {
            let span = first.span.clone();
            let time = |run: usize| {
                let tenths = ((first_s + step_s * run as f64) * 10.0).round() / 10.0;
                Spanned::new(SharedPace::Time(tenths), span.clone())
            };
            self.paces = (0..runs).map(time).collect();
            self.step_s = None;
        }
    }
}

/// Writes an item out run by run where so many values are to be shared among its runs, or one less where they stand
/// between runs; gives how many runs have the same value.
fn spread(item: &mut Item, values: usize, is_between: bool) -> Option<u32> {
    let Item::Series(series) = item else { return None };
    let runs_of_one_turn = series.runs_of_one_turn() as usize;
    let fits = |runs: usize| runs == values || is_between && runs == values + 1;
    let all = series.runs() as usize;
    // What belongs to sets within the runs cannot be written out, and values would be lost.
    if written_out(&series.items) * series.count as usize != all {
        return None;
    }
    if series.count > 1 && fits(runs_of_one_turn) && runs_of_one_turn > 1 {
        // The same in each turn.
        write_out(&mut series.items);
        if series.details == Details::default()
            && let [Item::Series(only)] = series.items.as_mut_slice()
            && only.count == 1
        {
            let Series { items, details, .. } = std::mem::take(&mut **only);
            (series.items, series.details) = (items, details);
        }
        return Some(1);
    }
    if !fits(all) && (is_between || all < values || !all.is_multiple_of(values)) {
        return None;
    }
    let mut once = std::mem::take(&mut series.items);
    write_out(&mut once);
    series.items = (0..series.count).flat_map(|_| once.iter().cloned()).collect();
    series.count = 1;
    Some((all / values).max(1) as u32)
}

/// Writes an item out run by run where so many values are to be taken by turns, of which the last turn may be cut short.
fn spread_by_turns(item: &mut Item, values: usize) -> Option<u32> {
    let Item::Series(series) = item else { return None };
    let all = series.runs() as usize;
    spread(item, values, false).or_else(|| (all > values).then(|| spread(item, all, false)).flatten())
}

/// How many runs there are where each is written out.
fn written_out(items: &[Item]) -> usize {
    let of_item = |item: &Item| match item {
        Item::Series(series) if is_plain(series, items.len()) => {
            series.count as usize * written_out(&series.items)
        }
        _ => 1,
    };
    items.iter().map(of_item).sum()
}

/// Whether the turns of a series can be written out one by one: nothing belongs to them, or it is one run and there is
/// no other item.
fn is_plain(series: &Series, items: usize) -> bool {
    series.details == Details::default()
        || items == 1
            && matches!(series.items.as_slice(), [Item::Run(run)] if run.details == Details::default())
}

/// Each run as often as it is run; what belongs to several of them stays behind them.
fn write_out(items: &mut Vec<Item>) {
    let (mut out, count) = (Vec::new(), items.len());
    for item in std::mem::take(items) {
        match item {
            Item::Series(series) if is_plain(&series, count) => {
                let Series { count, mut items, details } = *series;
                write_out(&mut items);
                let each = (0..count).flat_map(|_| items.iter().cloned());
                if details == Details::default() {
                    out.extend(each);
                } else {
                    let items = each.collect();
                    out.push(Item::Series(Box::new(Series { count: 1, items, details })));
                }
            }
            item => out.push(item),
        }
    }
    *items = out;
}

/// `500 + 300 + 200, 6'/4'`: of three runs that are done once there are no sets, and two rests lie between them.
pub(crate) fn two_rests_in_turn(series: &mut Series, text: &str) {
    let Series { count: 1, items, details } = series else { return };
    let [Item::Run(first), Item::Run(second), Item::Run(_)] = items.as_mut_slice() else { return };
    let is_free = |run: &Run| run.details.recovery == Recovery::default();
    let recovery = &mut details.recovery;
    let is_rest = matches!(recovery.gap.as_deref(), Some(Gap::Rest(_)));
    if !is_rest || recovery.kind.is_some() || !is_free(first) || !is_free(second) {
        return;
    }
    // `between sets` says what it is.
    let ends = recovery
        .gap
        .as_ref()
        .zip(recovery.set_rest.as_ref())
        .map(|(gap, rest)| (gap.span.start, rest.span.end));
    let is_listed = ends.is_some_and(|(from, to)| {
        let written = text.get(from..to).unwrap_or_default();
        written.contains('/') && !written.contains("between") && !text[to..].contains("set")
    });
    if let Some(rest) = recovery.set_rest.take_if(|_| is_listed) {
        first.details.recovery.gap = recovery.gap.take();
        second.details.recovery.gap = Some(Spanned::new(Gap::Rest(rest.value), rest.span));
    }
}

/// What is said of each run of an item that is written out. Where a series is one run, what is written behind that is of
/// the series.
fn each_details(item: &mut Item) -> Vec<&mut Details> {
    match item {
        Item::Run(run) => vec![&mut run.details],
        Item::Series(series) => match series.items.as_slice() {
            [Item::Run(_)] => vec![&mut series.details],
            _ => series.items.iter_mut().flat_map(each_details).collect(),
        },
    }
}

/// Gives each run a recovery as far, or as long, as itself, or as its share.
fn as_far_as_each(item: &mut Item, equal: &Spanned<Equal>) {
    let Equal { is_jog, share } = equal.value;
    for_each_recovery(item, &|kind, recovery| match kind {
        RunKind::Timed { seconds } => {
            recovery.gap = Some(Spanned::new(Gap::Rest(seconds * share), equal.span.clone()));
        }
        RunKind::Plain(RunLength::Metres(metres)) => {
            let on_m = metres * share;
            let kind = if is_jog { RecoveryKind::Jog(on_m) } else { RecoveryKind::Walk(on_m) };
            recovery.kind = Some(Spanned::new(kind, equal.span.clone()));
        }
        _ => {}
    });
}

/// Gives runs without a rest one that lasts a share of their targets, and says whether there are such: those whose targets
/// are no times have none.
pub(crate) fn rest_as_long(series: &mut Series, share: &Spanned<f64>, of_all: Option<Pace>) -> bool {
    let own = series.details.pace.as_deref().copied().or(of_all);
    let rest = |run: &Run, pace: Option<Pace>| {
        let RunKind::Plain(RunLength::Metres(metres)) = run.kind.value else { return None };
        let lasts_s = match pace? {
            Pace::Time { seconds, to_s } => to_s.unwrap_or(seconds),
            Pace::Rate { seconds, per_m } => seconds * metres / per_m,
            Pace::Percent(_) | Pace::Race(_) | Pace::OffRace { .. } => return None,
        };
        Some(Spanned::new(Gap::Rest((lasts_s * share.value).round()), share.span.clone()))
    };
    if series.details.recovery.gap.is_some() {
        return false;
    }
    // What is written behind one run that is repeated is of its series.
    if let [Item::Run(run)] = series.items.as_slice() {
        let pace = run.details.pace.as_deref().copied().or(own);
        series.details.recovery.gap = rest(run, pace);
        return series.details.recovery.gap.is_some();
    }
    // Behind the last run of those that are done once nobody rests.
    let last = if series.count == 1 { series.items.len() } else { 0 };
    let mut has_any = false;
    for (place, item) in series.items.iter_mut().enumerate() {
        has_any |= match item {
            Item::Series(series) => rest_as_long(series, share, own),
            Item::Run(run) if run.details.recovery.gap.is_none() && place + 1 != last => {
                run.details.recovery.gap = rest(run, run.details.pace.as_deref().copied().or(own));
                run.details.recovery.gap.is_some()
            }
            Item::Run(_) => false,
        };
    }
    has_any
}

/// Gives each run a rest that grows with it.
fn grow(item: &mut Item, rest: &Spanned<PerDistance>) {
    for_each_recovery(item, &|kind, recovery| {
        if let RunKind::Plain(RunLength::Metres(metres)) = kind {
            let gap = Gap::Rest(rest.seconds * metres / rest.per_m);
            recovery.gap = Some(Spanned::new(gap, rest.span.clone()));
        }
    });
}

/// `3min + 400, equal jog`: what only the last of several runs has, behind it, would be that of all; in brackets it is its own.
fn set_last_apart(items: &mut [Item]) {
    let Some((last, before)) = items.split_last_mut() else { return };
    let Item::Run(run) = last else { return };
    let own = &run.details.recovery;
    let is_new = |has: &dyn Fn(&Recovery) -> bool| {
        has(own) && !before.iter().any(|item| has(&item.details().recovery))
    };
    if is_new(&|recovery| recovery.kind.is_some()) || is_new(&|recovery| recovery.gap.is_some()) {
        let details = std::mem::take(&mut run.details);
        *last = Item::Series(Box::new(Series { count: 1, items: vec![Item::Run(run.clone())], details }));
    }
}

/// Changes the recovery of each run: where one run is repeated, that of its series, as what is written behind it is.
fn for_each_recovery(item: &mut Item, change: &impl Fn(RunKind, &mut Recovery)) {
    match item {
        Item::Run(run) => change(run.kind.value, &mut run.details.recovery),
        Item::Series(series) => {
            if let [Item::Run(run)] = series.items.as_slice() {
                change(run.kind.value, &mut series.details.recovery);
            } else {
                series.items.iter_mut().for_each(|item| for_each_recovery(item, change));
                set_last_apart(&mut series.items);
            }
        }
    }
}

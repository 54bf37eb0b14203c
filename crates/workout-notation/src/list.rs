//! Reading a series: items one after the other, and the clauses of one or of all of them.

use crate::block::{Item, Series};
use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::forms::{Details, Gap, RecoveryKind, Run, RunKind, RunLength, Turns, effort};
use crate::last_run::LastRun;
use crate::spanned::Spanned;

/// The deepest that counts and brackets may be nested: a block that is printed has more of them than
/// series, and the deepest that is read must fit.
pub(crate) const DEEPEST_TEXT: usize = 40;

pub(crate) const TOO_DEEP: &str = "brackets are nested too deeply";
pub(crate) const TOO_DEEP_HELP: &str = "write fewer counts and brackets";
const BETWEEN_HELP: &str =
    "write `+` between two runs, or say what the number is: `@ 48s`, `rest 90s`, `in lane 2`";
const FURTHER_HELP: &str = "after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`";

/// An item of a list.
struct Listed {
    item: Item,
    /// What stands behind it.
    details: Details,
    /// Whether it has a count.
    is_counted: bool,
}

impl Cursor<'_> {
    /// Items with `+`, `,` or `-` between them, up to the end or the bracket that closes.
    pub(crate) fn list(&mut self, depth: usize) -> Option<Series> {
        let mut items: Vec<Listed> = Vec::new();
        let mut of_all = None;
        loop {
            let is_behind_plus = std::mem::take(&mut self.is_behind_plus);
            self.is_behind_uncounted = !items.is_empty() && items.iter().all(|item| !item.is_counted);
            match self.item(depth) {
                Some(item) => self.push(&mut items, item, is_behind_plus),
                None => {
                    let mut lost = Details::default();
                    self.clauses(&mut lost);
                }
            }
            of_all = of_all.or_else(|| self.times_whole_list(&mut items));
            while self.is_stuck(depth) {
                self.not_understood();
                // Clauses go on where they are expected, so that their problems are told as well.
                let mut lost = Details::default();
                self.clauses(&mut lost);
            }
            self.is_behind_plus = self.written() == Some("+");
            let Some(_) = self.separator() else { break };
        }
        let series = self.joined(items)?;
        let mut item = Item::Series(Box::new(series));
        let doubt = self.shared.share(&mut item);
        self.doubts.extend(doubt);
        let Item::Series(series) = item else { return None };
        let mut series = *series;
        if let Some((count, details)) = of_all {
            series = Series { count, items: repeated(series), details: Details::default() };
            self.add(&mut series, details);
        }
        Some(series)
    }

    /// Adds an item to a list, with the values that stand behind it for each of its runs. An easy run behind a hard one
    /// is the recovery between two of them.
    fn push(&mut self, items: &mut Vec<Listed>, mut listed: Listed, is_behind_plus: bool) {
        if listed.is_counted || !items.is_empty() {
            let doubt = if listed.is_counted { self.shared.share(&mut listed.item) } else { None };
            self.doubts.extend(doubt);
        }
        if let Some(last) = items.last_mut()
            && !is_behind_plus
            && let Some(jog) = recovery_of(&last.item, &last.details, &listed)
        {
            last.details.recovery.kind = Some(jog);
            let Listed { item: _, details, .. } = listed;
            // What else stands behind it belongs to the list.
            self.add_details(&mut last.details, details);
            return;
        }
        items.push(listed);
    }

    fn add_details(&mut self, own: &mut Details, more: Details) {
        let more = Details { effort: None, ..more };
        own.add(more, self, false);
    }

    /// `x 2`, `repeat`, `twice` behind a list, and what stands behind that: for the whole list where none of its runs has
    /// a count of its own, else for the last item.
    fn times_whole_list(&mut self, items: &mut Vec<Listed>) -> Option<(u32, Details)> {
        let before = self.place();
        while self.is_sign(0, ',') || self.is_sign(0, ';') || self.is_sign(0, '.') || self.is_sign(0, '-') {
            self.skip();
        }
        let is_in_brackets =
            self.is_sign(0, '(') && self.is_times(1) && self.is_number(2) && self.is_sign(3, ')');
        if is_in_brackets {
            self.skip();
        }
        let count = if self.is_times(0)
            && self.number_at(1).is_some_and(|count| count < 100.0)
            && !self.is_unit(2)
            && !self.is_times(2)
            && !self.is_count_word(2)
        {
            self.skip();
            let (value, span) = self.number()?;
            self.whole_count(value, span)
        } else if self.is_number(0) && self.is_word(1, &["times"]) && !self.is_item(2) {
            let (value, span) = self.number()?;
            self.skip();
            self.whole_count(value, span)
        } else if self.is_word(0, &["repeat", "repeated"]) {
            self.skip();
            let is_times = self.is_times(0);
            if is_times {
                self.skip();
            }
            let count = match self.number() {
                Some((value, span)) => self.whole_count(value, span),
                None => Some(2),
            };
            self.word(&["times", "sets", "x"]);
            count
        } else if self.word(&["twice"]) {
            Some(2)
        } else if self.word(&["thrice"]) {
            Some(3)
        } else {
            None
        };
        let (Some(count), false) = (count, items.is_empty()) else {
            if self.problems.is_empty() || !is_in_brackets {
                self.go_back(before);
            }
            return None;
        };
        if is_in_brackets {
            self.sign(')');
        }
        let mut details = Details::default();
        self.clauses(&mut details);
        let is_of_all =
            items.len() > 1 && items.iter().all(|item| !item.is_counted) && !self.goes_on_with_item();
        if !is_of_all {
            let Listed { item, details: own, .. } = items.pop()?;
            let is_list = matches!(&item, Item::Series(_));
            let mut listed = counted(count, item, own, is_list);
            self.add_details(&mut listed.details, details);
            self.push(items, listed, true);
            return None;
        }
        if items.len() > 1 {
            self.doubts.push(Doubt::WholeListRepeated { count });
        }
        Some((count, details))
    }

    /// Whether what comes next is neither the end of a list nor its next item.
    fn is_stuck(&mut self, depth: usize) -> bool {
        if self.goes_on_with_item() || self.is_at_end() {
            return false;
        }
        if self.is_trailing() {
            self.skip();
            return self.is_stuck(depth);
        }
        depth == 0 || !self.is_sign(0, ')')
    }

    /// Reports a word that fits nowhere, and goes on after it.
    pub(crate) fn not_understood(&mut self) {
        while self.is_sign(0, ',') || self.is_sign(0, ';') {
            self.skip();
        }
        let here = self.here();
        if self.is_sign(0, ')') {
            self.problem(here, "unmatched `)`", "leave it out, or add `(` before it");
            self.skip();
            return;
        }
        // After `finshing` the words `at the finish line` are not another fault.
        if self.lost_at == Some(self.place()) && self.word_at(0).is_some_and(|word| self.forms.is_known(word))
        {
            self.skip();
            self.skip_to_clause();
            self.lost_at = Some(self.place());
            return;
        }
        let message = format!("{} is not understood here", self.found());
        let further = if self.is_item(0) { BETWEEN_HELP } else { FURTHER_HELP };
        let help = self.did_you_mean().unwrap_or_else(|| further.to_owned());
        self.problem(here, message, help);
        let before = self.place();
        self.skip_to_clause();
        if self.place() == before {
            self.skip();
        }
        self.lost_at = Some(self.place());
    }

    /// A run or a series, with the clauses after it.
    fn item(&mut self, depth: usize) -> Option<Listed> {
        if depth >= DEEPEST_TEXT {
            self.problem(self.here(), TOO_DEEP, TOO_DEEP_HELP);
            while !self.is_at_end() {
                self.skip();
            }
            self.has_given_up = true;
            return None;
        }
        let begins = self.here().start;
        let is_behind_uncounted = std::mem::take(&mut self.is_behind_uncounted);
        if let Some(count) = self.count_before_item() {
            let is_list = self.is_behind_word(&["of", "sets"]) || self.is_behind(':');
            let is_in_brackets = self.is_sign(0, '(');
            self.sets += 1;
            let listed =
                if is_list && !is_in_brackets { self.list_of_a_set(depth + 1) } else { self.item(depth + 1) };
            self.sets -= 1;
            let Listed { item, details, .. } = listed?;
            let count = count.unwrap_or(1);
            let mut listed = counted(count, item, details, is_in_brackets);
            if count == 1
                && let Item::Run(run) = &mut listed.item
            {
                run.kind.span.start = begins;
            }
            return Some(self.in_sets(count, listed));
        }
        let is_in_brackets = self.is_sign(0, '(');
        let item = if is_in_brackets {
            let series = self.bracket(depth)?;
            self.as_one_run(series, begins)
        } else if let Some(item) =
            self.each_zone().or_else(|| self.ladder_of_times()).or_else(|| self.time_and_rest())
        {
            item
        } else {
            Item::Run(Box::new(self.run()?))
        };
        // `(300 + 150) x 3`, `200m x 6`
        // `900, 700, 500 x 2` counts the whole list.
        let has_count = self.is_times(0) && self.is_number(1) && !self.is_times(2) && !self.is_unit(2);
        let count = if has_count && !is_behind_uncounted {
            self.skip();
            let (value, span) = self.number()?;
            self.whole_count(value, span)
        } else {
            None
        };
        let mut details = Details::default();
        self.times_recovery(&mut details);
        self.follows_timed = is_bare_timed(&item);
        // What stands in brackets is a set of its own.
        let is_set = matches!(&item, Item::Series(series) if series.runs() > 1);
        self.sets += u32::from(is_set);
        self.clauses(&mut details);
        self.sets -= u32::from(is_set);
        self.follows_timed = false;
        let mut listed = match count {
            Some(count) => counted(count, item, details, is_in_brackets),
            None => own(item, details),
        };
        self.divide(&mut listed);
        self.run_in_behind(&mut listed);
        Some(listed)
    }

    /// `(60-40-60) fast-float-fast`: what stands in brackets is one run, where words behind say how each part is run.
    fn as_one_run(&mut self, series: Series, begins: usize) -> Item {
        let part = |item: &Item| match item {
            Item::Run(run) if run.details == Details::default() => match run.kind.value {
                RunKind::Plain(RunLength::Metres(metres)) => Some(metres),
                _ => None,
            },
            _ => None,
        };
        let parts: Option<Vec<f64>> = series.items.iter().map(part).collect();
        if let Some(parts) = parts
            && series.details == Details::default()
            && let Some(turns) = Turns::new(&parts)
            && self.are_ways_of_parts(parts.len())
        {
            let length = RunLength::Metres(parts.iter().sum());
            let span = begins..self.since(self.place() - 1).end;
            let kind = Spanned::new(RunKind::InAndOut { length, turns }, span);
            return Item::Run(Box::new(Run { kind, details: Details::default() }));
        }
        Item::Series(Box::new(series))
    }

    /// `each changeover`: one run through each takeover zone.
    fn each_zone(&mut self) -> Option<Item> {
        if !(self.is_word(0, &["each", "all"]) && self.is_exchange_name(1)) {
            return None;
        }
        let begins = self.place();
        self.skip_all(2);
        let span = self.since(begins);
        let run = |zone| {
            let kind = Spanned::new(RunKind::Exchange { zone }, span.clone());
            Item::Run(Box::new(Run { kind, details: Details::default() }))
        };
        Some(Item::Series(Box::new(Series {
            count: 1,
            items: (1..=3).map(run).collect(),
            details: Details::default(),
        })))
    }

    /// `30/30 s`: so long fast, and so long easy.
    fn time_and_rest(&mut self) -> Option<Item> {
        let is_here = self.number_at(0).is_some_and(|seconds| seconds <= 120.0)
            && self.is_sign(1, '/')
            && self.number_at(2).is_some_and(|seconds| seconds <= 120.0)
            && self.seconds_in(3) == Some(1.0);
        if !is_here {
            return None;
        }
        let (seconds, span) = self.number()?;
        self.skip();
        let (rest_s, rest_span) = self.number()?;
        self.skip();
        let kind = RunKind::Timed { seconds };
        self.last_run = Some(LastRun::Timed(seconds));
        let mut details = Details::default();
        details.recovery.gap = Some(Spanned::new(Gap::Rest(rest_s), rest_span));
        let run = Item::Run(Box::new(Run { kind: Spanned::new(kind, span), details: Details::default() }));
        Some(Item::Series(Box::new(Series { count: 1, items: vec![run], details })))
    }

    /// `1-2-3-2-1 min`: runs by time, each of another length.
    fn ladder_of_times(&mut self) -> Option<Item> {
        let mut count = 0;
        while count < 12 && self.number_at(2 * count).is_some_and(|number| number <= 30.0) {
            count += 1;
            if !self.is_sign(2 * count - 1, '-') && !self.is_sign(2 * count - 1, ',') {
                break;
            }
        }
        let unit_s = self.seconds_in((2 * count).checked_sub(1)?).filter(|_| count > 2)?;
        let mut items = Vec::with_capacity(count);
        for index in 0..count {
            let begins = self.place();
            let (value, _) = self.number()?;
            let seconds = value * unit_s;
            let kind = Spanned::new(RunKind::Timed { seconds }, self.since(begins));
            items.push(Item::Run(Box::new(Run { kind, details: Details::default() })));
            if index + 1 < count {
                self.skip();
            }
        }
        self.skip();
        self.last_run = None;
        Some(Item::Series(Box::new(Series { count: 1, items, details: Details::default() })))
    }

    /// The count in front of an item, which is stepped over: `6 x`, `3 sets of`, `6-8 x`, `4` of `4 flying 30s`; nothing
    /// where there is none, and a count of nothing where it was reported.
    fn count_before_item(&mut self) -> Option<Option<u32>> {
        let is_range = (self.is_sign(1, '-') || self.is_word(1, &["to", "or"]))
            && self.is_counted_item(2)
            && self
                .number_at(0)
                .zip(self.number_at(2))
                .is_some_and(|(least, most)| least < most && most < 60.0);
        if is_range {
            let (least, span) = self.number()?;
            self.skip();
            let least = self.whole_count(least, span);
            let most = self.count();
            if let (Some(least), Some(most)) = (least, most) {
                self.doubts.push(Doubt::CountRange { least, most });
                return Some(Some(least.max(most)));
            }
            return Some(most);
        }
        if self.is_number(0) && !self.is_distance_first() && (self.is_times(1) || self.is_count_word(1)) {
            return Some(self.count());
        }
        if self.is_count_before_name()
            || self.number_at(0).is_some_and(|count| count <= 12.0) && self.is_starts(1)
            || self.is_count_of_sets()
        {
            let (value, span) = self.number()?;
            let is_sets = self.word(&["sets", "set"]);
            let count = self.whole_count(value, span);
            if is_sets && self.is_sign(0, '-') {
                self.skip();
            }
            return Some(count);
        }
        None
    }

    /// `2 sets 3 x 5 hurdles`, `2 sets: 300, 200`
    fn is_count_of_sets(&self) -> bool {
        self.is_number(0) && self.is_word(1, &["sets", "set"]) && self.is_item(2)
    }

    /// What `3 sets of` counts: all runs of a list, up to the first clause.
    fn list_of_a_set(&mut self, depth: usize) -> Option<Listed> {
        let first = self.item(depth)?;
        let mut items = vec![first];
        while matches!(items.last(), Some(last) if !last.is_counted) {
            let before = self.place();
            let is_joined = [',', '-', '+', '/'].iter().any(|&sign| self.sign(sign))
                || self.word(&["and", "then", "plus"]);
            self.word(&["and", "then"]);
            let is_run = self.is_number(0)
                && !self.is_counted_item(0)
                && !self.is_duration()
                && !self.is_distance_jog();
            if !is_joined || !is_run {
                self.go_back(before);
                break;
            }
            let item = self.item(depth)?;
            items.push(item);
        }
        if items.len() == 1 {
            return items.pop();
        }
        // What stands behind the last run belongs to the sets.
        let mut series = self.joined(items)?;
        let details = std::mem::take(&mut series.details);
        Some(Listed { item: Item::Series(Box::new(series)), details, is_counted: false })
    }

    /// `20 x 400 in 4 sets of 5`, `16 x 200 - 8 @ 36, 8 @ 34`: how repetitions are cut into sets or shared among targets.
    fn in_sets(&mut self, count: u32, listed: Listed) -> Listed {
        let before = self.place();
        let begins = self.here();
        self.sign(',');
        self.sign('-');
        self.word(&["in", "as"]);
        let is_sets = self.is_number(0)
            && self.is_word(1, &["sets", "set"])
            && self.is_word(2, &["of"])
            && self.is_number(3)
            && !self.is_times(4)
            && self.metres_in(4).is_none();
        if is_sets && let (Some(sets), Some(each)) = (self.number_at(0), self.number_at(3)) {
            if sets * each == f64::from(count)
                && let Some(runs) = only_run(&listed.item)
            {
                self.skip_all(4);
                self.bind_since(before);
                self.asides.push(begins.start..self.since(before).end);
                let Listed { mut details, .. } = listed;
                let inner = Series { count: each as u32, items: vec![runs], details: Details::default() };
                let outer = Series {
                    count: sets as u32,
                    items: vec![Item::Series(Box::new(inner))],
                    details: Details::default(),
                };
                self.is_idle_sign();
                self.sets += 2;
                self.clauses(&mut details);
                self.sets -= 2;
                return Listed { item: Item::Series(Box::new(outer)), details, is_counted: true };
            }
            self.problem(
                begins,
                "the sets do not come to the repetitions in front",
                "write for example `4 x (5 x 400)`",
            );
            return listed;
        }
        self.go_back(before);
        self.shares(count, listed)
    }

    /// `:` in front of what belongs to sets.
    fn is_idle_sign(&mut self) {
        self.sign(':');
    }

    /// `16 x 200 - 8 @ 36, 8 @ 34`
    fn shares(&mut self, count: u32, listed: Listed) -> Listed {
        let before = self.place();
        let is_share = |cursor: &Self| {
            cursor.is_number(0)
                && (cursor.is_sign(1, '@') || cursor.is_word(1, &["at", "in"]))
                && cursor.is_number(2)
                && cursor.metres_in(3).is_none()
        };
        if !((self.is_sign(0, '-') || self.is_sign(0, ':') || self.is_sign(0, ',') || self.is_sign(0, '('))
            && listed.details.pace.is_none())
        {
            return listed;
        }
        let is_in_brackets = self.is_sign(0, '(');
        self.skip();
        let Some(run) = only_run(&listed.item).filter(|_| is_share(self)) else {
            self.go_back(before);
            return listed;
        };
        let (problems, mut left) = (self.problems.len(), count);
        let mut items = Vec::new();
        while left > 0 && is_share(self) {
            let Some((value, span)) = self.number() else { break };
            let Some(share) = self.whole_count(value, span).filter(|share| *share <= left) else { break };
            let mut details = Details::default();
            if !details.read(self) {
                break;
            }
            left -= share;
            let series = Series { count: share, items: vec![run.clone()], details };
            items.push(Item::Series(Box::new(series)));
            if left > 0 {
                self.sign(',');
                self.word(&["and", "then"]);
            }
        }
        if left > 0 || self.problems.len() > problems {
            self.problems.truncate(problems);
            self.go_back(before);
            return listed;
        }
        if is_in_brackets {
            self.sign(')');
        }
        let Listed { mut details, .. } = listed;
        self.said_counts.push(count);
        self.clauses(&mut details);
        let series = Series { count: 1, items, details: Details::default() };
        Listed { item: Item::Series(Box::new(series)), details, is_counted: true }
    }

    /// `5 x 700m x 2min`, `10 x 300m x 300m`: what a second times sign adds is the rest, or how far to jog.
    fn times_recovery(&mut self, details: &mut Details) {
        if !self.is_times(0) || !self.is_number(1) {
            return;
        }
        let before = self.place();
        self.skip();
        let begins = self.place();
        if self.is_duration() {
            if self.rests(&mut details.recovery, begins, false).is_err() {
                self.skip_to_clause();
            }
            return;
        }
        let is_metres = self.metres_tokens(0).is_some_and(|tokens| tokens == 2) && self.sets > 0;
        if is_metres && let Some((metres, span)) = self.metres() {
            details.recovery.kind = Some(Spanned::new(RecoveryKind::Jog(metres), span));
            return;
        }
        self.go_back(before);
    }

    /// `flying 30 x 4, 25m run-in`
    fn run_in_behind(&mut self, listed: &mut Listed) {
        let Some(own_m) = self.run_in_m.take() else { return };
        if let Some(RunKind::Flying { run_in_m, .. }) =
            run_of(&mut listed.item).map(|run| &mut run.kind.value)
        {
            *run_in_m = own_m;
        }
    }

    /// Gives the run of an item the parts that its times are for.
    fn divide(&mut self, listed: &mut Listed) {
        let Some(parts) = self.divided.take() else { return };
        let Some(run) = run_of(&mut listed.item) else { return };
        if let RunKind::Plain(length @ RunLength::Metres(metres)) = run.kind.value
            && let Some(turns) = Turns::new(&[metres / parts as f64])
        {
            run.kind.value = RunKind::InAndOut { length, turns };
        }
    }

    fn bracket(&mut self, depth: usize) -> Option<Series> {
        let begins = self.here();
        self.skip();
        if self.sign(')') {
            self.problem(begins, "empty brackets", "write for example `(300 + 200)`");
            return None;
        }
        let series = self.list(depth + 1);
        if !self.sign(')') && !self.has_given_up {
            self.problem(begins, "unclosed `(`", "add `)` after the last run");
        }
        series
    }

    /// A list as one series. What stands behind its last item and belongs to all of them becomes a detail of
    /// the series; a list of one series is that series.
    fn joined(&mut self, mut items: Vec<Listed>) -> Option<Series> {
        let Listed { item: last, details: mut of_all, .. } = items.pop()?;
        if items.is_empty() {
            return Some(match last {
                Item::Run(run) => Series { count: 1, items: vec![Item::Run(run)], details: of_all },
                Item::Series(mut series) => {
                    self.add(&mut series, of_all);
                    *series
                }
            });
        }
        // `4 x 1200 + 4 x 300, 3min / 60s`: a shorter second rest is that of the second item.
        let is_pair = items.len() == 1 && items[0].is_counted && items[0].details.recovery.gap.is_none();
        if is_pair
            && let (Some(Gap::Rest(first_s)), Some(second)) =
                (of_all.recovery.gap.as_deref(), of_all.recovery.set_rest.as_deref())
            && second < first_s
        {
            items[0].details.recovery.gap = of_all.recovery.gap.take();
            let second = of_all.recovery.set_rest.take();
            of_all.recovery.gap = second.map(|rest| Spanned::new(Gap::Rest(rest.value), rest.span));
        }
        let mut items: Vec<Item> =
            items.into_iter().map(|listed| self.attached(listed.item, listed.details)).collect();
        let is_alike = items.iter().all(|item| item.kind().is_some() && item.kind() == last.kind());
        let before: Vec<&Details> = items.iter().map(Item::details).collect();
        let of_last = of_all.take_for_last_run(&before, is_alike);
        items.push(self.attached(last, of_last));
        Some(Series { count: 1, items, details: of_all })
    }

    fn attached(&mut self, mut item: Item, details: Details) -> Item {
        match &mut item {
            Item::Run(run) => run.details = details,
            Item::Series(series) => self.add(series, details),
        }
        item
    }

    fn add(&mut self, series: &mut Series, details: Details) {
        let has_several_runs = series.runs_of_one_turn() > 1;
        series.details.add(details, self, has_several_runs);
    }
}

/// A series as what is repeated of it.
fn repeated(series: Series) -> Vec<Item> {
    if series.count == 1 && series.details == Details::default() {
        series.items
    } else {
        vec![Item::Series(Box::new(series))]
    }
}

/// The run of an item that has only one.
fn run_of(item: &mut Item) -> Option<&mut Run> {
    match item {
        Item::Run(run) => Some(run),
        Item::Series(series) => match series.items.as_mut_slice() {
            [Item::Run(run)] => Some(run),
            _ => None,
        },
    }
}

/// The run that is all there is in an item.
fn only_run(item: &Item) -> Option<Item> {
    match item {
        Item::Series(series) => match series.items.as_slice() {
            [Item::Run(run)] => Some(Item::Run(run.clone())),
            _ => None,
        },
        Item::Run(_) => None,
    }
}

/// Whether it is a run by time and nothing else: behind it a time alone is the next such run.
fn is_bare_timed(item: &Item) -> bool {
    matches!(item, Item::Run(run) if matches!(run.kind.value, RunKind::Timed { .. }) && run.details == Details::default())
}

/// The recovery that an easy run behind a harder one is: `400 hard / 400 easy`.
fn recovery_of(before: &Item, details: &Details, listed: &Listed) -> Option<Spanned<RecoveryKind>> {
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

/// What stands before a run, such as `easy 20 min`, becomes a detail of it like what follows.
fn own(mut item: Item, mut details: Details) -> Listed {
    if let Item::Run(run) = &mut item {
        let before = std::mem::take(&mut run.details);
        details.effort = effort::joined(before.effort, details.effort);
        details.pace = details.pace.or(before.pace);
        details.stance = details.stance.or(before.stance);
    }
    Listed { item, details, is_counted: false }
}

/// An item with its count.
fn counted(count: u32, item: Item, details: Details, is_in_brackets: bool) -> Listed {
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
        if is_in_brackets && series.runs_of_one_turn() == 1 && details.recovery.set_rest.is_none() {
            details.recovery.set_rest = series.details.recovery.set_rest.take();
        }
    }
    let item = Item::Series(Box::new(Series { count, items: vec![item], details: Details::default() }));
    Listed { item, details, is_counted: true }
}

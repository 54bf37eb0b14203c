//! Reading a series: items one after the other, and the clauses of one or of all of them.

use crate::block::{Item, Series};
use crate::cursor::Cursor;
use crate::forms::{Details, RunKind, effort};

/// The deepest that counts and brackets may be nested: a block that is printed has more of them than
/// series, and the deepest that is read must fit.
pub(crate) const DEEPEST_TEXT: usize = 40;

pub(crate) const TOO_DEEP: &str = "brackets are nested too deeply";
pub(crate) const TOO_DEEP_HELP: &str = "write fewer counts and brackets";
const BETWEEN_HELP: &str =
    "write `+` between two runs, or say what the number is: `@ 48s`, `rest 90s`, `in lane 2`";
const FURTHER_HELP: &str = "after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`";

/// An item and what stands behind it.
type ItemWithDetails = (Item, Details);

impl Cursor<'_> {
    /// Items with `+`, `,` or `-` between them, up to the end or the bracket that closes.
    pub(crate) fn list(&mut self, depth: usize) -> Option<Series> {
        let mut items: Vec<ItemWithDetails> = Vec::new();
        loop {
            match self.item(depth) {
                Some(item) => items.push(item),
                None => {
                    let mut lost = Details::default();
                    self.clauses(&mut lost);
                }
            }
            while self.is_stuck(depth) {
                self.not_understood();
                // Clauses go on where they are expected, so that their problems are told as well.
                let mut lost = Details::default();
                self.clauses(&mut lost);
            }
            let Some(separator) = self.separator() else { break };
            let is_after_timed = items.last().is_some_and(|(item, _)| is_timed(item));
            if separator == ',' && !is_after_timed {
                self.rest_or_run();
            }
        }
        self.joined(items)
    }

    /// Whether what comes next is neither the end of a list nor its next item.
    fn is_stuck(&mut self, depth: usize) -> bool {
        let before = self.place();
        let goes_on = self.separator().is_some();
        self.go_back(before);
        if goes_on || self.is_at_end() {
            return false;
        }
        if self.is_trailing() {
            self.skip();
            return self.is_stuck(depth);
        }
        depth == 0 || !self.is_sign(0, ')')
    }

    /// `10 x 400, 90s`: a duration alone behind a comma could be a rest or a run.
    fn rest_or_run(&mut self) {
        if !self.is_duration_alone_at(0) {
            return;
        }
        let before = self.place();
        if let Ok(seconds) = self.seconds("", "") {
            let written = &self.text[seconds.span.clone()];
            let help = format!("write `rest {written}`, or `{written} easy` for a run");
            self.problem(seconds.span, format!("`{written}` could be a rest or a run"), help);
        }
        self.go_back(before);
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
    fn item(&mut self, depth: usize) -> Option<ItemWithDetails> {
        if depth >= DEEPEST_TEXT {
            self.problem(self.here(), TOO_DEEP, TOO_DEEP_HELP);
            while !self.is_at_end() {
                self.skip();
            }
            self.has_given_up = true;
            return None;
        }
        if self.is_number(0) && !self.is_distance_first() && (self.is_times(1) || self.is_count_word(1)) {
            let count = self.count();
            let is_in_brackets = self.is_sign(0, '(');
            let (item, details) = self.item(depth + 1)?;
            return Some(counted(count.unwrap_or(1), item, details, is_in_brackets));
        }
        if self.is_count_before_name() {
            let (value, span) = self.number()?;
            let count = self.whole_count(value, span);
            let (item, details) = self.item(depth + 1)?;
            return Some(counted(count.unwrap_or(1), item, details, false));
        }
        let is_in_brackets = self.is_sign(0, '(');
        let item = if is_in_brackets {
            Item::Series(Box::new(self.bracket(depth)?))
        } else {
            Item::Run(Box::new(self.run()?))
        };
        // `(300 + 150) x 3`, `200m x 6`
        let count = if self.is_times(0) && self.is_number(1) && !self.is_times(2) {
            self.skip();
            let (value, span) = self.number()?;
            self.whole_count(value, span)
        } else {
            None
        };
        let mut details = Details::default();
        self.clauses(&mut details);
        Some(match count {
            Some(count) => counted(count, item, details, is_in_brackets),
            None => own(item, details),
        })
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
    fn joined(&mut self, mut items: Vec<ItemWithDetails>) -> Option<Series> {
        let (last, mut of_all) = items.pop()?;
        if items.is_empty() {
            return Some(match last {
                Item::Run(run) => Series { count: 1, items: vec![Item::Run(run)], details: of_all },
                Item::Series(mut series) => {
                    self.add(&mut series, of_all);
                    *series
                }
            });
        }
        let mut items: Vec<Item> =
            items.into_iter().map(|(item, details)| self.attached(item, details)).collect();
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

fn is_timed(item: &Item) -> bool {
    match item {
        Item::Run(run) => matches!(run.kind.value, RunKind::Timed { .. }),
        Item::Series(series) => series.items.last().is_some_and(is_timed),
    }
}

/// What stands before a run, such as `easy 20 min`, becomes a detail of it like what follows.
fn own(mut item: Item, mut details: Details) -> ItemWithDetails {
    if let Item::Run(run) = &mut item {
        details.effort = effort::joined(run.details.effort.take(), details.effort);
    }
    (item, details)
}

/// An item with its count.
fn counted(count: u32, item: Item, details: Details, is_in_brackets: bool) -> ItemWithDetails {
    let (mut item, mut details) = own(item, details);
    if count == 1 {
        return (item, details);
    }
    if let Item::Series(series) = &mut item {
        if series.count == 1 {
            series.count = count;
            return (item, details);
        }
        // `2 x (4 x 200 rest 60s / 5min)`: those sets are the turns of the count before.
        if is_in_brackets && series.runs_of_one_turn() == 1 && details.recovery.set_rest.is_none() {
            details.recovery.set_rest = series.details.recovery.set_rest.take();
        }
    }
    (Item::Series(Box::new(Series { count, items: vec![item], details: Details::default() })), details)
}

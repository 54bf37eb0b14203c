//! Items one after the other, and what is said of one or of all of them.

use super::vocabulary;
use crate::block::{Details, Gap, Group, Item, MOST_REPS, Pace, RunKind};
use crate::cursor::Cursor;
use crate::spanned::Spanned;

/// The deepest that counts and brackets may be nested: a block that is printed has more of them than
/// groups, and the deepest that is read must fit.
pub(crate) const DEEPEST_TEXT: usize = 40;

/// A count below this is no distance, and a distance is not below it.
const LEAST_RUN_M: f64 = 10.0;

pub(crate) const TOO_DEEP: &str = "groups are nested too deep";
pub(crate) const TOO_DEEP_HELP: &str = "write fewer counts and brackets";
const BETWEEN_HELP: &str =
    "write `+` between two runs, or say what the number is: `@ 48s`, `rest 90s`, `in lane 2`";
const FURTHER_HELP: &str = "after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`";

/// An item and what is said behind it.
type Said = (Item, Details);

impl Cursor<'_> {
    /// Items with `+`, `,` or `-` between them, up to the end or the bracket that closes.
    pub(crate) fn list(&mut self, depth: usize) -> Option<Group> {
        let mut items: Vec<Said> = Vec::new();
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

    /// Whether a comma or a full stop stands at the end of everything.
    fn is_trailing(&self) -> bool {
        let is_end = self.kind(1).is_none() || self.is_sign(1, ')');
        is_end && [',', ';', '.'].iter().any(|&sign| self.is_sign(0, sign))
    }

    /// Steps over what stands between two items, if it does; a comma says less than a plus.
    fn separator(&mut self) -> Option<char> {
        let before = self.place();
        let mut is_said = false;
        let mut is_comma = false;
        loop {
            if self.sign('+') || self.word(&["then", "and", "plus"]) || self.phrase(&["followed", "by"]) {
                is_said = true;
            } else if self.sign(',') || self.sign(';') {
                is_comma = true;
            } else {
                break;
            }
        }
        // `6 x 200 / 90s` is told of like `6 x 200, 90s`.
        is_comma |= !is_said && self.is_duration_at(1) && self.sign('/');
        let is_dash = !is_said && !is_comma && self.is_number(1) && (self.sign('-') || self.sign('/'));
        // `300 (3min) 200` needs no more than the brackets. A plus or a word wants something behind it; a comma may stand anywhere.
        let is_behind_brackets = self.is_behind(')') && self.is_number(0);
        let goes_on = is_said || is_dash || is_behind_brackets || is_comma && self.is_item(0);
        if !goes_on {
            self.go_back(before);
            return None;
        }
        Some(if is_comma && !is_said { ',' } else { '+' })
    }

    /// `10 x 400, 90s`: a duration alone behind a comma could be a rest or a run.
    fn rest_or_run(&mut self) {
        if !self.is_duration_alone_at(0) {
            return;
        }
        let before = self.place();
        if let Some(seconds) = self.seconds("", "") {
            let written = &self.text[seconds.span.clone()];
            let help = format!("write `rest {written}`, or `{written} easy` for a run");
            self.problem(seconds.span, format!("`{written}` could be a rest or a run"), help);
        }
        self.go_back(before);
    }

    /// Tells of a word that fits nowhere, and goes on behind it.
    pub(crate) fn not_understood(&mut self) {
        while self.is_sign(0, ',') || self.is_sign(0, ';') {
            self.skip();
        }
        let here = self.here();
        if self.is_sign(0, ')') {
            self.problem(here, "this bracket closes none", "leave it out, or open one with `(`");
            self.skip();
            return;
        }
        // Behind `finshing` the words `at the finish line` are no other fault.
        if self.lost_at == Some(self.place()) && self.word_at(0).is_some_and(vocabulary::is_known) {
            self.skip();
            self.skip_to_clause();
            self.lost_at = Some(self.place());
            return;
        }
        let near = self.word_at(0).and_then(vocabulary::did_you_mean);
        let message = format!("{} is not understood here", self.found());
        let further = if self.is_item(0) { BETWEEN_HELP } else { FURTHER_HELP };
        self.problem(here, message, near.unwrap_or_else(|| further.to_owned()));
        let before = self.place();
        self.skip_to_clause();
        if self.place() == before {
            self.skip();
        }
        self.lost_at = Some(self.place());
    }

    /// Whether an item begins `ahead` of the next token.
    pub(crate) fn is_item(&self, ahead: usize) -> bool {
        self.is_number(ahead)
            || self.is_sign(ahead, '(')
            || self.is_run_name(ahead)
            || (self.is_effort(ahead) || self.is_word(ahead, &["jog", "walk", "run"]))
                && self.is_number(ahead + 1)
    }

    /// A run or a group, with what is said behind it.
    fn item(&mut self, depth: usize) -> Option<Said> {
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
            let (item, said) = self.item(depth + 1)?;
            return Some(counted(count.unwrap_or(1), item, said, is_in_brackets));
        }
        if self.is_count_before_name() {
            let (value, span) = self.number()?;
            let count = self.whole_count(value, span);
            let (item, said) = self.item(depth + 1)?;
            return Some(counted(count.unwrap_or(1), item, said, false));
        }
        let is_in_brackets = self.is_sign(0, '(');
        let item = if is_in_brackets {
            Item::Group(Box::new(self.bracket(depth)?))
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
        let mut said = Details::default();
        self.clauses(&mut said);
        Some(match count {
            Some(count) => counted(count, item, said, is_in_brackets),
            None => own(item, said),
        })
    }

    /// `200 x 6`: nobody runs 200 times 6 m.
    fn is_distance_first(&self) -> bool {
        let is_so = self.is_times(1)
            && self.number_at(0).is_some_and(|metres| metres >= LEAST_RUN_M)
            && self.number_at(2).is_some_and(|count| count < LEAST_RUN_M);
        let is_unit = self.metres_in(3).is_some()
            || self.seconds_in(3).is_some()
            || self.is_word(3, &["lap", "laps"])
            || self.is_sign(3, ':')
            || self.is_times(3)
            || self.is_count_word(3)
            || self.is_sign(3, ',')
                && self.is_glued(3)
                && self.written_at(4).is_some_and(|text| text.len() == 3);
        is_so && !is_unit
    }

    /// Whether a word behind a count stands `ahead`: `sets of`, `times`, `reps x`.
    pub(crate) fn is_count_word(&self, ahead: usize) -> bool {
        self.is_word(ahead, &["times", "by"])
            || self.is_word(ahead, &["set", "sets", "rep", "reps", "lots", "series"])
                && (self.is_word(ahead + 1, &["of"])
                    || self.is_times(ahead + 1)
                    || self.is_number(ahead + 1)
                    || self.is_sign(ahead + 1, '(')
                    || self.is_sign(ahead + 1, ':'))
    }

    fn count(&mut self) -> Option<u32> {
        let (value, span) = self.number()?;
        let is_times = self.is_times(0);
        self.skip();
        if !is_times && self.is_times(0) || self.is_word(0, &["of"]) || self.is_sign(0, ':') {
            self.skip();
        }
        self.whole_count(value, span)
    }

    fn whole_count(&mut self, value: f64, span: std::ops::Range<usize>) -> Option<u32> {
        let is_count = value.fract() == 0.0 && (1.0..=f64::from(MOST_REPS)).contains(&value);
        if !is_count {
            let message = if value.fract() == 0.0 && value > 0.0 {
                format!("`{}` repetitions are too many", &self.text[span.clone()])
            } else {
                format!("`{}` is no number of repetitions", &self.text[span.clone()])
            };
            self.problem(span, message, format!("write a whole number from 1 to {MOST_REPS}"));
        }
        is_count.then_some(value as u32)
    }

    fn bracket(&mut self, depth: usize) -> Option<Group> {
        let begins = self.here();
        self.skip();
        if self.sign(')') {
            self.problem(begins, "there is nothing in this bracket", "write for example `(300 + 200)`");
            return None;
        }
        let group = self.list(depth + 1);
        if !self.sign(')') && !self.has_given_up {
            self.problem(begins, "this bracket is not closed", "add `)` after the last run of the group");
        }
        group
    }

    /// A list as one group. What was said behind its last item and means all of them is said of the
    /// group; a list of one group is that group.
    fn joined(&mut self, mut said: Vec<Said>) -> Option<Group> {
        let (last, last_said) = said.pop()?;
        if said.is_empty() {
            return Some(match last {
                Item::Run(run) => Group { count: 1, items: vec![Item::Run(run)], details: last_said },
                Item::Group(mut group) => {
                    self.add(&mut group, last_said);
                    *group
                }
            });
        }
        let mut items: Vec<Item> = said.into_iter().map(|(item, said)| self.attached(item, said)).collect();
        let (of_all, of_last) = shared(&items, &last, last_said);
        items.push(self.attached(last, of_last));
        Some(Group { count: 1, items, details: of_all })
    }

    fn attached(&mut self, mut item: Item, said: Details) -> Item {
        match &mut item {
            Item::Run(run) => run.details = said,
            Item::Group(group) => self.add(group, said),
        }
        item
    }

    /// Adds what is said behind a group to what is said in it. A second rest is the one between its
    /// turns, where a turn has several runs.
    fn add(&mut self, group: &mut Group, mut said: Details) {
        let once = group.runs() / group.count.max(1);
        let (own, more) = (&mut group.details.recovery, &mut said.recovery);
        let is_rest = more.between.as_deref().is_some_and(|gap| matches!(gap, Gap::Rest(_)));
        if once > 1 && own.between.is_some() && is_rest && own.sets.is_none() && more.sets.is_none() {
            own.sets = more.between.take();
        }
        let (own, more) = (&mut group.details, said);
        self.add_one(&mut own.lanes, more.lanes, "list of lanes");
        self.add_one(&mut own.place, more.place, "place");
        self.add_one(&mut own.from, more.from, "start");
        self.add_one(&mut own.to, more.to, "finish");
        self.add_one(&mut own.together, more.together, "start as a group");
        self.add_one(&mut own.pace, more.pace, "pace");
        self.add_one(&mut own.effort, more.effort, "effort");
        self.add_one(&mut own.recovery.way, more.recovery.way, "way to the next start");
        self.add_one(&mut own.recovery.between, more.recovery.between, "rest");
        self.add_one(&mut own.recovery.sets, more.recovery.sets, "rest between sets");
    }

    fn add_one<T>(&mut self, own: &mut Option<Spanned<T>>, more: Option<Spanned<T>>, what: &str) {
        match more {
            Some(more) if own.is_some() => {
                let message = format!("a second {what} for the same run");
                self.problem(more.span, message, "keep one of them");
            }
            Some(more) => *own = Some(more),
            None => {}
        }
    }
}

fn is_timed(item: &Item) -> bool {
    match item {
        Item::Run(run) => matches!(run.kind.value, RunKind::Timed { .. }),
        Item::Group(group) => group.items.last().is_some_and(is_timed),
    }
}

/// What a run brought with itself, such as `easy 20 min`, is said of it like what follows.
fn own(mut item: Item, mut said: Details) -> Said {
    if let Item::Run(run) = &mut item {
        let before = std::mem::take(&mut run.details);
        said.effort = match (before.effort, said.effort) {
            (Some(before), Some(after)) => {
                let span = before.span.start..after.span.end;
                Some(Spanned::new(format!("{} {}", before.value, after.value), span))
            }
            (before, after) => before.or(after),
        };
    }
    (item, said)
}

/// An item so many times.
fn counted(count: u32, item: Item, said: Details, is_in_brackets: bool) -> Said {
    let (mut item, mut said) = own(item, said);
    if count == 1 {
        return (item, said);
    }
    if let Item::Group(group) = &mut item {
        if group.count == 1 {
            group.count = count;
            return (item, said);
        }
        // `2 x (4 x 200 rest 60s / 5min)`: those sets are the turns of the count before.
        let is_of_single_runs = group.runs() / group.count.max(1) == 1;
        if is_in_brackets && is_of_single_runs && said.recovery.sets.is_none() {
            said.recovery.sets = group.details.recovery.sets.take();
        }
    }
    (Item::Group(Box::new(Group { count, items: vec![item], details: Details::default() })), said)
}

/// Of what is said behind the last item of a list, what means all items, and what that one alone:
/// what an earlier item has of its own, and times and efforts, unless all runs are alike.
fn shared(before: &[Item], last: &Item, mut said: Details) -> (Details, Details) {
    let kind = |item: &Item| match item {
        Item::Run(run) => Some(run.kind.value),
        Item::Group(_) => None,
    };
    let is_alike = before.iter().all(|item| kind(item).is_some() && kind(item) == kind(last));
    let has = |get: fn(&Details) -> bool| {
        before.iter().any(|item| match item {
            Item::Run(run) => get(&run.details),
            Item::Group(group) => get(&group.details),
        })
    };
    let is_time = matches!(said.pace.as_deref(), Some(Pace::Time { .. }));
    let mut own = Details::default();
    if has(|details| details.pace.is_some()) || is_time && !is_alike {
        own.pace = said.pace.take();
    }
    if has(|details| details.effort.is_some()) || !is_alike {
        own.effort = said.effort.take();
    }
    if has(|details| details.lanes.is_some()) {
        own.lanes = said.lanes.take();
    }
    if has(|details| details.place.is_some()) {
        own.place = said.place.take();
    }
    if has(|details| details.from.is_some()) {
        own.from = said.from.take();
    }
    if has(|details| details.to.is_some()) {
        own.to = said.to.take();
    }
    if has(|details| details.together.is_some()) {
        own.together = said.together.take();
    }
    if has(|details| details.recovery.way.is_some()) {
        own.recovery.way = said.recovery.way.take();
    }
    if has(|details| details.recovery.between.is_some()) {
        own.recovery.between = said.recovery.between.take();
    }
    (said, own)
}

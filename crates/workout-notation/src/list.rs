//! Reading a series: items one after the other, and the clauses of one or of all of them.

use crate::block::{Item, Series};
use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::forms::{Details, Gap, Pace, Recovery, RunKind};
use crate::listed::{Listed, counted, easy_behind_repetitions, is_bare_timed, recovery_of, repeated, run_in};
use crate::spanned::Spanned;

const BETWEEN_HELP: &str =
    "write `+` between two runs, or say what the number is: `@ 48s`, `rest 90s`, `in lane 2`";
const FURTHER_HELP: &str = "after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`";

/// A rest in seconds without a word is hardly longer.
const LONGEST_REST_S: f64 = 180.0;

impl Cursor<'_> {
    /// Items with `+`, `,` or `-` between them, up to the end or the bracket that closes.
    pub(crate) fn list(&mut self, depth: usize) -> Option<Series> {
        // Most lists are one item, and an item is large.
        let mut items: Vec<Listed> = Vec::with_capacity(1);
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
        // `3 x 30m, 3 @ 5`: a share that is all of it.
        if series.count == 1
            && series.details == Details::default()
            && let [Item::Series(only)] = series.items.as_slice()
        {
            series = (**only).clone();
        }
        if let Some((count, details)) = of_all {
            // What is done once is the list itself, with what stands behind it.
            series = if series.count == 1 {
                Series { count, ..series }
            } else {
                Series { count, items: repeated(series), details: Details::default() }
            };
            self.add(&mut series, details);
        }
        Some(series)
    }

    /// Adds an item to a list, with the values that stand behind it for each of its runs. An easy run behind a hard one
    /// is the recovery between two of them.
    fn push(&mut self, items: &mut Vec<Listed>, mut listed: Listed, is_behind_plus: bool) {
        if listed.is_counted {
            self.share_rests(items, &mut listed);
            // `2 x 90s, 4 x 60s, equal float`: what is as long as each run is said of all of them.
            let is_of_all =
                !items.is_empty() && items.iter().all(|item| item.details.recovery == Recovery::default());
            let equal = self.shared.equal.take_if(|_| is_of_all);
            let doubt = self.shared.share(&mut listed.item);
            self.doubts.extend(doubt);
            self.shared.equal = self.shared.equal.take().or(equal);
        }
        if let Some(last) = items.last_mut()
            && self.rest_in_list(last, &listed, is_behind_plus)
        {
            return;
        }
        if let Some(last) = items.last_mut()
            && !is_behind_plus
            && let Some(jog) = recovery_of(&last.item, &last.details, &listed)
                .or_else(|| easy_behind_repetitions(last, &listed).filter(|_| !self.goes_on_with_item()))
        {
            last.details.recovery.kind = Some(jog);
            let Listed { item: _, details, .. } = listed;
            // What else stands behind it belongs to the list.
            self.add_details(&mut last.details, details);
            return;
        }
        if let Some(last) = items.last_mut()
            && !is_behind_plus
            && let Some(rest) = self.rest_behind_timed(last, &listed)
        {
            self.doubts.push(Doubt::RestOrRun { seconds: *rest });
            last.details.recovery.gap = Some(Spanned::new(Gap::Rest(*rest), rest.span));
            return;
        }
        if let Some(last) = items.last()
            && !is_behind_plus
            && let Some(seconds) = self.could_be_rest(last, &listed)
        {
            self.doubts.push(Doubt::RunOrRest { seconds });
        }
        items.push(listed);
    }

    /// `6 x 3 min, 90s`: a time at the end, behind repetitions by time that have no rest, is their rest.
    fn rest_behind_timed(&self, last: &Listed, listed: &Listed) -> Option<Spanned<f64>> {
        let (Item::Run(run), RunKind::Timed { .. }) = (&listed.item, run_in(&last.item)?.kind.value) else {
            return None;
        };
        let RunKind::Timed { seconds } = run.kind.value else { return None };
        let before = self.text.get(..run.kind.span.start).unwrap_or_default().trim_end();
        let is_so = last.is_counted
            && last.details.recovery == Recovery::default()
            && is_bare_timed(&listed.item)
            && !listed.is_counted
            && listed.details == Details::default()
            && before.ends_with([',', '/', '-'])
            && self.is_at_end();
        is_so.then(|| Spanned::new(seconds, run.kind.span.clone()))
    }

    /// `3 x 400 @ 60, 90`: a number alone at the end, behind repetitions with a time and without a rest, is a run; it could
    /// be their rest, in seconds.
    fn could_be_rest(&self, last: &Listed, listed: &Listed) -> Option<f64> {
        let has_time = matches!(last.details.pace.as_deref(), Some(Pace::Time { .. }));
        let is_alone = !listed.is_counted && listed.details == Details::default() && self.is_at_end();
        let is_free = last.is_counted && has_time && last.details.recovery == Recovery::default();
        (is_alone && is_free)
            .then(|| self.number_before(1))
            .flatten()
            .filter(|seconds| *seconds <= LONGEST_REST_S)
    }

    /// `3 x 100, 3 x 200, 3 x 300 (1', 2', 3')`: as many rests as counted items, one for each.
    fn share_rests(&mut self, items: &mut [Listed], last: &mut Listed) {
        let all_are_free =
            items.iter().all(|item| item.is_counted && item.details.recovery == Recovery::default());
        if items.is_empty() || !all_are_free || self.shared.rests.len() != items.len() + 1 {
            return;
        }
        let rests = std::mem::take(&mut self.shared.rests);
        for (item, rest) in items.iter_mut().chain([last]).zip(rests) {
            item.details.recovery.gap = Some(Spanned::new(Gap::Rest(rest.value), rest.span));
        }
    }

    fn add_details(&mut self, own: &mut Details, more: Details) {
        let more = Details { effort: None, ..more };
        own.add(more, self, false);
    }

    /// `x 2`, `repeat`, `twice` behind a list, and what stands behind that: for the whole list where none of its runs has
    /// a count of its own, else for the last item.
    fn times_whole_list(&mut self, items: &mut Vec<Listed>) -> Option<(u32, Details)> {
        if self.is_at_end() {
            return None;
        }
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
        } else if self.is_number(0)
            && self.is_word(1, &["times", "sets", "rounds", "series"])
            && !self.is_item(2)
            && !self.is_word(2, &["of"])
        {
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
            // `10 x 100 (15s) x 2, 4 min`: a second rest is the one between the turns.
            if (own.recovery.gap.is_some() || own.recovery.kind.is_some())
                && details.recovery.set_rest.is_none()
                && matches!(&item, Item::Series(series) if series.runs() > 1)
                && let Some(Gap::Rest(seconds)) = details.recovery.gap.as_deref().copied()
                && let Some(gap) = details.recovery.gap.take()
            {
                details.recovery.set_rest = Some(Spanned::new(seconds, gap.span));
            }
            let mut listed = counted(count, item, own);
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
        if self.is_at_end() || self.goes_on_with_item() {
            return false;
        }
        if self.is_trailing() {
            self.skip();
            return self.is_stuck(depth);
        }
        depth == 0 || !self.is_sign(0, ')')
    }

    /// `@ 54 (48 for Ada)`, `@ 54 (Ada 48)`: what to write where a number is somebody's alone.
    fn help_for_one(&self) -> Option<String> {
        let is_name = |word: &&str| word.starts_with(char::is_uppercase) && word.len() > 1;
        let behind = self.word_at(2).filter(|_| self.is_word(1, &["for"]) && !self.is_known(2));
        let name = behind.or_else(|| self.word_before()).filter(is_name).filter(|_| self.is_number(0))?;
        Some(format!("name who runs it in front of a line: `{name}: …`, and the others in front of theirs"))
    }

    /// What to write for `every 4th at 68`, `the 4th and 8th at 68`.
    fn help_for_some(&self) -> Option<String> {
        const NUMBERS: [&str; 8] = ["other", "second", "third", "fourth", "fifth", "sixth", "2nd", "3rd"];
        let is_nth = |ahead| {
            self.is_word(ahead, &NUMBERS)
                || self.is_number(ahead) && self.is_word(ahead + 1, &["st", "nd", "rd", "th"])
        };
        // `every 4th at 68`, where the number behind it is what does not fit.
        let mut before = self.text[..self.here().start].split_whitespace().rev().take(4);
        let is_behind = before.any(|word| word.eq_ignore_ascii_case("every"));
        let is_here = is_behind || self.is_word(0, &["every", "each", "the"]) && is_nth(1);
        is_here.then(|| "write those in turn as sets: `2 x (3 x 400 + 400 @ 68)`".to_owned())
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
        if self.lost_at == Some(self.place()) && self.is_known(0) {
            self.skip();
            self.skip_to_clause();
            self.lost_at = Some(self.place());
            return;
        }
        let message = format!("{} is not understood here", self.found());
        let further = if self.is_item(0) { BETWEEN_HELP } else { FURTHER_HELP };
        let help = self
            .did_you_mean()
            .or_else(|| self.help_for_some())
            .or_else(|| self.help_for_one())
            .unwrap_or_else(|| further.to_owned());
        self.problem(here, message, help);
        let before = self.place();
        self.skip_to_clause();
        if self.place() == before {
            self.skip();
        }
        self.lost_at = Some(self.place());
    }

    /// A list as one series. What stands behind its last item and belongs to all of them becomes a detail of
    /// the series; a list of one series is that series.
    pub(crate) fn joined(&mut self, mut items: Vec<Listed>) -> Option<Series> {
        let Listed { item: last, details: mut of_all, is_counted: is_last_counted } = items.pop()?;
        let items_are_single = items.iter().all(|item| !item.is_counted);
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
        // `1500 then 6 x 200 (200 jog)`: brackets behind repetitions are theirs, and not for single runs before.
        // `3 x 1600 (3min) + 4 x 200 (200 jog)`: so are they where those before have theirs.
        let have_own = items.iter().all(|item| item.details().recovery != Recovery::default());
        let own_recovery = if is_last_counted
            && (items_are_single || have_own)
            && self.is_first_in_brackets(&of_all.recovery)
        {
            std::mem::take(&mut of_all.recovery)
        } else {
            Recovery::default()
        };
        let is_alike = items.iter().all(|item| item.kind().is_some() && item.kind() == last.kind());
        let before: Vec<&Details> = items.iter().map(Item::details).collect();
        let mut of_last = of_all.take_for_last_run(&before, is_alike);
        // `10 min tempo, 4 x 200 @ mile pace`: whoever has an effort has no pace of another run. Between runs without
        // one, as in `300 + 2 min easy + 300 @ 1000 pace`, it is no more than a recovery.
        let all_have_efforts = before.iter().all(|earlier| earlier.effort.is_some());
        // `3 x 30, 3 min, 3 x 120 @ 95%, 8 min`: neither has one of whom all is said before.
        let is_said = all_have_efforts || have_own && is_last_counted && !items_are_single;
        if !is_alike && of_last.pace.is_none() && is_said {
            of_last.pace = of_all.pace.take();
        }
        if own_recovery != Recovery::default() {
            of_last.recovery = own_recovery;
        }
        items.push(self.attached(last, of_last));
        Some(Series { count: 1, items, details: of_all })
    }

    /// Whether a recovery between runs is the first thing in brackets.
    fn is_first_in_brackets(&self, recovery: &Recovery) -> bool {
        let kind = recovery.kind.as_ref().map(|kind| kind.span.start);
        let gap = recovery.gap.as_ref().map(|gap| gap.span.start);
        let is_first = |begins: usize| self.text[..begins].trim_end().ends_with('(');
        kind.into_iter().chain(gap).any(is_first)
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

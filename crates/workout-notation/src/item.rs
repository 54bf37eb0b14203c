//! Reading one item of a list: a run or a series, with its count and what stands behind it.

use crate::block::{Item, Series};
use crate::cursor::Cursor;
use crate::doubt::Doubt;
use crate::forms::note::MOST_COUNTED;
use crate::forms::{Details, FURTHEST_M, Gap, RecoveryKind, Run, RunKind, RunLength, effort, stance};
use crate::last_run::LastRun;
use crate::listed::{Listed, counted, is_bare_timed, own, run_of};
use crate::phrases::Phrases;
use crate::spanned::Spanned;
use crate::turns::Turns;

/// The deepest that counts and brackets may be nested: a block that is printed has more of them than
/// series, and the deepest that is read must fit.
pub(crate) const DEEPEST_TEXT: usize = 40;

pub(crate) const TOO_DEEP: &str = "brackets are nested too deeply";
pub(crate) const TOO_DEEP_HELP: &str = "write fewer counts and brackets";

impl Cursor<'_> {
    /// A run or a series, with the clauses after it.
    pub(crate) fn item(&mut self, depth: usize) -> Option<Listed> {
        if depth >= DEEPEST_TEXT {
            self.problem(self.here(), TOO_DEEP, TOO_DEEP_HELP);
            while !self.is_at_end() {
                self.skip();
            }
            self.has_given_up = true;
            return None;
        }
        if let Some(in_front) = self.details_before_count() {
            let mut listed = self.item(depth + 1)?;
            let own = &mut listed.details;
            own.effort = effort::joined(in_front.effort, own.effort.take());
            own.stance = own.stance.take().or(in_front.stance);
            return Some(listed);
        }
        let begins = self.here().start;
        let is_behind_uncounted = std::mem::take(&mut self.is_behind_uncounted);
        if let Some(count) = self.count_before_item() {
            let is_list = self.is_behind_word(&["of", "sets"])
                || self.is_behind(':')
                || self.is_behind_times() && self.is_glued_list();
            let is_in_brackets = self.is_sign(0, '(');
            // `1 x 300` is one run of a list.
            let sets = u32::from(count != Some(1));
            self.sets += sets;
            let listed =
                if is_list && !is_in_brackets { self.list_of_a_set(depth + 1) } else { self.item(depth + 1) };
            self.sets -= sets;
            let Listed { item, details, .. } = listed?;
            let count = count.unwrap_or(1);
            let mut listed = counted(count, item, details);
            if count == 1
                && let Item::Run(run) = &mut listed.item
            {
                run.kind.span.start = begins;
            }
            return Some(self.in_sets(count, listed));
        }
        let is_in_brackets = self.is_sign(0, '(');
        let mut details = Details::default();
        let mut is_in_turn = false;
        let mut item = if let Some(item) = self.straights_and_bends(&mut details).ok()? {
            is_in_turn = true;
            item
        } else if is_in_brackets {
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
        self.times_recovery(&mut details);
        if self.sets > 0
            && self.is_word(0, &["relay", "relays"])
            && (self.word_at(1).is_none() || self.is_times(1))
        {
            self.doubts.push(Doubt::RelayOrRuns);
        }
        self.follows_timed = is_bare_timed(&item);
        // What stands in brackets is a set of its own.
        let is_set = matches!(&item, Item::Series(series) if series.runs() > 1);
        self.sets += u32::from(is_set);
        self.clauses(&mut details);
        self.sets -= u32::from(is_set);
        self.follows_timed = false;
        if let Item::Series(series) = &mut item
            && is_in_turn
        {
            series.details.recovery.go_on_with(&mut details.recovery);
        }
        let mut listed = match count {
            Some(count) => counted(count, item, details),
            None => own(item, details),
        };
        self.divide(&mut listed);
        self.run_in_behind(&mut listed);
        Some(listed)
    }

    /// `easy 4 x 200`, `standing starts 6 x 20`: steps over what stands in front of a count and is said of its runs.
    fn details_before_count(&mut self) -> Option<Details> {
        let begins = self.place();
        let mut details = Details::default();
        if self.is_effort(0) {
            details.effort = Some(self.effort());
        } else if !self.word_at(0).is_some_and(|_| (stance::STANCE.read)(self, &mut details.stance)) {
            return None;
        }
        let is_so = self.is_number(0) && self.is_times(1);
        if !is_so {
            self.go_back(begins);
        }
        is_so.then_some(details)
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
            && (self.is_sign(1, '/') || self.is_sign(1, '-') && self.number_at(0) == self.number_at(2))
            && self.number_at(2).is_some_and(|seconds| seconds <= 120.0)
            && (self.seconds_in(3) == Some(1.0) || self.is_half_minutes());
        // `20s/10s`
        let has_units = self.sets > 0
            && self.seconds_in(1) == Some(1.0)
            && self.is_sign(2, '/')
            && self.is_number(3)
            && self.seconds_in(4) == Some(1.0)
            && self.word_at(5).is_none();
        if !is_here && !has_units {
            return None;
        }
        // A time that cannot be is a problem; what stands behind it is read all the same.
        let begins = self.place();
        let (seconds, span) = self.number()?;
        let _ = self.time_that_can_be(seconds, begins, "how long to run");
        self.skip_all(if has_units { 2 } else { 1 });
        let begins = self.place();
        let (rest_s, rest_span) = self.number()?;
        if self.seconds_in(0).is_some() {
            self.skip();
        }
        let _ = self.time_that_can_be(rest_s, begins, "a rest");
        let kind = RunKind::Timed { seconds };
        self.last_run = Some(LastRun::Timed(seconds));
        let mut details = Details::default();
        details.recovery.gap = Some(Spanned::new(Gap::Rest(rest_s), rest_span));
        let run = Item::Run(Box::new(Run { kind: Spanned::new(kind, span), details: Details::default() }));
        Some(Item::Series(Box::new(Series { count: 1, items: vec![run], details })))
    }

    /// `20 x 30/30`: seconds without a unit, which nobody would run as metres so often.
    fn is_half_minutes(&self) -> bool {
        let is_time = |ahead| {
            self.number_at(ahead).is_some_and(|number| (10.0..=60.0).contains(&number) && number % 5.0 == 0.0)
        };
        // `30/30 x 10`
        let is_counted_behind = self.number_at(0) == self.number_at(2)
            && self.is_times(3)
            && self.is_number(4)
            && self.kind(5).is_none();
        let is_alone = self.kind(3).is_none() || self.is_effort(3);
        is_time(0) && is_time(2) && (self.sets > 0 && is_alone || is_counted_behind)
    }

    /// `4 x 600/200`, `3 x 300-200-100`: distances without a space between them are one list.
    fn is_glued_list(&self) -> bool {
        let mut count = 0;
        while self.number_at(2 * count).is_some_and(|metres| metres >= 50.0 && metres % 10.0 == 0.0) {
            count += 1;
            let sign = 2 * count - 1;
            let is_joint = (self.is_sign(sign, '/') || self.is_sign(sign, '-'))
                && self.is_glued(sign)
                && self.is_glued(sign + 1);
            if !is_joint {
                break;
            }
        }
        // `16 x 400/70` is a pace, `6 x 200-250` a range.
        let is_pair = count == 2
            && self.is_sign(1, '/')
            && self.number_at(2).is_some_and(|metres| metres >= 100.0 && metres % 50.0 == 0.0);
        let end = 2 * count.max(1) - 1;
        (count > 2 || is_pair)
            && self.seconds_in(end).is_none()
            && !self.is_sign(end, ':')
            && !self.is_times(end)
    }

    /// Whether a times sign was stepped over last.
    pub(crate) fn is_behind_times(&self) -> bool {
        self.is_behind('x') || self.is_behind_word(&["x"])
    }

    /// `1-2-3-2-1 min`: runs by time, each of another length.
    fn ladder_of_times(&mut self) -> Option<Item> {
        let before = self.place();
        // `Fartlek 3-2-1 min`
        let effort = (self.is_effort(0) && self.is_number(1) && self.is_sign(2, '-')).then(|| self.effort());
        let mut ladder = self.times_of_ladder();
        match &mut ladder {
            Some(series) => series.details.effort = effort,
            None => self.go_back(before),
        }
        ladder.map(|series| Item::Series(Box::new(series)))
    }

    /// How many runs by time a ladder has that stands `ahead`, and the seconds of its unit.
    pub(crate) fn ladder_at(&self, ahead: usize) -> Option<(usize, f64)> {
        let mut count = 0;
        while count < 12 && self.number_at(ahead + 2 * count).is_some_and(|number| number <= 30.0) {
            count += 1;
            let sign = ahead + 2 * count - 1;
            if !self.is_sign(sign, '-') && !self.is_sign(sign, ',') {
                break;
            }
        }
        let unit_s = self.seconds_in((ahead + 2 * count).checked_sub(1)?).filter(|_| count > 2)?;
        Some((count, unit_s))
    }

    fn times_of_ladder(&mut self) -> Option<Series> {
        let (count, unit_s) = self.ladder_at(0)?;
        let mut items = Vec::with_capacity(count);
        for index in 0..count {
            let begins = self.place();
            let (value, _) = self.number()?;
            let seconds = value * unit_s;
            // What cannot be is a problem; the rest of the ladder is read all the same.
            let _ = self.time_that_can_be(seconds, begins, "how long to run");
            let kind = Spanned::new(RunKind::Timed { seconds }, self.since(begins));
            items.push(Item::Run(Box::new(Run { kind, details: Details::default() })));
            if index + 1 < count {
                self.skip();
            }
        }
        self.skip();
        self.last_run = None;
        Some(Series { count: 1, items, details: Details::default() })
    }

    /// The count in front of an item, which is stepped over: `6 x`, `3 sets of`, `6-8 x`, `4` of `4 flying 30s`; nothing
    /// where there is none, and a count of nothing where it was reported.
    fn count_before_item(&mut self) -> Option<Option<u32>> {
        if let Some(words) = self.limit_tokens() {
            let begins = self.place();
            self.skip_all(words + 1);
            if words > 1 || !self.is_word_before(2, &["a"]) {
                self.keep(begins);
            }
            self.go_back(begins + words);
        }
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
        if self.is_count_before_plural()
            || self.is_count_before_name()
            || self.number_at(0).is_some_and(|count| count <= 12.0) && self.is_starts(1)
            || self.is_count_of_sets()
            || self.is_count_of_strides()
            || self.is_count_of_brackets()
        {
            let (value, span) = self.number()?;
            let is_sets = self.word(&["sets", "set", "series", "rounds"]);
            let count = self.whole_count(value, span);
            if is_sets && self.is_sign(0, '-') {
                self.skip();
            }
            return Some(count);
        }
        None
    }

    /// `2(4 x 200)`
    fn is_count_of_brackets(&self) -> bool {
        self.number_at(0).is_some_and(|count| (2.0..=MOST_COUNTED).contains(&count))
            && self.is_sign(1, '(')
            && self.is_glued(1)
            && self.is_counted_item(2)
    }

    /// `4 strides of 80m`, `6 strides 80m`
    fn is_count_of_strides(&self) -> bool {
        let of = 2 + usize::from(self.is_word(2, &["of", "over"]));
        self.number_at(0).is_some_and(|count| count <= MOST_COUNTED)
            && self.is_word(1, &["strides"])
            && self.metres_tokens(of).is_some()
            && self.number_at(of).is_some_and(|metres| metres > MOST_COUNTED)
    }

    /// `up to 6 x`, `at least 6 x`, `a dozen`: how many words stand in front of a count that is taken as it is.
    pub(crate) fn limit_tokens(&self) -> Option<usize> {
        const LIMITS: Phrases = Phrases::new(&[
            &[&["up"], &["to"]],
            &[&["at"], &["least", "most"]],
            &[&["a", "an"], &["minimum", "maximum", "max", "min"], &["of"]],
            &[&["max", "maximum", "min", "minimum"], &["of"]],
            &[&["max", "maximum", "min", "minimum", "about", "around", "roughly", "approx"]],
            &[&["a"]],
        ]);
        let words = self.phrase_at(0, LIMITS)?.len();
        let is_dozen = || self.written_at(1).is_some_and(|word| word.eq_ignore_ascii_case("dozen"));
        let is_counted = self.is_counted_item(words) || words == 1 && is_dozen();
        (is_counted && (!self.is_word(0, &["a"]) || is_dozen())).then_some(words)
    }

    /// `Eight 400s`: a count in front of several of a distance.
    fn is_count_before_plural(&self) -> bool {
        self.number_at(0).is_some_and(|count| count <= 60.0 && count.fract() == 0.0)
            && self.number_at(1).is_some_and(|metres| metres >= 60.0)
            && self.is_word(2, &["s"])
            && self.is_glued(2)
    }

    /// `2 sets 3 x 5 hurdles`, `2 sets: 300, 200`
    fn is_count_of_sets(&self) -> bool {
        self.is_number(0) && self.is_word(1, &["sets", "set", "series", "rounds"]) && self.is_item(2)
    }

    /// `5 x 700m x 2min`, `10 x 300m x 300m`: what a second times sign adds is the rest, or how far to jog.
    fn times_recovery(&mut self, details: &mut Details) {
        if self.fast_and_easy(details) {
            return;
        }
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

    /// `5 x 200/200 (fast/jog)`: the second distance is that of the recovery.
    fn fast_and_easy(&mut self, details: &mut Details) -> bool {
        if !self.is_sign(0, '/') && !self.is_sign(0, '-') {
            return false;
        }
        let Some(end) = self.metres_tokens(1).map(|tokens| 1 + tokens) else { return false };
        let is_here = self.is_sign(end, '(')
            && self.is_effort(end + 1)
            && (self.is_sign(end + 2, '/') || self.is_sign(end + 2, '-'))
            && self.is_word(end + 3, &["jog", "walk", "easy", "float"])
            && self.is_sign(end + 4, ')');
        if !is_here {
            return false;
        }
        self.skip();
        let Some((metres, span)) = self.metres().filter(|(metres, _)| (1.0..=FURTHEST_M).contains(metres))
        else {
            return false;
        };
        self.skip();
        details.effort = Some(self.effort());
        self.skip();
        let is_walk = self.is_word(0, &["walk"]);
        self.skip_all(2);
        let kind = if is_walk { RecoveryKind::Walk(metres) } else { RecoveryKind::Jog(metres) };
        details.recovery.kind = Some(Spanned::new(kind, span));
        true
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
        let Some(turns) = self.divided.take() else { return };
        let Some(run) = run_of(&mut listed.item) else { return };
        if let RunKind::Plain(length @ RunLength::Metres(_)) = run.kind.value {
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
}

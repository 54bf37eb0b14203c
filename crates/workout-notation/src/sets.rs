//! Reading how repetitions are cut into sets, or shared among targets.

use crate::block::{Item, Series};
use crate::cursor::Cursor;
use crate::forms::Details;
use crate::listed::{Listed, only_run};

/// Words in front of some of several repetitions.
const SHARES: [&str; 8] = ["the", "first", "last", "next", "final", "other", "reps", "runs"];

/// A number in front of a target is a distance from here on, in metres.
const LEAST_DISTANCE_M: f64 = 50.0;

impl Cursor<'_> {
    /// What `3 sets of` counts: all runs of a list, up to the first clause.
    pub(crate) fn list_of_a_set(&mut self, depth: usize) -> Option<Listed> {
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
    pub(crate) fn in_sets(&mut self, count: u32, listed: Listed) -> Listed {
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
                && [sets, each].iter().all(|number| number.fract() == 0.0)
                && let Some(runs) = only_run(&listed.item)
            {
                self.skip_all(4);
                self.bind_since(before);
                self.said_counts.push(count);
                let Listed { mut details, .. } = listed;
                let of =
                    |count: f64, items| Series { count: count as u32, items, details: Details::default() };
                let mut series = of(each, vec![runs]);
                match () {
                    () if each == 1.0 => series.count = sets as u32,
                    // One set is no more than its runs.
                    () if sets > 1.0 => series = of(sets, vec![Item::Series(Box::new(series))]),
                    () => {}
                }
                self.sign(':');
                self.sets += 2;
                self.clauses(&mut details);
                self.sets -= 2;
                return Listed { item: Item::Series(Box::new(series)), details, is_counted: true };
            }
            self.problem(
                begins,
                "the sets do not come to the repetitions in front",
                "write for example `4 x (5 x 400)`",
            );
            return listed;
        }
        self.go_back(before);
        let mut listed = self.shares(count, listed);
        // `6 x 400, first 2 easy`: what is said of some of them alone is only told.
        if self.are_first_shares() && self.is_share_sign() && !self.is_target(3) {
            let begins = self.place();
            self.skip();
            if self.aside() {
                self.clauses(&mut listed.details);
            } else {
                self.go_back(begins);
            }
        }
        listed
    }

    /// Whether the first of several shares comes next, behind a sign or none: `First 4 @ 70, last 2 @ 65`.
    pub(crate) fn are_first_shares(&self) -> bool {
        let sign = usize::from(self.is_share_sign());
        let is_range = self.number_at(sign + self.words_of_share(sign)) == Some(1.0)
            && self.is_sign(sign + self.words_of_share(sign) + 1, '-');
        // `16 x 200 (8 @ 34, 8 @ 32)`
        let is_in_brackets =
            self.is_sign(0, '(') && self.is_number(1) && self.is_target(2) && !self.is_duration_at(1);
        (self.is_word(sign, &["first"]) || is_range || is_in_brackets) && self.is_share(sign)
    }

    /// Whether some repetitions with their target stand `ahead`: `8 @ 36`, `last 2 @ 65`, `4-6 @ 65`.
    fn is_share(&self, ahead: usize) -> bool {
        let first = ahead + self.words_of_share(ahead);
        let is_range = self.is_sign(first + 1, '-') && self.is_number(first + 2);
        let number = if is_range { first + 2 } else { first };
        let end = number + 1 + usize::from(self.is_word(number + 1, &["reps", "runs", "of"]));
        self.number_at(number).is_some_and(|share| share < LEAST_DISTANCE_M)
            && (self.is_target(end) || first > ahead && self.is_effort(end))
    }

    /// Whether a target stands `ahead`: `@ 36`, `in 3:20`.
    fn is_target(&self, ahead: usize) -> bool {
        (self.is_sign(ahead, '@') || self.is_word(ahead, &["at", "in"]))
            && self.is_number(ahead + 1)
            && self.metres_in(ahead + 2).is_none()
    }

    /// `the rest in 3:15`, `others hard`: how many words stand in front of the target of all that are left.
    fn others_tokens(&self) -> Option<usize> {
        let the = usize::from(self.is_word(0, &["the"]));
        let is_others = self.is_word(the, &["rest", "others", "remainder", "remaining"]);
        (is_others && (self.is_target(the + 1) || self.is_effort(the + 1))).then_some(the + 1)
    }

    /// How many words stand in front of a share.
    fn words_of_share(&self, ahead: usize) -> usize {
        (ahead..ahead + 4).take_while(|&at| self.is_word(at, &SHARES)).count()
    }

    fn is_share_sign(&self) -> bool {
        ['-', ':', ',', '(', '.', ';'].iter().any(|&sign| self.is_sign(0, sign))
    }

    /// `16 x 200 - 8 @ 36, 8 @ 34`, `6 x 800, first 4 @ 2:30, last 2 @ 2:20`
    fn shares(&mut self, count: u32, listed: Listed) -> Listed {
        let before = self.place();
        if !(self.is_share_sign() || self.is_word(0, &["first"])) || listed.details.pace.is_some() {
            return listed;
        }
        let is_in_brackets = self.is_sign(0, '(');
        if self.is_share_sign() {
            self.skip();
        }
        let Some(run) = only_run(&listed.item).filter(|_| self.is_share(0)) else {
            self.go_back(before);
            return listed;
        };
        let (problems, mut left) = (self.problems.len(), count);
        let mut items = Vec::new();
        while left > 0 {
            let others = self.others_tokens().filter(|_| left < count);
            if others.is_none() && !self.is_share(0) {
                break;
            }
            self.skip_all(others.unwrap_or_else(|| self.words_of_share(0)));
            let done = count - left;
            let number = if others.is_some() { Some((f64::from(left), self.here())) } else { self.number() };
            let Some((value, span)) = number else { break };
            let share = if self.is_sign(0, '-') && self.is_number(1) {
                // `4-6 @ 65` counts on from the third.
                self.skip();
                let last = self.number().map_or(0.0, |(last, _)| last);
                if value != f64::from(done + 1) || last < value {
                    break;
                }
                self.whole_count(last - value + 1.0, span)
            } else {
                self.whole_count(value, span)
            };
            let Some(share) = share.filter(|share| *share <= left) else { break };
            self.word(&["reps", "runs", "of"]);
            let mut details = Details::default();
            if !details.read(self) {
                break;
            }
            left -= share;
            let series = Series { count: share, items: vec![run.clone()], details };
            items.push(Item::Series(Box::new(series)));
            if left > 0 {
                while [',', ';', '.'].iter().any(|&sign| self.sign(sign)) {}
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
        if let [Item::Series(all)] = items.as_mut_slice() {
            // `8 x 60 hard - 8 @ 80%`: a share that is all of them.
            let mut own = std::mem::take(&mut all.details);
            own.add(details, self, false);
            let item = Item::Series(std::mem::take(all));
            return Listed { item, details: own, is_counted: true };
        }
        let series = Series { count: 1, items, details: Details::default() };
        Listed { item: Item::Series(Box::new(series)), details, is_counted: true }
    }
}

//! Paces and efforts that several runs have by turns: `alternating 72/68`, `odds easy, evens hard`, `@ 70/80/90%`.

use crate::cursor::Cursor;
use crate::forms::Pace;
use crate::shared::SharedPace;
use crate::spanned::Spanned;
use crate::vocabulary::Role;

const ODD: [&str; 2] = ["odd", "odds"];
const EVEN: [&str; 2] = ["even", "evens"];

/// Words for a time that becomes shorter by so much.
#[rustfmt::skip]
const FASTER: [&str; 18] = [
    "dropping", "drop", "drops", "cutting", "cut", "minus", "getting", "going", "down", "taking", "lowering", "reducing", "decreasing", "by",
    "speeding", "up", "off", "progressing",
];

/// Words for a time that becomes longer by so much.
const SLOWER: [&str; 4] = ["adding", "add", "plus", "slowing"];

/// Words for each run, or in front of a word for one: without any of them no time differs from run to run.
pub(crate) const EACH: [&str; 4] = ["each", "every", "per", "a"];

/// The most such words in a row: `getting down by`.
const MOST_WORDS: usize = 3;

/// The most that one run differs from the next, in seconds.
const LONGEST_STEP_S: f64 = 20.0;

/// The most paces of a list.
const MOST_PACES: usize = 12;

impl Cursor<'_> {
    /// `alternating 72/68`, `odd @ 70, even @ 66`, `odds easy, evens hard`: one after the other, over and over.
    pub(crate) fn alternating(&mut self) -> bool {
        let (before, problems) = (self.place(), self.problems.len());
        let is_odd = self.is_word(0, &ODD);
        if !is_odd && !self.is_word(0, &["alternating", "alternate", "alternately", "alt"]) {
            return false;
        }
        self.skip();
        let (mut paces, mut efforts) = (Vec::new(), Vec::new());
        while paces.len() + efforts.len() < 2 {
            self.word(&["reps", "runs", "ones", "between"]);
            self.word(&["are"]);
            if !self.sign('@') {
                self.word(&["in", "at"]);
            }
            if self.is_effort(0) {
                let begins = self.place();
                let words = self.effort_word();
                efforts.push(Spanned::new(words, self.since(begins)));
            } else if self.is_number(0) && self.metres_in(1).is_none() && !self.is_times(1) {
                let Ok(time) = self.seconds("", "") else { break };
                paces.push(Spanned::new(SharedPace::Time(*time), time.span));
            } else {
                break;
            }
            if paces.len() + efforts.len() < 2 {
                let is_joined = [',', '/', '-', '+', ';'].iter().any(|&sign| self.sign(sign))
                    | self.word(&["and", "then"]);
                // `odds easy evens hard`
                let is_even = is_odd && self.word(&EVEN);
                if !(is_even || is_joined && !is_odd) {
                    break;
                }
            }
        }
        self.problems.truncate(problems);
        let are_two = paces.len() == 2 || efforts.len() == 2;
        if !are_two || self.is_sign(0, '/') && !self.is_duration_at(1) {
            self.go_back(before);
            return false;
        }
        self.shared.is_alternating = !paces.is_empty();
        (self.shared.paces, self.shared.efforts) = (paces, efforts);
        true
    }

    /// `start at 80 finish at 70`: the first and the last of times that become faster.
    pub(crate) fn start_and_finish(&mut self) -> bool {
        const STARTS: [&str; 3] = ["start", "starting", "begin"];
        if !self.is_word(0, &STARTS) {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let mut paces = Vec::new();
        for words in [STARTS, ["finish", "finishing", "end"]] {
            while self.sign(',') || self.word(&["and", "then"]) {}
            if !self.word(&words) || !(self.sign('@') || self.word(&["at", "in"])) {
                break;
            }
            let Ok(time) = self.seconds("", "") else { break };
            if !self.is_likely_time(*time) {
                break;
            }
            paces.push(Spanned::new(SharedPace::Time(*time), time.span));
        }
        self.problems.truncate(problems);
        if paces.len() < 2 {
            self.go_back(before);
            return false;
        }
        self.shared.paces = paces;
        self.shared.is_progression = true;
        true
    }

    /// `@ 75, 1s faster each rep`, `starting at 3:30 and dropping 2s each rep`: the time of the first run, and by how much
    /// that of each differs from the one before. Without a first time what is said is kept as it is written.
    pub(crate) fn stepped(&mut self, value: &mut Option<Spanned<Pace>>) -> bool {
        const STARTS: [&str; 5] = ["start", "starting", "begin", "beginning", "from"];
        if !self.roles.has(Role::EACH)
            || !self.is_number(0)
                && self.word_at(0).is_none()
                && !['-', '+', '@'].iter().any(|&sign| self.is_sign(0, sign))
        {
            return false;
        }
        let (before, problems) = (self.place(), self.problems.len());
        let mut first = None;
        if self.word(&STARTS) || self.is_sign(0, '@') || self.is_word(0, &["in", "at"]) {
            if !self.sign('@') {
                self.word(&["at", "with", "from", "in", "on"]);
            }
            first = if self.metres_in(1).is_none() { self.seconds("", "").ok() } else { None };
            if self.is_sign(0, ',') || self.is_sign(0, '-') && !self.is_glued(1) {
                self.skip();
            }
            self.word(&["and", "then"]);
            if first.is_none() {
                self.problems.truncate(problems);
                self.go_back(before);
                return false;
            }
        }
        let begins = self.place() - usize::from(self.is_behind('-') && self.is_glued(0));
        let step_s = self.step_of_paces();
        self.problems.truncate(problems);
        let Some(step_s) = step_s else {
            self.go_back(before);
            return false;
        };
        if let (None, Some(Pace::Time { seconds, to_s: None })) = (&first, value.as_deref())
            && let Some(own) = value.as_ref()
        {
            first = Some(Spanned::new(*seconds, own.span.clone()));
            *value = None;
        }
        self.keep(begins);
        if let Some(first) = first
            && self.shared.paces.is_empty()
        {
            self.shared.paces = vec![Spanned::new(SharedPace::Time(*first), first.span)];
            self.shared.step_s = Some(step_s);
        }
        true
    }

    /// `-1s each`, `dropping 2s per rep`, `2 sec faster every run`: by how much, in seconds.
    fn step_of_paces(&mut self) -> Option<f64> {
        let mut is_slower = self.is_sign(0, '+') && self.is_glued(1);
        let has_sign = is_slower || self.is_sign(0, '-') && self.is_glued(1);
        self.skip_all(usize::from(has_sign));
        let has_sign = has_sign || self.is_behind('-') && self.is_glued(0);
        let begins = self.place();
        let faster = (0..MOST_WORDS).take_while(|&ahead| self.is_word(ahead, &FASTER)).count();
        self.skip_all(faster);
        is_slower |= self.word(&SLOWER);
        let is_said = has_sign || self.place() > begins;
        if !self.is_number(0) || self.metres_in(1).is_some() {
            return None;
        }
        let seconds = *self.seconds("", "").ok()?;
        let is_faster = self.word(&["faster", "quicker", "less"]);
        is_slower |= !is_faster && self.word(&["slower", "more"]);
        let is_each = (self.word(&EACH[..3]) || self.is_word(1, &["rep", "run"]) && self.word(&["a"]))
            && (self.word(&["rep", "run", "one", "time", "repetition"])
                || !self.is_number(0) && self.word_at(0).is_none());
        let is_step = is_each && (is_said || is_faster || is_slower) && seconds <= LONGEST_STEP_S;
        is_step.then_some(if is_slower { seconds } else { -seconds })
    }

    /// `cut down`, `cut-down`, `cutting down from`, `cutdown`, or `from` before times that become faster: how many tokens.
    pub(crate) fn cut_down_tokens(&self) -> Option<usize> {
        self.word_at(0)?;
        let end = if self.is_word(0, &["cut", "cutting", "coming", "working", "going"]) {
            let dash = usize::from(self.is_sign(1, '-'));
            self.is_word(1 + dash, &["down", "downs"]).then_some(2 + dash)?
        } else {
            usize::from(self.is_word(0, &["cutdown", "cutdowns", "descending", "progressing"]))
        };
        let from = end + usize::from(self.is_word(end, &["from"]));
        let is_from = self.is_number(2 + usize::from(self.is_word(2, &["down"])) + 1)
            && (self.is_word(2, &["down", "to"]) || self.is_sign(2, '>'))
            && self.number_at(1).is_some_and(|seconds| self.is_likely_time(seconds));
        (self.is_number(from) && (end > 0 || is_from)).then_some(from)
    }

    /// `70/80/90%`, `80%, 85%, 90%`: a percentage for each run. Two with a dash are a range.
    pub(crate) fn list_of_percents(&mut self) -> bool {
        let before = self.place();
        let mut percents = Vec::new();
        let mut has_sign = false;
        while percents.len() < MOST_PACES {
            let begins = self.place();
            let Some((percent, _)) = self.number().filter(|(percent, _)| (30.0..=120.0).contains(percent))
            else {
                break;
            };
            has_sign = self.sign('%');
            percents.push(Spanned::new(SharedPace::Percent(percent), self.since(begins)));
            let is_joined = [',', '/', '-'].iter().any(|&sign| self.is_sign(0, sign));
            let is_more = self.is_sign(2, '%')
                || [',', '/', '-'].iter().any(|&sign| self.is_sign(2, sign)) && self.is_number(3);
            if !is_joined || !self.is_number(1) || !is_more {
                break;
            }
            self.skip();
        }
        if percents.len() < 3 || !has_sign {
            self.go_back(before);
            return false;
        }
        self.shared.paces = percents;
        true
    }
}

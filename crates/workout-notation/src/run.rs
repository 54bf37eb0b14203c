//! Reading one run: its kind, and the effort that may stand before it.

use crate::cursor::{Cursor, Read};
use crate::forms::{Details, Run, RunKind, RunLength};
use crate::last_run::LastRun;
use crate::spanned::Spanned;

/// Words behind a run that add nothing to it.
const RUNS: [&str; 7] = ["run", "runs", "rep", "reps", "repeats", "intervals", "turnarounds"];

/// Words in front of a run that add nothing to it.
const LEADS: [&str; 4] = ["run", "stride", "sprint", "flat"];

/// A number without a unit below this that is no multiple of 5 is hardly a distance, in metres.
const LEAST_ODD_M: f64 = 100.0;

/// What follows depends on of a run.
const fn last_run(kind: RunKind) -> LastRun {
    match kind {
        RunKind::Plain(RunLength::Metres(metres)) => LastRun::Metres(metres),
        RunKind::Plain(RunLength::Laps(laps)) => LastRun::Laps(laps),
        RunKind::Timed { seconds } => LastRun::Timed(seconds),
        RunKind::Flying { .. } => LastRun::Flying,
        RunKind::Hurdles { .. } | RunKind::Exchange { .. } | RunKind::InAndOut { .. } => LastRun::Other,
        RunKind::Part(part) => LastRun::Part(part),
    }
}

impl Cursor<'_> {
    pub(crate) fn run(&mut self) -> Option<Run> {
        let begins = self.place();
        let mut details = Details::default();
        self.effort_before(&mut details);
        let kind = if self.is_starts(0) {
            self.starts(&mut details)
        } else {
            self.exercise_words();
            self.run_kind()
        };
        let Ok(mut kind) = kind else {
            self.skip_to_clause();
            self.clauses(&mut details);
            return None;
        };
        self.refuse_odd_distance(begins, kind);
        self.is_in_yards = self.is_behind_word(&["yd", "yds", "yard", "yards", "y"]);
        if let RunKind::Plain(RunLength::Metres(metres)) = kind
            && let Some((metres, turns)) = self.parts_after(metres)
        {
            kind = RunKind::InAndOut { length: RunLength::Metres(metres), turns };
        }
        // `400s` are several.
        if self.is_glued(0) && matches!(kind, RunKind::Plain(_)) {
            self.word(&["s"]);
        }
        self.word(&RUNS);
        self.last_run = Some(last_run(kind));
        let is_on = matches!(kind, RunKind::Timed { .. }) && self.is_word(0, &["on"]);
        let is_off_behind = self.is_duration_at(1) && (2..6).any(|ahead| self.is_word(ahead, &["off"]));
        if is_on && (!self.is_number(1) && self.word_at(1).is_none() || is_off_behind) {
            self.skip();
        }
        // `20 min jog`, `2km jog` are as hard as a jog.
        let is_alone = begins == 0
            && (self.kind(1).is_none() || [',', '+', ';'].iter().any(|&sign| self.is_sign(1, sign)));
        let is_own = matches!(kind, RunKind::Timed { .. }) || is_alone && matches!(kind, RunKind::Plain(_));
        let is_jog = is_own && self.is_word(0, &["jog", "walk"]);
        if is_jog && !self.is_number(1) && !self.is_word(1, &["back", "exactly"]) && details.effort.is_none()
        {
            details.effort = self.on_foot();
        }
        Some(Run { kind: Spanned::new(kind, self.since(begins)), details })
    }

    /// `@ 80, 79, 78`: a number behind a comma or a slash that nobody would run, and that could be a time, is asked about.
    fn refuse_odd_distance(&mut self, begins: usize, kind: RunKind) {
        let RunKind::Plain(RunLength::Metres(metres)) = kind else { return };
        let span = self.since(begins);
        let is_bare = self.text[span.clone()].bytes().all(|byte| byte.is_ascii_digit());
        let is_in_list = [',', '/', '-'].iter().any(|&sign| self.is_sign_before(2, sign));
        // `5 x 400, 75, 2 min`
        let is_behind_counted = self.number_before(3).is_some() && self.is_times_before(4);
        let is_odd = metres % 5.0 != 0.0 || is_behind_counted && self.is_likely_time(metres);
        if is_bare && is_in_list && metres < LEAST_ODD_M && is_odd {
            let message = format!("`{metres}` could be a run or a time");
            self.problem(span, message, format!("write `{metres}m`, or `@ {metres}s`"));
        }
    }

    /// Whether `starts` or `block starts` stand `ahead`, which are counted: `6 block starts over 25m`.
    pub(crate) fn is_starts(&self, ahead: usize) -> bool {
        let block =
            usize::from(self.is_word(ahead, &["block", "standing", "crouch", "rolling", "three", "sled"]));
        self.is_word(ahead + block, &["starts"]) && !self.is_sign(ahead + block + 1, ':')
    }

    /// `water jump from 40m approach`, `bounds over 30m`: words in front of a distance, which stay unread.
    fn exercise_words(&mut self) {
        const OVER: [&str; 5] = ["over", "from", "of", "for", "to"];
        let words = (0..5)
            .take_while(|&ahead| {
                self.word_at(ahead).is_some() && !self.is_run_name(ahead) && !self.is_word(ahead, &OVER)
            })
            .count();
        let is_here = words > 0
            && self.is_word(words, &OVER)
            && self.metres_tokens(words + 1).is_some()
            && self.metres_in(words + 2).is_some()
            && !self.is_word(0, &["in", "x"]);
        if is_here {
            let begins = self.place();
            self.skip_all(words);
            let span = self.since(begins);
            self.leave(span);
            self.skip();
        }
    }

    /// `block starts at 85% over 25m`, `starts over 2 hurdles`
    fn starts(&mut self, details: &mut Details) -> Read<RunKind> {
        if !details.read(self) {
            self.skip();
        }
        while !self.is_word(0, &["over", "of", "to", "for"]) && !self.is_number(0) && details.read(self) {}
        self.word(&["over", "of", "to", "for"]);
        self.word(&["the", "first"]);
        self.run_kind()
    }

    /// `easy 20 min`, `steady 2 laps`, `jog 10 min`
    fn effort_before(&mut self, details: &mut Details) {
        if self.is_effort(0) && !self.is_sign(1, ':') {
            details.effort = Some(self.effort());
            // `strides of 80m`
            if self.is_word(0, &["of", "over"]) && self.metres_tokens(1).is_some() {
                self.skip();
            }
            self.is_sign(0, ':').then(|| self.skip());
            // `fast 80s` are metres.
        }
        if self.is_word(0, &["jog", "walk"]) && self.is_number(1) {
            let effort = self.on_foot();
            details.effort = details.effort.take().or(effort);
        } else if self.is_word(0, &LEADS) && self.is_number(1) {
            self.skip();
        }
    }

    /// The effort of a jog or a walk that is a run of its own.
    fn on_foot(&mut self) -> Option<Spanned<String>> {
        let (here, is_jog) = (self.here(), self.is_word(0, &["jog"]));
        self.skip();
        Some(Spanned::new(if is_jog { "jogging" } else { "walking" }.to_owned(), here))
    }
}

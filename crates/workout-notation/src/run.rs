//! Reading one run: its kind, and the effort that may stand before it.

use crate::cursor::Cursor;
use crate::forms::{Details, Run, RunKind};
use crate::spanned::Spanned;

/// Words behind a run that add nothing to it.
const RUNS: [&str; 6] = ["run", "runs", "rep", "reps", "repeat", "repeats"];

impl Cursor<'_> {
    pub(crate) fn run(&mut self) -> Option<Run> {
        let begins = self.place();
        let mut details = Details::default();
        self.effort_before(&mut details);
        let Ok(kind) = self.run_kind() else {
            self.skip_to_clause();
            self.clauses(&mut details);
            return None;
        };
        self.word(&RUNS);
        // `20 min jog` is as hard as a jog.
        let is_jog = matches!(kind, RunKind::Timed { .. }) && self.is_word(0, &["jog", "walk"]);
        if is_jog && !self.is_number(1) && !self.is_word(1, &["back", "exactly"]) && details.effort.is_none()
        {
            details.effort = self.on_foot();
        }
        Some(Run { kind: Spanned::new(kind, self.since(begins)), details })
    }

    /// `easy 20 min`, `steady 2 laps`, `jog 10 min`
    fn effort_before(&mut self, details: &mut Details) {
        if self.is_effort(0) {
            details.effort = Some(self.effort());
        }
        if self.is_word(0, &["jog", "walk"]) && self.is_number(1) {
            let effort = self.on_foot();
            details.effort = details.effort.take().or(effort);
        } else if self.is_word(0, &["run"]) && self.is_number(1) {
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

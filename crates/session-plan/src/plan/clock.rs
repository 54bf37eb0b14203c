//! When each run starts and ends.

use workout_notation::Gap;

/// How long a run and the recovery after it last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Timing {
    /// The target; for a range, the slower, which the plan waits for.
    pub(crate) target_s: Option<f64>,
    /// Of a range the faster.
    pub(crate) target_from_s: Option<f64>,
    pub(crate) gap: Option<Gap>,
}

/// When a run starts and ends, in seconds from the start of the session.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Clocked {
    pub(crate) go_s: Option<f64>,
    pub(crate) done_s: Option<f64>,
    pub(crate) rest_s: Option<f64>,
}

/// The clock of a session: it stands still once something is not known.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Clock {
    now_s: Option<f64>,
    between_blocks_s: f64,
    /// Whether nothing has been done yet, so that no break lies before what comes next.
    is_first: bool,
    /// Whether what came last was a note, which leads on without a break.
    after_note: bool,
    /// Whether a break was put in.
    pub(crate) has_break: bool,
}

impl Clock {
    pub(crate) const fn new(between_blocks_s: f64) -> Self {
        Self { now_s: Some(0.0), between_blocks_s, is_first: true, after_note: false, has_break: false }
    }

    /// The time now, if it is known.
    pub(crate) const fn now_s(&self) -> Option<f64> {
        self.now_s
    }

    /// Goes on after a break, for runs whose end is found elsewhere.
    pub(crate) fn begin_runs(&mut self) -> Option<f64> {
        if !self.is_first && !self.after_note {
            self.now_s = self.now_s.map(|now_s| now_s + self.between_blocks_s);
            self.has_break = true;
        }
        (self.is_first, self.after_note) = (false, false);
        self.now_s
    }

    /// The time when what was begun has ended.
    pub(crate) const fn end_runs(&mut self, now_s: Option<f64>) {
        self.now_s = now_s;
    }

    /// Something that is not a run.
    pub(crate) fn note(&mut self, lasts_s: Option<f64>) {
        // A note without a duration takes no time of its own.
        self.now_s = self.now_s.map(|now_s| now_s + lasts_s.unwrap_or(0.0));
        self.after_note = true;
        self.is_first = false;
    }

    /// The runs of a block, one after the other.
    pub(crate) fn run(&mut self, timings: &[Timing]) -> Vec<Clocked> {
        self.begin_runs();
        let mut clocked = Vec::with_capacity(timings.len());
        for (index, timing) in timings.iter().enumerate() {
            let go_s = self.now_s;
            let lasts_s = timing.target_s;
            let done_s = go_s.zip(lasts_s).map(|(go_s, lasts_s)| go_s + lasts_s);
            let is_last = index + 1 == timings.len();
            let rest_s = match timing.gap.filter(|_| !is_last) {
                None => None,
                Some(Gap::Rest(rest_s)) => Some(rest_s),
                // Started again before the end, the runner has no rest at all.
                Some(Gap::Cycle(off_s)) => lasts_s.map(|lasts_s| (off_s - lasts_s).max(0.0)),
            };
            self.now_s = if is_last {
                done_s
            } else {
                match timing.gap {
                    Some(Gap::Cycle(off_s)) => go_s.map(|go_s| go_s + off_s.max(lasts_s.unwrap_or(0.0))),
                    _ => done_s.zip(rest_s).map(|(done_s, rest_s)| done_s + rest_s),
                }
            };
            clocked.push(Clocked { go_s, done_s, rest_s });
        }
        clocked
    }
}

//! One run: what kind it is, and how far.

use crate::block::{Details, Length, Run, RunKind};
use crate::cursor::Cursor;
use crate::spanned::Spanned;

const FLYING: [&str; 5] = ["flying", "fly", "flys", "flies", "flyers"];
const EXCHANGES: [&str; 8] =
    ["exchange", "exchanges", "changeover", "changeovers", "takeover", "takeovers", "handover", "handovers"];
const ZONES: [&str; 2] = ["zone", "zones"];
const RUN_INS: [&[&str]; 6] =
    [&["run", "-", "in"], &["run", "-", "up"], &["run", "in"], &["runin"], &["build", "-", "up"], &["build"]];
/// Words behind a run that add nothing to it.
const RUNS: [&str; 6] = ["run", "runs", "rep", "reps", "repeat", "repeats"];
const FLYING_HELP: &str = "write for example `flying 30 with 20 run-in`";
/// The run-in of a flying run that names none, in metres.
const RUN_IN_M: f64 = 20.0;

impl Cursor<'_> {
    /// Whether the name of a kind of run stands `ahead`.
    pub(crate) fn is_run_name(&self, ahead: usize) -> bool {
        self.is_word(ahead, &FLYING)
            || self.is_word(ahead, &EXCHANGES)
            || self.is_word(ahead, &["mile", "lap"])
            || self.is_word(ahead, &["baton", "relay"]) && self.is_word(ahead + 1, &EXCHANGES)
    }

    pub(crate) fn run(&mut self) -> Option<Run> {
        let begins = self.place();
        let mut details = Details::default();
        self.effort_before(&mut details);
        let kind = self.run_kind();
        let Some(kind) = kind else {
            self.skip_to_clause();
            self.clauses(&mut details);
            return None;
        };
        self.word(&RUNS);
        // `20 min jog` is as hard as a jog.
        let is_jog = matches!(kind, RunKind::Timed { .. }) && self.is_word(0, &["jog", "walk"]);
        if is_jog && !self.is_number(1) && !self.is_word(1, &["back"]) && details.effort.is_none() {
            details.effort = self.on_foot();
        }
        Some(Run { kind: Spanned::new(kind, self.since(begins)), details })
    }

    /// `easy 20 min`, `steady 2 laps`, `jog 10 min`
    fn effort_before(&mut self, details: &mut Details) {
        let begins = self.place();
        if self.is_effort(0) {
            self.effort(details, begins);
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

    fn run_kind(&mut self) -> Option<RunKind> {
        if self.word(&FLYING) {
            let length = self.length()?;
            // `flying 30s` are several.
            if self.is_glued(0) {
                self.word(&["s"]);
            }
            return self.flying(&length);
        }
        if self.is_run_name(0) && !self.is_word(0, &["mile", "lap"]) {
            return self.exchange();
        }
        if self.is_in_and_out() {
            return self.in_and_out(Length::Laps(1.0));
        }
        if self.is_plural() {
            let (value, span) = (self.number_at(0).unwrap_or_default(), self.here().start);
            self.skip();
            self.skip();
            let span = span..self.since(self.place() - 1).end;
            let message = format!("`{value}s` could be {value} m or {value} seconds");
            let help =
                format!("write `{value}m`, or `{}:{:02}` for the time", (value / 60.0).floor(), value % 60.0);
            self.problem(span, message, help);
            return None;
        }
        if self.is_duration() {
            let help = "write for example `20 min steady`";
            return self.seconds("how long to run", help).map(|seconds| RunKind::Timed { seconds: *seconds });
        }
        let length = self.length()?;
        if self.is_in_and_out() {
            self.in_and_out(length.value)
        } else if self.word(&FLYING) {
            self.flying(&length)
        } else {
            self.hurdles(&length)
        }
    }

    /// `6 x 200s`: several runs of 200 m, or each of 200 seconds?
    fn is_plural(&self) -> bool {
        let is_distance = self.number_at(0).is_some_and(|value| value >= 100.0 && value % 50.0 == 0.0);
        is_distance && self.is_word(1, &["s"]) && self.is_glued(1)
    }

    /// `4 flying 30s`, `6 exchanges zone 1`: a count without a times sign.
    pub(crate) fn is_count_before_name(&self) -> bool {
        let is_flying = self.is_word(1, &FLYING) && self.is_number(2);
        let is_exchange =
            self.is_run_name(1) && !self.is_word(1, &FLYING) && !self.is_word(1, &["mile", "lap"]);
        self.is_number(0) && (is_flying || is_exchange)
    }

    fn flying(&mut self, length: &Spanned<Length>) -> Option<RunKind> {
        let Length::Metres(metres) = length.value else {
            let span = length.span.clone();
            self.problem(span, "a flying run is measured in metres", "write for example `flying 30`");
            return None;
        };
        let before = self.place();
        let is_in_brackets = self.sign('(');
        let is_with = self.word(&["with", "w", "off", "from"]) | self.sign('/');
        let tokens = self.metres_tokens(0).filter(|&tokens| {
            let is_named = self.is_word(tokens, &["run", "runin", "build"]);
            if is_in_brackets { is_named } else { is_with || is_named }
        });
        let Some(_) = tokens else {
            self.go_back(before);
            return Some(RunKind::Flying { metres, run_in_m: RUN_IN_M });
        };
        let (run_in_m, span) = self.metres()?;
        if !self.one_of(&RUN_INS) {
            let message = format!("expected `run-in`, found {}", self.found());
            self.problem(self.here(), message, FLYING_HELP);
            if self.word_at(0).is_some() {
                self.skip();
            }
        }
        if is_in_brackets && !self.sign(')') {
            let message = format!("expected `)` after the run-in, found {}", self.found());
            self.problem(self.here(), message, FLYING_HELP);
        }
        if !(5.0..=100.0).contains(&run_in_m) {
            let message = format!("a run-in of {run_in_m} m is out of range");
            self.problem(span, message, "write a run-in from 5 m to 100 m");
            return None;
        }
        Some(RunKind::Flying { metres, run_in_m })
    }

    fn exchange(&mut self) -> Option<RunKind> {
        self.word(&["baton", "relay"]);
        self.skip();
        if self.is_word(0, &["in", "at", "on", "through"]) && self.is_word(1, &ZONES) {
            self.skip();
        }
        self.word(&ZONES);
        match self.number() {
            Some((zone, _)) if [1.0, 2.0, 3.0].contains(&zone) => {
                Some(RunKind::Exchange { zone: zone as u8 })
            }
            zone => {
                let found = zone.as_ref().map(|(_, span)| format!("`{}`", &self.text[span.clone()]));
                let message = format!(
                    "expected the number of a takeover zone, found {}",
                    found.unwrap_or_else(|| self.found())
                );
                let span = zone.map_or_else(|| self.here(), |(_, span)| span);
                self.problem(span, message, "write 1, 2 or 3, for example `exchange zone 2`");
                None
            }
        }
    }

    fn is_in_and_out(&self) -> bool {
        let dash = usize::from(self.is_sign(1, '-'));
        self.is_word(0, &["in", "ins"]) && (self.is_word(1 + dash, &["and"]) || self.is_sign(1 + dash, '+'))
    }

    fn in_and_out(&mut self, length: Length) -> Option<RunKind> {
        const HELP: &str = "write for example `in-and-out 50s`";
        self.skip();
        self.sign('-');
        self.skip();
        self.sign('-');
        if !self.word(&["out", "outs"]) {
            let message = format!("expected `out` after `in-and-`, found {}", self.found());
            self.problem(self.here(), message, HELP);
            return None;
        }
        let Some((turn_m, span)) = self.number() else {
            let message = format!("expected how far each turn is, found {}", self.found());
            self.problem(self.here(), message, HELP);
            return None;
        };
        self.word(&["s", "m", "ms"]);
        if !(10.0..=1000.0).contains(&turn_m) {
            let message = format!("turns of {turn_m} m are out of range");
            self.problem(span, message, "write turns from 10 m to 1000 m");
            return None;
        }
        Some(RunKind::InAndOut { length, turn_m })
    }

    /// A run over hurdles, where the distance is that of a hurdles race; else a plain run.
    fn hurdles(&mut self, length: &Spanned<Length>) -> Option<RunKind> {
        const HURDLES: [&str; 2] = ["hurdle", "hurdles"];
        if !(self.word(&["h", "mh"]) || self.word(&HURDLES)) {
            return Some(RunKind::Plain(length.value));
        }
        let Length::Metres(race_m) = length.value else {
            let span = length.span.clone();
            self.problem(span, "a hurdles race is measured in metres", "write for example `110h`");
            return None;
        };
        self.word(&HURDLES);
        let is_numbered = self.one_of(&[&["to", "hurdle"], &["to", "h"]]);
        let is_counted = !is_numbered
            && (self.is_word(0, &["over", "to"]) && self.is_number(1) || self.is_to_the_nth())
            && self.word(&["over", "to"]);
        if !is_numbered && !is_counted {
            return Some(RunKind::Hurdles { race_m, to_hurdle: None });
        }
        self.word(&["the"]);
        let hurdle = self.number();
        if is_counted {
            self.word(&["st", "nd", "rd", "th"]);
            self.word(&HURDLES);
        }
        match hurdle {
            Some((hurdle, _)) if hurdle.fract() == 0.0 && (1.0..=10.0).contains(&hurdle) => {
                Some(RunKind::Hurdles { race_m, to_hurdle: Some(hurdle as u8) })
            }
            hurdle => {
                let found = hurdle.as_ref().map(|(_, span)| format!("`{}`", &self.text[span.clone()]));
                let message = format!(
                    "expected the number of a hurdle, found {}",
                    found.unwrap_or_else(|| self.found())
                );
                let span = hurdle.map_or_else(|| self.here(), |(_, span)| span);
                self.problem(span, message, "write from 1 to 10, for example `110h to hurdle 5`");
                None
            }
        }
    }

    /// `to the 5th hurdle`
    fn is_to_the_nth(&self) -> bool {
        self.is_word(0, &["to"]) && self.is_word(1, &["the"]) && self.is_number(2) && !self.is_metres_mark()
    }

    /// `to the 400 m start`: what follows the number is no ordinal.
    fn is_metres_mark(&self) -> bool {
        !self.is_word(3, &["st", "nd", "rd", "th", "hurdle"])
    }
}

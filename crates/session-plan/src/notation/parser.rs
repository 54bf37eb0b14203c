//! From tokens to a block.

use super::block::{Block, Body, Details, Group, Item, Length, MOST_REPS, Recovery, Run, RunKind};
use super::cursor::Cursor;
use super::quantity::EXAMPLE;
use super::spanned::Spanned;
use super::token::{Kind, tokens};
use crate::problem::Problem;

/// The longest text that is read, in bytes.
const LONGEST_TEXT: usize = 10_000;

/// The deepest that groups may be nested.
const DEEPEST: usize = 8;

/// Words that begin a line which is not a run.
const NOTES: [&str; 19] = [
    "warm",
    "warmup",
    "cool",
    "cooldown",
    "drills",
    "stretch",
    "stretching",
    "mobility",
    "core",
    "plyometrics",
    "skips",
    "strides",
    "technique",
    "break",
    "rest",
    "note",
    "gym",
    "weights",
    "talk",
];

pub(crate) fn block(text: &str) -> Result<Block, Vec<Problem>> {
    if text.len() > LONGEST_TEXT {
        let message = format!("a block of {} characters is too long: at most {LONGEST_TEXT}", text.len());
        return Err(vec![Problem::new(0..0, message).with_help("split it into several blocks")]);
    }
    let tokens = tokens(text);
    let mut cursor = Cursor::new(text, &tokens);
    if tokens.is_empty() {
        return Err(vec![Problem::new(0..0, "the workout is empty").with_help(EXAMPLE)]);
    }
    let block = |body: Body| Block { text: text.to_owned(), body };
    if let Some(note) = cursor.note() {
        return Ok(block(note));
    }
    let group = cursor.whole();
    if !cursor.problems.is_empty() {
        return Err(cursor.problems);
    }
    let reps = group.runs();
    if reps > MOST_REPS {
        let message = format!("the block has more than {MOST_REPS} repetitions");
        return Err(vec![Problem::new(0..text.len(), message).with_help("split it into several sessions")]);
    }
    Ok(block(Body::Runs(Box::new(group))))
}

/// A distance alone.
pub(crate) fn distance(text: &str) -> Result<f64, Problem> {
    alone(text, |cursor| match cursor.length()?.value {
        Length::Metres(metres) => Some(metres),
        Length::Laps(_) => {
            cursor.problem(0..text.len(), "a lap is a lap of some lane", "write metres");
            None
        }
    })
}

/// Lanes alone.
pub(crate) fn lanes(text: &str) -> Result<Vec<u8>, Problem> {
    alone(text, |cursor| cursor.lanes().map(|lanes| lanes.value))
}

/// The distance of a race alone.
pub(crate) fn race_distance(text: &str) -> Result<f64, Problem> {
    alone(text, |cursor| {
        let help = "write for example `800`, `5k` or `mile`";
        match cursor.metres() {
            Some((metres, _)) if (10.0..=100_000.0).contains(&metres) => Some(metres),
            _ => {
                cursor.problem(0..text.len(), format!("`{text}` is not the distance of a race"), help);
                None
            }
        }
    })
}

/// A duration alone.
pub(crate) fn seconds(text: &str) -> Result<f64, Problem> {
    let help = "write for example `48`, `48s` or `1:12`";
    alone(text, |cursor| cursor.seconds("a time", help).map(|seconds| seconds.value))
}

fn alone<T>(text: &str, read: impl FnOnce(&mut Cursor<'_>) -> Option<T>) -> Result<T, Problem> {
    let tokens = tokens(text);
    let mut cursor = Cursor::new(text, &tokens);
    let value = read(&mut cursor);
    let (here, is_at_end) = (cursor.here(), cursor.is_at_end());
    match (value, cursor.problems.into_iter().next()) {
        (_, Some(problem)) => Err(problem),
        (Some(value), None) if is_at_end => Ok(value),
        _ => Err(Problem::new(here, format!("`{text}` is not understood"))),
    }
}

impl Cursor<'_> {
    /// The whole text as a note, where it is one: it begins with a word that begins no run, and has
    /// no number but durations, or begins with the name of something that is not a run.
    fn note(&mut self) -> Option<Body> {
        let after_duration = if self.is_duration() {
            let _ = self.seconds("", "");
            let is_note = self.is_word(0, &NOTES);
            self.problems.clear();
            self.go_back(0);
            is_note
        } else {
            false
        };
        let is_named = self.is_word(0, &NOTES) || after_duration;
        let is_run = !matches!(self.kind(0), Some(Kind::Word))
            || self.is_run_word()
            || self.is_clause(0) && !self.is_word(0, &NOTES);
        if is_run && !is_named {
            return None;
        }
        let mut lasts_s = None;
        let mut has_other_number = false;
        while !self.is_at_end() {
            if self.is_duration() {
                lasts_s = self.seconds("", "").map(|seconds| *seconds).or(lasts_s);
            } else {
                has_other_number |= self.is_number(0);
                self.skip();
            }
        }
        let has_problem = !std::mem::take(&mut self.problems).is_empty();
        self.go_back(0);
        if !is_named && (has_other_number || has_problem) {
            return None;
        }
        Some(Body::Note { words: self.text.trim().to_owned(), lasts_s })
    }

    /// Whether a word comes next that begins a run.
    fn is_run_word(&self) -> bool {
        self.is_word(0, &["flying", "exchange", "changeover", "mile", "lap"])
            || self.is_word(0, &["in"]) && self.is_sign(1, '-')
    }

    /// The whole text as runs.
    fn whole(&mut self) -> Group {
        let mut group = self.list(0);
        loop {
            self.clauses(&mut group.details);
            if self.is_at_end() {
                break;
            }
            self.not_understood();
        }
        simplified(group)
    }

    /// Tells of a word that fits nowhere, and goes on behind it.
    fn not_understood(&mut self) {
        let message = format!("{} is not understood here", self.found());
        let near = self.word_at(0).and_then(|word| nearest_word(&word));
        let help = match near {
            Some(near) => format!("did you mean `{near}`?"),
            None => "after the distance write `in lane 2`, `on the bend`, `@ 48s` or `rest 3min`".to_owned(),
        };
        let here = self.here();
        self.problem(here, message, help);
        self.skip();
        self.skip_to_clause();
    }

    /// Items with `+`, `,` or `-` between them, and what is said of the last.
    fn list(&mut self, depth: usize) -> Group {
        let mut group = Group { count: 1, ..Group::default() };
        loop {
            if let Some(item) = self.item(depth) {
                group.items.push(item);
            }
            let before = self.place();
            let separated = self.sign('+')
                || self.is_sign(0, ',') && self.is_item(1) && self.sign(',')
                || self.is_sign(0, '-') && self.is_number(1) && self.sign('-')
                || self.word(&["then"])
                || self.is_word(0, &["and"]) && self.is_item(1) && self.word(&["and"]);
            if !separated {
                break;
            }
            if self.place() == before {
                break;
            }
        }
        hoist(&mut group);
        group
    }

    /// Whether an item begins `ahead` of the next token.
    fn is_item(&self, ahead: usize) -> bool {
        self.is_number(ahead)
            || self.is_sign(ahead, '(')
            || self.is_word(ahead, &["flying", "exchange", "mile", "lap"])
    }

    /// A run or a group, with what is said of it.
    fn item(&mut self, depth: usize) -> Option<Item> {
        let counted = self.is_number(0) && (self.is_times(1) || self.is_set_of(1));
        let count = if counted { self.count() } else { Some(1) };
        let mut item = if counted && depth < DEEPEST {
            let item = self.item(depth + 1);
            let count = count.unwrap_or(1);
            match item {
                // What is said of the last item of a count is said of all of them.
                Some(Item::Run(mut run)) => {
                    let details = std::mem::take(&mut run.details);
                    Some(grouped(count, Item::Run(run), details))
                }
                Some(Item::Group(mut group)) if group.count == 1 => {
                    group.count = count;
                    Some(Item::Group(group))
                }
                Some(Item::Group(mut group)) => {
                    let details = said_of_all(&mut group.details);
                    Some(grouped(count, Item::Group(group), details))
                }
                None => None,
            }
        } else if self.is_sign(0, '(') && depth < DEEPEST {
            self.bracket(depth)
        } else if depth >= DEEPEST {
            self.problem(self.here(), "groups are nested too deep", "write fewer counts and brackets");
            while !self.is_at_end() {
                self.skip();
            }
            None
        } else {
            self.run().map(|run| Item::Run(Box::new(run)))
        };
        let details = match &mut item {
            Some(Item::Run(run)) => &mut run.details,
            Some(Item::Group(group)) => &mut group.details,
            None => return None,
        };
        self.clauses(details);
        item
    }

    /// Whether `sets of` or `times` stands `ahead`.
    fn is_set_of(&self, ahead: usize) -> bool {
        self.is_word(ahead, &["set", "sets"]) && self.is_word(ahead + 1, &["of"])
            || self.is_word(ahead, &["times"])
    }

    fn count(&mut self) -> Option<u32> {
        let (value, span) = self.number()?;
        let is_count = value.fract() == 0.0 && (1.0..=f64::from(MOST_REPS)).contains(&value);
        if !is_count {
            let message = format!("`{}` is no number of repetitions", &self.text[span.clone()]);
            self.problem(span, message, format!("write a whole number from 1 to {MOST_REPS}"));
        }
        if !self.phrase(&["sets", "of"]) && !self.phrase(&["set", "of"]) {
            // The times sign.
            self.skip();
        }
        is_count.then_some(value as u32)
    }

    fn bracket(&mut self, depth: usize) -> Option<Item> {
        let begins = self.here();
        self.skip();
        let mut group = self.list(depth + 1);
        self.clauses(&mut group.details);
        while !self.is_at_end() && !self.is_sign(0, ')') {
            self.not_understood();
            self.clauses(&mut group.details);
        }
        if !self.sign(')') {
            self.problem(begins, "this bracket is not closed", "add `)` after the last run of the group");
        }
        (!group.items.is_empty()).then(|| Item::Group(Box::new(group)))
    }

    fn run(&mut self) -> Option<Run> {
        let begins = self.place();
        let mut details = Details::default();
        let kind = if self.word(&["flying"]) {
            self.flying()
        } else if self.is_word(0, &["exchange", "changeover"]) {
            self.exchange()
        } else if self.is_in_and_out() {
            self.in_and_out(Length::Laps(1.0))
        } else if self.is_duration() {
            let help = "write for example `20 min steady`";
            self.seconds("how long to run", help).map(|seconds| RunKind::Timed { seconds: *seconds })
        } else {
            let length = self.length();
            match length {
                Some(length) => {
                    // The effort may stand before `in-and-out` or a hurdle's number.
                    if self.is_in_and_out() { self.in_and_out(length.value) } else { self.hurdles(&length) }
                }
                None => None,
            }
        };
        let Some(kind) = kind else {
            self.skip_to_clause();
            self.clauses(&mut details);
            return None;
        };
        Some(Run { kind: Spanned::new(kind, self.since(begins)), details })
    }

    fn flying(&mut self) -> Option<RunKind> {
        let length = self.length()?;
        let Length::Metres(metres) = length.value else {
            self.problem(
                length.span.clone(),
                "a flying run is measured in metres",
                "write for example `flying 30`",
            );
            return None;
        };
        let mut run_in_m = 20.0;
        if self.is_word(0, &["with"]) && self.is_number(1) {
            self.skip();
            let (value, span) = self.metres()?;
            let named =
                self.phrase(&["run", "-", "in"]) || self.word(&["runin"]) || self.phrase(&["run", "in"]);
            if !named {
                let message = format!("expected `run-in`, found {}", self.found());
                self.problem(self.here(), message, "write for example `flying 30 with 20 run-in`");
            }
            if !(5.0..=100.0).contains(&value) {
                let message = format!("a run-in of {value} m is out of range");
                self.problem(span, message, "write a run-in from 5 m to 100 m");
                return None;
            }
            run_in_m = value;
        }
        Some(RunKind::Flying { metres, run_in_m })
    }

    fn exchange(&mut self) -> Option<RunKind> {
        self.skip();
        self.word(&["zone", "zones"]);
        let zone = self.number();
        match zone {
            Some((zone, _)) if [1.0, 2.0, 3.0].contains(&zone) => {
                Some(RunKind::Exchange { zone: zone as u8 })
            }
            zone => {
                let span = zone.map_or_else(|| self.here(), |(_, span)| span);
                self.problem(span, "expected the number of a takeover zone", "write 1, 2 or 3");
                None
            }
        }
    }

    fn is_in_and_out(&self) -> bool {
        self.is_word(0, &["in"]) && self.is_sign(1, '-') && self.is_word(2, &["and"])
    }

    fn in_and_out(&mut self, length: Length) -> Option<RunKind> {
        if !self.phrase(&["in", "-", "and", "-", "out"]) {
            self.problem(self.here(), "expected `in-and-out`", "write for example `400 in-and-out 50s`");
            return None;
        }
        let Some((turn_m, span)) = self.number() else {
            let message = format!("expected how far each turn is, found {}", self.found());
            self.problem(self.here(), message, "write for example `in-and-out 50s`");
            return None;
        };
        self.word(&["s", "m"]);
        if !(10.0..=1000.0).contains(&turn_m) {
            let message = format!("turns of {turn_m} m are out of range");
            self.problem(span, message, "write turns from 10 m to 1000 m");
            return None;
        }
        Some(RunKind::InAndOut { length, turn_m })
    }

    /// A run over hurdles, where the distance is that of a hurdles race; else a plain run.
    fn hurdles(&mut self, length: &Spanned<Length>) -> Option<RunKind> {
        let is_over_hurdles = self.word(&["h", "mh", "hurdles", "hurdle"]);
        if !is_over_hurdles {
            return Some(RunKind::Plain(length.value));
        }
        let Length::Metres(race_m) = length.value else {
            let span = length.span.clone();
            self.problem(span, "a hurdles race is measured in metres", "write for example `110h`");
            return None;
        };
        let mut to_hurdle = None;
        if self.phrase(&["to", "hurdle"]) {
            match self.number() {
                Some((hurdle, _)) if hurdle.fract() == 0.0 && (1.0..=10.0).contains(&hurdle) => {
                    to_hurdle = Some(hurdle as u8);
                }
                hurdle => {
                    let span = hurdle.map_or_else(|| self.here(), |(_, span)| span);
                    self.problem(span, "expected the number of a hurdle", "write from 1 to 10");
                    return None;
                }
            }
        }
        Some(RunKind::Hurdles { race_m, to_hurdle })
    }
}

/// What was said of the last item of a list and means all of them moves to the list: lanes, places,
/// recoveries, and paces that no distance limits. A time means all only where all are as far.
fn hoist(group: &mut Group) {
    let [before @ .., last] = group.items.as_mut_slice() else { return };
    let details = |item: &mut Item| match item {
        Item::Run(run) => std::mem::take(&mut run.details),
        Item::Group(group) if group.count == 1 => std::mem::take(&mut group.details),
        Item::Group(group) => said_of_all(&mut group.details),
    };
    if before.is_empty() {
        group.details = match last {
            Item::Run(run) => std::mem::take(&mut run.details),
            // A count's own details stay with it.
            Item::Group(_) => Details::default(),
        };
        return;
    }
    let kind = |item: &Item| match item {
        Item::Run(run) => Some(run.kind.value),
        Item::Group(_) => None,
    };
    let has_pace = |item: &Item| match item {
        Item::Run(run) => run.details.pace.is_some(),
        Item::Group(group) => group.details.pace.is_some(),
    };
    let all_alike = before.iter().all(|item| kind(item).is_some() && kind(item) == kind(last));
    let some_paced = before.iter().any(has_pace);
    let mut said = details(last);
    let is_time = matches!(said.pace.as_deref(), Some(super::block::Pace::Time { .. }));
    if some_paced || is_time && !all_alike {
        let pace = said.pace.take();
        match last {
            Item::Run(run) => run.details.pace = pace,
            Item::Group(group) => group.details.pace = pace,
        }
    }
    group.details = said;
}

fn grouped(count: u32, item: Item, details: Details) -> Item {
    Item::Group(Box::new(Group { count, items: vec![item], details }))
}

/// Of what is said behind a count within a list or a count, what means the whole.
fn said_of_all(details: &mut Details) -> Details {
    Details {
        lanes: details.lanes.take(),
        place: details.place.take(),
        from: details.from.take(),
        to: details.to.take(),
        together: details.together.take(),
        recovery: Recovery { sets: details.recovery.sets.take(), ..Recovery::default() },
        ..Details::default()
    }
}

/// A list of one group is that group, where nothing else is said of it.
fn simplified(mut group: Group) -> Group {
    while group.count == 1
        && group.items.len() == 1
        && group.details == Details::default()
        && matches!(group.items[0], Item::Group(_))
    {
        if let Some(Item::Group(inner)) = group.items.pop() {
            group = *inner;
        }
    }
    group
}

fn nearest_word(word: &str) -> Option<&'static str> {
    const KNOWN: [&str; 16] = [
        "in", "lane", "lanes", "on", "from", "to", "rest", "off", "jog", "walk", "between", "sets", "flying",
        "hurdle", "laps", "together",
    ];
    KNOWN
        .iter()
        .map(|known| (strsim::jaro_winkler(word, known), *known))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, known)| known)
}

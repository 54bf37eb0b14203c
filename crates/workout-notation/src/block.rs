//! A block of a workout, as read.

use std::fmt;

use lane_distance::LaneNumber;

use crate::doubt::Doubt;
use crate::forms::note::MOST_COUNTED;
use crate::forms::{Details, Gap, MOST_REPS, Run, RunKind, RunLength, SHORT_S, Step};
use crate::spanned::Spanned;

/// One line of a workout, as read.
#[derive(Clone, Debug)]
pub struct Block {
    /// The line as it was written.
    pub text: String,
    /// Where it begins in the text of its workout, in bytes.
    pub start: usize,
    /// What stands in front and changes nothing: `Tuesday`, `U13s`.
    pub label: Option<String>,
    /// What is done.
    pub body: Body,
    /// The rest between this block and the next, where the text gives one.
    pub rest_after: Option<RestAfter>,
    /// What the runners are told that changes nothing on the ground, as it was written: `last 50 fast`, `teams of 3`.
    pub asides: Vec<String>,
    /// Words that were not read, in the order written.
    pub not_read: Vec<String>,
    /// What could be read in another way.
    pub doubts: Vec<Doubt>,
}

/// The rest between a block and the next.
#[derive(Clone, Debug, PartialEq)]
pub struct RestAfter {
    /// How long it is, in seconds.
    pub seconds: f64,
    /// As it was written.
    pub text: String,
}

impl PartialEq for Block {
    /// Two blocks are equal if they mean the same, however they are written.
    fn eq(&self, other: &Self) -> bool {
        self.body == other.body
    }
}

/// What a line of a workout says.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// Runs: the outermost series has a count of 1 unless the whole line is repeated.
    Runs(Box<Series>),
    /// Something that is not a run: a warm-up, drills, free text. A line is one if it begins with the
    /// name of one, or has words and no numbers but durations.
    ///
    /// ```
    /// use workout_notation::{Block, Body, RunLength};
    ///
    /// for (text, lasts_s, length) in [
    ///     ("warm-up 15 min", Some(900.0), None),
    ///     ("15 min warm up", Some(900.0), None),
    ///     ("2 laps warm-up", None, Some(RunLength::Laps(2.0))),
    ///     ("drills: 4 x 30 m high knees", None, None),
    ///     ("talk about the relay order", None, None),
    /// ] {
    ///     let block = Block::parse(text).expect("it is well formed");
    ///     assert_eq!(block.body, Body::Note { words: text.to_owned(), lasts_s, length });
    /// }
    /// ```
    Note {
        /// The words.
        words: String,
        /// How long it lasts, in seconds.
        lasts_s: Option<f64>,
        /// How far it goes.
        length: Option<RunLength>,
    },
}

impl Body {
    /// Words that say neither how long nor how far.
    pub(crate) fn words(words: &str) -> Self {
        Self::Note { words: words.to_owned(), lasts_s: None, length: None }
    }
}

/// Items that are done one after the other, a number of times.
///
/// What stands behind the last run of a list belongs to the whole list, unless an earlier run has one
/// of its own. A time or an effort belongs to that run alone if the runs are not alike. A second rest
/// behind a bracket is the one between its turns.
///
/// ```
/// # use workout_notation::Block;
/// # fn read(text: &str) -> String { Block::parse(text).expect("it is well formed").to_string() }
/// let text = "2 x (300 @ 48 + 200 @ 30) rest 2min / 8min in lane 3";
/// assert_eq!(read(text), "2 x (300 @ 48s + 200 @ 30s) in lanes 3 rest 2:00 8:00 between sets");
/// assert_eq!(read("300 + 200 rest 5min"), "(300 + 200) rest 5:00");
/// assert_eq!(read("300 rest 8min + 200 rest 5min + 100"), "300 rest 8:00 + 200 rest 5:00 + 100");
/// assert_eq!(read("3 x (300 + 150 rest 90s) rest 8min"), "3 x (300 + 150) rest 1:30 8:00 between sets");
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Series {
    /// How many times.
    pub count: u32,
    /// What is done each time.
    pub items: Vec<Item>,
    /// The clauses that apply to all of them.
    pub details: Details,
}

/// One item of a series.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A run.
    Run(Box<Run>),
    /// A series within the series.
    Series(Box<Series>),
}

impl Run {
    /// Whether it is told from a recovery by `run` alone, behind an item: `400 run float`, `2:00 run`.
    fn needs_its_name(&self, before: &Item) -> bool {
        let effort = self.details.effort.as_deref();
        match self.kind.value {
            // Behind runs over distances a time alone is a rest, and a short one behind any is what a pace is slower by.
            RunKind::Timed { seconds } => effort.is_none() && (!before.is_timed() || seconds <= SHORT_S),
            RunKind::Plain(_) => effort.is_some_and(|effort| effort.starts_with("float")),
            _ => false,
        }
    }
}

impl Item {
    pub(crate) fn details(&self) -> &Details {
        match self {
            Self::Run(run) => &run.details,
            Self::Series(series) => &series.details,
        }
    }

    /// Whether it is a run by time, however often.
    fn is_timed(&self) -> bool {
        match self {
            Self::Run(run) => matches!(run.kind.value, RunKind::Timed { .. }),
            Self::Series(series) => matches!(series.items.as_slice(), [item] if item.is_timed()),
        }
    }

    /// What kind of run it is; nothing for a series.
    pub(crate) fn kind(&self) -> Option<RunKind> {
        match self {
            Self::Run(run) => Some(run.kind.value),
            Self::Series(_) => None,
        }
    }
}

impl Block {
    /// The same block in other lanes, where its first run names some: with them in its text, and read from that.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    /// use workout_notation::Block;
    ///
    /// let block = Block::parse("3 x 150 in lanes 3-5, rest 5min").expect("it is well formed");
    /// let moved = block.in_lanes(&[LaneNumber::of::<2>(), LaneNumber::of::<3>()]);
    /// assert_eq!(moved.text, "3 x 150 in lanes 2,3, rest 5min");
    /// ```
    #[must_use]
    pub fn in_lanes(&self, lanes: &[LaneNumber]) -> Self {
        let span = self.steps().first().and_then(|step| Some(step.lanes?.span.clone()));
        let Some((before, after)) =
            span.and_then(|span| self.text.get(..span.start).zip(self.text.get(span.end..)))
        else {
            return self.clone();
        };
        let listed: Vec<String> = lanes.iter().map(LaneNumber::to_string).collect();
        let (start, rest_after) = (self.start, self.rest_after.clone());
        Self::parse(&format!("{before}{}{after}", listed.join(",")))
            .map_or_else(|_| self.clone(), |moved| Self { start, rest_after, ..moved })
    }

    /// The same block with its runs between other places: from a mark, to a mark, or wherever they fit best; its text is
    /// the one form of all those that mean the same. A note stays as it is.
    ///
    /// ```
    /// use workout_notation::Block;
    ///
    /// let block = Block::parse("6x200 from the 400 m start, rec 90s").expect("it is well formed");
    /// let moved = block.with_ends(None, Some("finish line"));
    /// assert_eq!(moved.text, "6 x 200 to the finish line rest 1:30");
    /// ```
    #[must_use]
    pub fn with_ends(&self, from: Option<&str>, to: Option<&str>) -> Self {
        let Body::Runs(series) = &self.body else { return self.clone() };
        let end = |mark: Option<&str>| mark.map(|mark| Spanned::new(mark.to_owned(), 0..0));
        let mut series = series.clone();
        series.clear_ends();
        series.details.from = end(from);
        series.details.to = end(to);
        let (start, rest_after) = (self.start, self.rest_after.clone());
        Self::parse(&series.to_string()).map_or_else(
            |_| self.clone(),
            |moved| Self {
                start,
                rest_after,
                label: self.label.clone(),
                asides: self.asides.clone(),
                not_read: self.not_read.clone(),
                ..moved
            },
        )
    }

    /// A block of which everything was read, in one way only.
    pub fn new(text: impl Into<String>, body: Body) -> Self {
        Self {
            text: text.into(),
            label: None,
            body,
            start: 0,
            rest_after: None,
            asides: Vec::new(),
            not_read: Vec::new(),
            doubts: Vec::new(),
        }
    }

    /// How many runs the block has in one lane.
    pub fn count(&self) -> u32 {
        match &self.body {
            Body::Runs(series) => series.runs(),
            Body::Note { .. } => 0,
        }
    }

    /// The runs of the block one after the other; none for a note.
    ///
    /// ```
    /// use workout_notation::{Block, Gap};
    ///
    /// let block = Block::parse("2 x (300, 200) rest 3min / 8min between sets").expect("it is well formed");
    /// let rests: Vec<_> = block.steps().iter().map(|step| step.gap).collect();
    /// let (rep, set) = (Some(Gap::Rest(180.0)), Some(Gap::Rest(480.0)));
    /// assert_eq!(rests, [rep, set, rep, None]);
    /// ```
    pub fn steps(&self) -> Vec<Step<'_>> {
        let mut steps = self.all_steps();
        if let Some(last) = steps.last_mut() {
            last.gap = None;
            last.recovery = None;
        }
        steps
    }

    /// How long they rest behind the only run, in seconds, before whatever comes next: one run has no rest between.
    ///
    /// ```
    /// use workout_notation::Block;
    ///
    /// let rest = |text| Block::parse(text).expect("it is well formed").rest_behind_one();
    /// assert_eq!(rest("1 x 150 @ 90%, 10 min"), Some(600.0));
    /// assert_eq!(rest("2 x 150 @ 90%, 10 min"), None);
    /// ```
    #[must_use]
    pub fn rest_behind_one(&self) -> Option<f64> {
        if self.count() != 1 {
            return None;
        }
        match self.all_steps().pop()?.gap? {
            Gap::Rest(rest_s) => Some(rest_s),
            Gap::Cycle(_) => None,
        }
    }

    fn all_steps(&self) -> Vec<Step<'_>> {
        let mut steps = Vec::new();
        if let Body::Runs(series) = &self.body {
            series.flatten(&mut Vec::new(), 1, &mut steps);
        }
        steps
    }
}

impl Series {
    /// Takes away where its runs start and finish.
    fn clear_ends(&mut self) {
        let clear = |details: &mut Details| (details.from, details.to) = (None, None);
        clear(&mut self.details);
        for item in &mut self.items {
            match item {
                Item::Run(run) => clear(&mut run.details),
                Item::Series(series) => series.clear_ends(),
            }
        }
    }

    /// How many runs it has in all; at most [`MOST_REPS`] and one are counted.
    pub fn runs(&self) -> u32 {
        let once = self.items.iter().fold(0_u32, |sum, item| {
            sum.saturating_add(match item {
                Item::Run(_) => 1,
                Item::Series(series) => series.runs(),
            })
        });
        self.count.saturating_mul(once).min(MOST_REPS + 1)
    }

    pub(crate) fn runs_of_one_turn(&self) -> u32 {
        self.runs() / self.count.max(1)
    }

    fn flatten<'a>(&'a self, outer: &mut Vec<&'a Details>, set: u32, steps: &mut Vec<Step<'a>>) {
        outer.push(&self.details);
        let once = self.runs_of_one_turn();
        for turn in 0..self.count {
            for (index, item) in self.items.iter().enumerate() {
                // A set is a turn of the outermost series whose turns have several runs.
                let set = if once > 1 && outer.len() <= 2 && self.count > 1 { turn + 1 } else { set };
                match item {
                    Item::Run(run) => steps.push(Step::new(run, outer, set)),
                    Item::Series(series) => {
                        series.flatten(outer, set, steps);
                        let after = series.details.recovery.after.as_deref();
                        if let (Some(last), Some(rest_s)) = (steps.last_mut(), after) {
                            last.gap = Some(Gap::Rest(*rest_s));
                            continue;
                        }
                        // `4 x 200 + 4 x 100` are sets as well if a rest between sets is given.
                        if series.runs() > 1 && index + 1 < self.items.len() {
                            set_gap(steps, outer, None);
                        }
                    }
                }
                if steps.len() > MOST_REPS as usize {
                    break;
                }
            }
            // Between the turns of a series with several runs lies the rest between sets.
            if once > 1 {
                set_gap(steps, outer, self.details.recovery.gap.as_deref().copied());
            }
        }
        outer.pop();
    }
}

/// Puts the rest between sets behind the last step; where none is given, the series' own.
fn set_gap(steps: &mut [Step<'_>], outer: &[&Details], own: Option<Gap>) {
    let set_rest = outer.iter().rev().find_map(|details| details.recovery.set_rest.as_deref());
    if let (Some(last), Some(gap)) = (steps.last_mut(), set_rest.map(|rest_s| Gap::Rest(*rest_s)).or(own)) {
        last.gap = Some(gap);
    }
}

impl fmt::Display for Block {
    /// One form of all those that mean the same; read again, it is the same block.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.body {
            Body::Runs(series) => write!(f, "{series}"),
            Body::Note { words, .. } => f.write_str(words),
        }
    }
}

impl Series {
    /// Whether its only run is so short that its metres could be a count of strides.
    fn is_short_stride(&self, run: &Run) -> bool {
        let efforts = [&run.details.effort, &self.details.effort];
        let is_stride = efforts
            .iter()
            .find_map(|effort| effort.as_ref())
            .is_some_and(|effort| effort.starts_with("strides"));
        let is_short =
            matches!(run.kind.value, RunKind::Plain(RunLength::Metres(metres)) if metres <= MOST_COUNTED);
        self.count == 1 && is_stride && is_short
    }
}

impl fmt::Display for Series {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.count != 1 {
            write!(f, "{} x ", self.count)?;
        }
        // Behind brackets, what belongs to several items cannot be taken for what belongs to the last.
        let has_details = self.details != Details::default();
        let is_single_run = matches!(self.items.as_slice(), [Item::Run(_)]);
        let in_brackets = !is_single_run && (self.count != 1 || has_details);
        if in_brackets {
            f.write_str("(")?;
        }
        for (index, item) in self.items.iter().enumerate() {
            if index > 0 {
                f.write_str(" + ")?;
            }
            let is_last_of_several = index > 0 && index + 1 == self.items.len();
            match item {
                // `20 strides` alone would be so many of them.
                Item::Run(run) if is_single_run && self.is_short_stride(run) => {
                    write!(f, "{}m{}", run.kind.value, run.details)?;
                }
                Item::Run(run)
                    if index.checked_sub(1).is_some_and(|before| run.needs_its_name(&self.items[before])) =>
                {
                    write!(f, "{} run{}", run.kind.value, run.details)?;
                }
                Item::Run(run) => write!(f, "{run}")?,
                Item::Series(series)
                    if series.count == 1 || is_last_of_several && series.details != Details::default() =>
                {
                    write!(f, "({series})")?;
                }
                Item::Series(series) => write!(f, "{series}")?,
            }
        }
        if in_brackets {
            f.write_str(")")?;
        }
        write!(f, "{}", self.details)
    }
}

//! What is wrong with a session or track file, and where.

use std::fmt;
use std::ops::Range;

use lane_distance::{Key, TrackFaultKind};
use workout_notation::{Problem, SourceText, Spanned};

use crate::files::limit::Limit;
use crate::people::late_fault::LateFault;
use crate::people::timezone::TimezoneError;
use crate::plan::fault::PlanFault;

/// The most faults that are kept of one file.
pub(crate) const MOST_FAULTS: usize = 50;

/// Everything that is wrong with one file: one fault at least, in the order of the text.
#[derive(Clone, Debug, PartialEq)]
pub struct FileFaults {
    /// The text of the file.
    pub source: SourceText,
    /// What is wrong with it, up to 50 faults.
    pub faults: Vec<FileFault>,
    /// How many more there are.
    pub more: usize,
}

/// One thing that is wrong with a file.
#[derive(Clone, Debug, PartialEq)]
pub struct FileFault {
    /// The bytes of the text that it is about, within one line.
    pub span: Range<usize>,
    /// The keys that lead from the top of the file to the value that it is about.
    pub at: Vec<Key>,
    /// What is wrong.
    pub kind: FileFaultKind,
}

/// What can be wrong with a file.
#[derive(Clone, Debug, PartialEq)]
pub enum FileFaultKind {
    /// The text is not YAML.
    NotYaml {
        /// What the parser expected, in its words.
        reason: String,
    },
    /// `*name` stands for a value that nothing before it is called.
    UnknownAlias,
    /// There is more of something than a file may hold.
    TooMuch(Limit),
    /// The file holds more than one document.
    SeveralDocuments,
    /// The file holds nothing.
    Empty,
    /// A key that its group has already.
    RepeatedKey(String),
    /// A key that is not text.
    KeyNotText(Found),
    /// A key that does not exist there.
    UnknownKey(UnknownName),
    /// A key that has to be there, and is not.
    MissingKey(&'static str),
    /// A value that is not of the type that its key needs.
    WrongType {
        /// What it needs.
        expected: Expected,
        /// What is there.
        found: Found,
    },
    /// A word that is not one of those that its key can have.
    UnknownWord(UnknownName),
    /// A text that is not a time zone.
    NotATimezone(TimezoneError),
    /// A text in the workout notation that is wrong: a block, a time or a distance.
    Notation(Problem),
    /// A block that cannot be laid out on the track, with the bytes of its text.
    Plan(Box<Spanned<PlanFault>>),
    /// A description of a track that does not hold together.
    Track(TrackFaultKind),
    /// A house rule whose distances exclude each other.
    RuleFitsNoRun,
    /// A number outside its range.
    OutOfRange {
        /// What it counts.
        of: SessionNumber,
        /// The number.
        value: f64,
        /// The least that it may be.
        least: f64,
        /// The most that it may be.
        most: f64,
    },
    /// A name without a letter.
    EmptyName(Named),
    /// A name that another athlete or group has.
    SameName(Named, String),
    /// A guide with nobody to guide: no athlete is named.
    GuideAlone(String),
    /// A guide who is an athlete of the session as well, or guides somebody else too.
    GuideTwice(String),
    /// A name in a relay team that nobody of the group has.
    NotInGroup {
        /// The name.
        name: String,
        /// The group.
        group: String,
        /// Those who belong to it.
        names: Vec<String>,
    },
    /// An athlete of a relay team who comes twice running.
    HandsToOneself(String),
    /// An athlete who is in another relay team already.
    InTwoTeams(String),
    /// A relay team that has nobody to hand to: of one athlete, or of none.
    TeamOfOne(Option<String>),
    /// A target that is no speed to run at.
    TargetTooSlow {
        /// The distance, in metres.
        distance_m: f64,
        /// The target, in seconds.
        target_s: f64,
    },
    /// A session without a block.
    NoBlocks,
    /// A track that is neither built in nor a file.
    NoTrack {
        /// What the session file calls it.
        name: String,
        /// The path where its file would be.
        path: String,
    },
    /// A late change that cannot be made.
    Late(LateFault),
}

/// A name that is not known, and those that are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownName {
    /// The name.
    pub name: String,
    /// The known name most like it, if one is.
    pub near: Option<&'static str>,
    /// The known names.
    pub known: Vec<&'static str>,
}

/// What a value is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// Nothing.
    Nothing,
    /// A text.
    Text(String),
    /// A number, as written.
    Number(String),
    /// A list.
    List,
    /// A group of keys.
    Mapping,
}

/// What a key needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expected {
    /// A number without a fraction.
    WholeNumber,
    /// A whole number from 0 to 255.
    SmallNumber,
    /// A number.
    Number,
    /// A text.
    Text,
    /// A list.
    List,
    /// A group of keys.
    Mapping,
    /// A length.
    Length,
    /// Lanes, or lanes with a reason.
    ClosedLanes,
    /// Lanes, or how they are used.
    SquadLanes,
    /// A time or a duration.
    Time,
    /// The distance of a race.
    RaceDistance,
    /// A date.
    Date,
    /// A part of a day.
    Hours,
    /// A time of day.
    TimeOfDay,
    /// The address of a page.
    PageAddress,
    /// From when on something is in use.
    Since,
    /// An age group.
    AgeGroup,
    /// The name of an athlete.
    Name,
    /// A time zone.
    Timezone,
    /// The name of an athlete, or a group of keys.
    Athlete,
    /// A block of the workout notation.
    Block,
}

/// A number of a session file that has a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SessionNumber {
    /// A walker's stride, in metres.
    Stride,
    /// Riegel's exponent.
    RiegelExponent,
    /// The year of a date.
    Year,
    /// The repetitions that somebody does at most.
    Reps,
    /// How strong the wind is, in metres a second.
    Wind,
    /// The athletes of a wave at most.
    Most,
}

/// Who or what has a name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Named {
    /// A session.
    Session,
    /// A training group.
    Group,
    /// An athlete.
    Athlete,
}

/// Keys that are often written one level too high, behind the key that they belong below.
pub(crate) static BELOW: &[(&str, &[&str])] =
    &[("squad", &["mode", "most", "timing_gap", "start_gap", "timers"])];

impl UnknownName {
    /// A name that is none of the known ones.
    pub(crate) fn new(name: &str, known: impl Iterator<Item = &'static str>) -> Self {
        let known: Vec<_> = known.collect();
        let is_too_high = below(name, &known).is_some();
        let near = known
            .iter()
            .filter(|_| !is_too_high)
            .map(|known| (strsim::jaro_winkler(name, known), *known))
            .filter(|(likeness, _)| *likeness > 0.7)
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map(|(_, known)| known);
        Self { name: name.to_owned(), near, known }
    }

    /// The known name below which it belongs, where it is written one level too high.
    pub fn below(&self) -> Option<&'static str> {
        below(&self.name, &self.known)
    }
}

fn below(name: &str, known: &[&str]) -> Option<&'static str> {
    let holds = |(holder, keys): &&(&'static str, &[&str])| known.contains(holder) && keys.contains(&name);
    BELOW.iter().find(holds).map(|(holder, _)| *holder)
}

impl FileFaults {
    /// Faults of a text, put into its order; each is kept once.
    pub(crate) fn new(source: SourceText, faults: Vec<FileFault>) -> Self {
        let (mut kept, mut more): (Vec<FileFault>, usize) = (Vec::new(), 0);
        for fault in faults {
            if kept.contains(&fault) {
                continue;
            }
            if kept.len() < MOST_FAULTS {
                kept.push(fault);
            } else {
                more += 1;
            }
        }
        kept.sort_by_key(|fault| fault.span.start);
        Self { source, faults: kept, more }
    }

    /// The same where others were not kept.
    pub(crate) fn and_more(mut self, others: usize) -> Self {
        self.more += others;
        self
    }
}

/// How many faults there are and where the first is; a view words each.
impl fmt::Display for FileFaults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let start = self.faults.first().map_or(0, |fault| fault.span.start);
        let line = self.source.text().bytes().take(start).filter(|byte| *byte == b'\n').count() + 1;
        let count = self.faults.len() + self.more;
        write!(f, "{}:{line}: {count} fault{}", self.source.name(), if count == 1 { "" } else { "s" })
    }
}

impl std::error::Error for FileFaults {}

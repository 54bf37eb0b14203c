//! What is done between runs: how the runners get to the next start, and how long they have.

use std::fmt;

use crate::cursor::Cursor;
use crate::form::{Form, row};
use crate::forms::clause::add;
use crate::phrases::Phrases;
use crate::quantity::Duration;
use crate::rest_words::RESTS;
use crate::spanned::Spanned;
use crate::track_part::TrackPart;

/// What is done between runs.
///
/// ```
/// use workout_notation::{Block, Gap, RecoveryKind};
///
/// let block = |text: &str| Block::parse(text).expect("it is well formed");
/// for text in ["3 x 300 rest 90s", "3 x 300 r 90", "3x300 (90s)", "3 x 300, 1'30\" rest", "3 x 300 w/ 90s jog"] {
///     let gaps: Vec<_> = block(text).steps().iter().map(|step| step.gap).collect();
///     let gap = Some(Gap::Rest(90.0));
///     assert_eq!(gaps, [gap, gap, None]); // nothing follows the last run
/// }
/// assert_eq!(block("10 x 400 off 3:00").steps()[0].gap, Some(Gap::Cycle(180.0)));
///
/// for text in ["2 x 2 x 60 rest 2min / 8min", "2 x 2 x 60 r 2' R 8'", "2 x (2 x 60 rest 2min) rest 8min"] {
///     let gaps: Vec<_> = block(text).steps().iter().map(|step| step.gap).collect();
///     let (rep, set) = (Some(Gap::Rest(120.0)), Some(Gap::Rest(480.0)));
///     assert_eq!(gaps, [rep, set, rep, None]);
/// }
///
/// let recovery = |text: &str| block(text).steps()[0].recovery;
/// assert_eq!(recovery("6 x 200 jog 200"), Some(RecoveryKind::Jog(200.0)));
/// assert_eq!(recovery("6 x 200, 200m jog"), Some(RecoveryKind::Jog(200.0)));
/// assert_eq!(recovery("6 x 200 jog exactly 200"), Some(RecoveryKind::JogExactly(200.0)));
/// assert_eq!(recovery("6 x 200 walk 100 in 60s"), Some(RecoveryKind::Walk(100.0)));
/// assert_eq!(recovery("6 x 60, slow walk back, 3min"), Some(RecoveryKind::WalkBack));
/// assert_eq!(recovery("4 x 100 standing 20s"), Some(RecoveryKind::Stand));
/// assert_eq!(recovery("4 x 60 changing ends rest 3min"), Some(RecoveryKind::ChangeEnds));
/// assert_eq!(recovery("4 x 60, full recovery"), None); // as long as it takes
/// assert!(block("6 x 400, 2 min jog").steps()[0].jogs);
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Recovery {
    /// How the runners get to the next start.
    pub kind: Option<Spanned<RecoveryKind>>,
    /// How long there is between runs.
    pub gap: Option<Spanned<Gap>>,
    /// Whether the runners jog in that time, where no distance is said: `2 min jog`.
    pub jogs: bool,
    /// The rest between sets, in seconds.
    pub set_rest: Option<Spanned<f64>>,
    /// The rest after the last run of a series, before what follows it in a list, in seconds.
    pub after: Option<Spanned<f64>>,
}

/// How the runners get to the next start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RecoveryKind {
    /// They jog on for about this many metres, to a place that is there already where one is near.
    Jog(f64),
    /// They jog on for exactly this many metres; the next run starts there.
    JogExactly(f64),
    /// They walk on for about this many metres, to a place that is there already where one is near.
    Walk(f64),
    /// They walk on for exactly this many metres; the next run starts there.
    WalkExactly(f64),
    /// They jog along the part of the track that lies between two runs over the other part.
    JogPart(TrackPart),
    /// They walk along the part of the track that lies between two runs over the other part.
    WalkPart(TrackPart),
    /// They walk back to the start.
    WalkBack,
    /// They jog back to the start.
    JogBack,
    /// They stay; each run starts where the last ended.
    Stand,
    /// They change ends: the next run starts elsewhere and ends where the last one started, or as near
    /// as there is paint.
    ChangeEnds,
}

impl RecoveryKind {
    /// How far the runners go on along their lane to the next start, in metres; nothing where the track says how far, or
    /// they go another way.
    ///
    /// ```
    /// use workout_notation::RecoveryKind;
    ///
    /// assert_eq!(RecoveryKind::JogExactly(100.0).on_m(), Some(100.0));
    /// assert_eq!(RecoveryKind::Stand.on_m(), Some(0.0));
    /// assert_eq!(RecoveryKind::WalkBack.on_m(), None);
    /// ```
    pub const fn on_m(self) -> Option<f64> {
        match self {
            Self::Jog(metres) | Self::JogExactly(metres) | Self::Walk(metres) | Self::WalkExactly(metres) => {
                Some(metres)
            }
            Self::Stand => Some(0.0),
            Self::JogPart(_) | Self::WalkPart(_) | Self::WalkBack | Self::JogBack | Self::ChangeEnds => None,
        }
    }

    /// Whether the runners come to the next start along their lane.
    ///
    /// ```
    /// use workout_notation::{RecoveryKind, TrackPart};
    ///
    /// assert!(RecoveryKind::JogPart(TrackPart::Bend).is_onward());
    /// assert!(!RecoveryKind::WalkBack.is_onward());
    /// ```
    pub const fn is_onward(self) -> bool {
        self.on_m().is_some() || matches!(self, Self::JogPart(_) | Self::WalkPart(_))
    }
}

/// How long there is between two runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Gap {
    /// From the end of a run to the next start, in seconds.
    Rest(f64),
    /// From one start to the next, in seconds.
    Cycle(f64),
}

/// The word behind the rest that follows a whole series.
pub(crate) const AFTER: &str = "afterwards";

pub(crate) const FORM: Form = Form {
    begins: Phrases::new(&[
        &[RESTS],
        &[&["off", "every", "jog", "walk", "stand", "standing", "change", "changing", "between", "full"]],
    ]),
    words: &[
        "rest",
        "rec",
        "recovery",
        "off",
        "every",
        "jog",
        "walk",
        "stand",
        "standing",
        "change",
        "changing",
        "between",
        "full",
        "ends",
        "exactly",
        "recoveries",
    ],
    rows: &[
        row(&["6 x 200 rest 90s", "6 x 200 rec 2min"], "from the end of a run to the next start"),
        row(&["6 x 200 off 3:00"], "from one start to the next"),
        row(&["2 x (3 x 200) rest 2min / 8min"], "between runs, and between sets"),
        row(&["4 x 300 jog 100", "4 x 300 walk 100"], "on to the next start, about so far"),
        row(&["4 x 300 jog exactly 100", "4 x 300 walk exactly 100"], "on for so far to the metre"),
        row(&["4 x 150 walk back"], "back to the start"),
        row(&["4 x 400 standing"], "each run starts where the last ended"),
        row(&["6 x 200 changing ends"], "each run starts at other paint than the last"),
    ],
};

/// What a second one for the same run is called.
pub(crate) const KIND: &str = "recovery";
pub(crate) const REST: &str = "rest";
pub(crate) const SET_REST: &str = "rest between sets";

impl Recovery {
    /// Adds what stands behind a series to what stands inside it. A second rest is the one between its
    /// turns, where a turn has several runs.
    pub(crate) fn add(&mut self, mut more: Self, cursor: &mut Cursor<'_>, has_several_runs: bool) {
        if let Some(Gap::Rest(rest_s)) = more.gap.as_deref()
            && has_several_runs
            && (self.gap.is_some() || self.kind.is_some())
            && self.set_rest.is_none()
            && more.set_rest.is_none()
        {
            let rest_s = *rest_s;
            more.set_rest = more.gap.take().map(|gap| Spanned::new(rest_s, gap.span));
        }
        let Self { kind, gap, jogs, set_rest, after } = more;
        self.jogs |= jogs && self.gap.is_none();
        add(cursor, &mut self.kind, kind, KIND);
        add(cursor, &mut self.gap, gap, REST);
        add(cursor, &mut self.set_rest, set_rest, SET_REST);
        add(cursor, &mut self.after, after, REST);
        self.settle_jog();
    }

    /// Where it is said how far the runners jog, or that they walk, a time in which they do is how long that may take.
    pub(crate) fn settle_jog(&mut self) {
        self.jogs &= self.kind.is_none();
    }

    /// What stands behind runs over straights or bends: how the other part is covered is said again, and a rest is the
    /// one between sets.
    pub(crate) fn go_on_with(&mut self, more: &mut Self) {
        let is_part = |kind: &mut Spanned<RecoveryKind>| {
            matches!(kind.value, RecoveryKind::JogPart(_) | RecoveryKind::WalkPart(_))
        };
        if let Some(kind) = more.kind.take_if(is_part) {
            self.kind = Some(kind);
        }
        if more.set_rest.is_none()
            && let Some(Gap::Rest(rest_s)) = more.gap.as_deref().copied()
        {
            more.set_rest = more.gap.take().map(|gap| Spanned::new(rest_s, gap.span));
        }
    }

    /// Of what stands behind the last run of a list, takes what belongs to that run alone, as
    /// an earlier run has one of its own.
    pub(crate) fn take_for_last_run(&mut self, before: &[&Self]) -> Self {
        let Self { kind, gap, jogs, set_rest: _, after } = self;
        let gap = gap.take_if(|_| before.iter().any(|earlier| earlier.gap.is_some()));
        Self {
            jogs: gap.is_some() && std::mem::take(jogs),
            after: after.take(),
            kind: kind.take_if(|_| before.iter().any(|earlier| earlier.kind.is_some())),
            gap,
            set_rest: None,
        }
    }
}

impl fmt::Display for Recovery {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { kind, gap, jogs, set_rest, after } = self;
        match kind.as_deref() {
            None => {}
            // `jog 3m` would be read as minutes.
            Some(RecoveryKind::Jog(metres)) if *metres < 10.0 => write!(f, " jog {metres}")?,
            Some(RecoveryKind::Walk(metres)) if *metres < 10.0 => write!(f, " walk {metres}")?,
            Some(RecoveryKind::Jog(metres)) => write!(f, " jog {metres}m")?,
            Some(RecoveryKind::JogExactly(metres)) => write!(f, " jog exactly {metres}m")?,
            Some(RecoveryKind::Walk(metres)) => write!(f, " walk {metres}m")?,
            Some(RecoveryKind::WalkExactly(metres)) => write!(f, " walk exactly {metres}m")?,
            Some(RecoveryKind::JogPart(part)) => write!(f, " jog {part}")?,
            Some(RecoveryKind::WalkPart(part)) => write!(f, " walk {part}")?,
            Some(RecoveryKind::WalkBack) => f.write_str(" walk back")?,
            Some(RecoveryKind::JogBack) => f.write_str(" jog back")?,
            Some(RecoveryKind::Stand) => f.write_str(" standing")?,
            Some(RecoveryKind::ChangeEnds) => f.write_str(" changing ends")?,
        }
        match gap.as_deref() {
            None => {}
            Some(Gap::Rest(seconds)) if *jogs => write!(f, " jog {}", Duration(*seconds))?,
            Some(Gap::Rest(seconds)) => write!(f, " rest {}", Duration(*seconds))?,
            Some(Gap::Cycle(seconds)) => write!(f, " every {}", Duration(*seconds))?,
        }
        set_rest.as_deref().map_or(Ok(()), |rest_s| write!(f, " {} between sets", Duration(*rest_s)))?;
        after.as_deref().map_or(Ok(()), |rest_s| write!(f, " {} {AFTER}", Duration(*rest_s)))
    }
}

//! What kind of run it is, and what each kind says about its form.

use crate::cursor::{Cursor, Read};
use crate::form::Form;
use crate::forms::hurdle_part::HurdlePart;
use crate::forms::run_length::RunLength;
use crate::spanned::Spanned;
use crate::track_part::TrackPart;
use crate::turns::Turns;

/// What kind of run it is, and how far it goes.
///
/// ```
/// use workout_notation::{Block, HurdlePart, RunKind, RunLength, TrackPart, Turns};
///
/// let kind = |text: &str| Block::parse(text).expect("it is well formed").steps()[0].run.kind.value;
/// let plain = |metres| RunKind::Plain(RunLength::Metres(metres));
/// assert_eq!(kind("1,000m"), plain(1000.0));
/// assert_eq!(kind("1.5km"), plain(1500.0));
/// assert_eq!(kind("100 yards"), plain(91.44));
/// assert_eq!(kind("mile"), plain(1609.344));
/// assert_eq!(kind("2 laps"), RunKind::Plain(RunLength::Laps(2.0)));
///
/// let flying = RunKind::Flying { metres: 30.0, run_in_m: 20.0 };
/// assert_eq!(kind("flying 30 with 20 run-in"), flying);
/// assert_eq!(kind("30m flying (20m run-in)"), flying);
/// assert_eq!(kind("4 flying 30s"), flying); // 20 m by default
///
/// let hurdles = RunKind::Hurdles { race_m: Some(110.0), part: HurdlePart::To(5) };
/// assert_eq!(kind("110h to hurdle 5"), hurdles);
/// assert_eq!(kind("110mH over 5 hurdles"), hurdles);
/// assert_eq!(kind("110m hurdles to the 5th hurdle"), hurdles);
/// assert_eq!(kind("110h"), RunKind::Hurdles { race_m: Some(110.0), part: HurdlePart::Whole });
/// assert_eq!(kind("6H"), RunKind::Hurdles { race_m: None, part: HurdlePart::To(6) });
/// assert_eq!(kind("H4-H6"), RunKind::Hurdles { race_m: None, part: HurdlePart::Between { first: 4, last: 6 } });
/// let last = HurdlePart::Last { run_m: 200.0, hurdles: 5 };
/// assert_eq!(kind("200m over last 5 hurdles"), RunKind::Hurdles { race_m: None, part: last });
///
/// assert_eq!(kind("4 x exchange zone 2 in lane 3"), RunKind::Exchange { zone: 2 });
/// let (length, turns) = (RunLength::Metres(800.0), Turns::new(&[50.0]).expect("one turn"));
/// assert_eq!(kind("800 in-and-out 50s"), RunKind::InAndOut { length, turns });
/// assert_eq!(kind("in-and-out 50s"), RunKind::InAndOut { length: RunLength::Laps(1.0), turns });
/// assert_eq!(kind("8 x straight, jog bends"), RunKind::Part(TrackPart::Straight));
/// assert_eq!(kind("20 min steady"), RunKind::Timed { seconds: 1200.0 });
/// assert_eq!(kind("jog 10 min"), RunKind::Timed { seconds: 600.0 });
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunKind {
    /// A distance.
    Plain(RunLength),
    /// A distance at full speed, after a run-in.
    Flying {
        /// The timed part, in metres.
        metres: f64,
        /// The run-in before it, in metres.
        run_in_m: f64,
    },
    /// A race over hurdles, or a part of it.
    Hurdles {
        /// Length of the race, in metres, where the text names it.
        race_m: Option<f64>,
        /// Which part of it is run.
        part: HurdlePart,
    },
    /// A baton exchange, through one takeover zone of the 4x100 m.
    Exchange {
        /// The zone, from 1 to 3.
        zone: u8,
    },
    /// Fast and easy in turn.
    InAndOut {
        /// How far in all.
        length: RunLength,
        /// How far each turn is.
        turns: Turns,
    },
    /// A straight or a bend from its start to its end.
    Part(TrackPart),
    /// A length of time, wherever that leads.
    Timed {
        /// How long, in seconds.
        seconds: f64,
    },
}

/// A kind of run if it comes next; nothing where something else does.
pub(crate) type Reading = Read<Option<RunKind>>;

/// All about the form of one kind of run.
pub(crate) struct RunForm {
    /// How it is recognised and explained.
    pub form: Form,
    /// Whether a number, its name and what its name needs come next, so that the number is a count:
    /// `4 flying 30s`.
    pub is_counted: fn(&Cursor<'_>) -> bool,
    /// Reads it if its name comes next: `flying 30`.
    pub named: fn(&mut Cursor<'_>) -> Reading,
    /// Reads it if its name comes next, behind a distance: `30m flying`.
    pub behind: fn(&mut Cursor<'_>, &Spanned<RunLength>) -> Reading,
}

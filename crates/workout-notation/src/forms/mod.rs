//! The forms of the notation: a file for each, and the tables that they stand in.
//!
//! A file holds everything about its form: the words, how it is read and printed, what it belongs to in
//! a list, and its rows in [`notation`]. A new form is a file and a line in a table: in `runs!` for a
//! kind of run, in `clauses!` for a property of a run.

mod as_long;
mod aside;
mod bare_times;
pub(crate) mod clause;
mod count;
pub(crate) mod effort;
mod ends;
mod exchange;
mod flying;
mod hurdle_part;
mod hurdles;
mod in_and_out;
mod jog;
pub(crate) mod lanes;
pub(crate) mod note;
mod pace;
mod paces_in_turn;
mod part_times;
mod place;
mod plain;
mod recovery;
mod rest;
mod run_kind;
mod run_length;
mod run_place;
mod separator;
mod slower;
pub(crate) mod stance;
mod straights_and_bends;
mod timed;
mod together;
mod whole_part;

use std::fmt;
use std::sync::LazyLock;

use lane_distance::LaneNumber;

pub use count::MOST_REPS;
pub use hurdle_part::HurdlePart;
pub use pace::Pace;
pub use recovery::{Gap, Recovery, RecoveryKind};
pub use run_kind::RunKind;
pub use run_length::RunLength;
pub use run_place::RunPlace;
pub use stance::Stance;

pub(crate) use jog::FURTHEST_M;
pub(crate) use pace::SHORT_S;
pub(crate) use rest::LEAST_BARE_S;
pub(crate) use run_length::{EXAMPLE, is_time_of_day};
pub(crate) use straights_and_bends::{NOT_IN_TURN, NOT_IN_TURN_HELP};

use crate::closing_words::{CLOSED, KEEP_OUT, OPEN};
use crate::cursor::{Cursor, Read, Reported};
use crate::form::{Form, Forms, NotationForm};
use crate::people::{AGES, GROUPS, PEOPLE};
use crate::quantity::Duration;
use crate::spanned::Spanned;
use run_kind::RunForm;

/// All forms.
pub(crate) static FORMS: Forms = Forms {
    lists: &[&count::FORM, &separator::FORM, &aside::FORM],
    runs: RUN_FORMS,
    clauses: CLAUSE_FORMS,
    efforts: effort::EFFORT.form.begins,
    parts: whole_part::NAMES,
    notes: &[&note::FORM],
    note_names: &note::NOTES,
    on_foot: [&jog::ON_FOOT, &jog::SLOW],
    each: &paces_in_turn::EACH,
    groups: [&PEOPLE, &GROUPS, &AGES],
    closures: [CLOSED, KEEP_OUT, OPEN],
    vocabulary: LazyLock::new(|| FORMS.to_vocabulary()),
};

/// Every form of the notation, in the order in which to learn them. What follows a run in an example
/// can follow any other run as well.
///
/// ```
/// let form = workout_notation::notation().next().expect("there are many");
/// assert_eq!(form.examples, ["6 x 200", "200"]);
/// assert_eq!(form.meaning, "repetitions of one distance");
/// ```
pub fn notation() -> impl Iterator<Item = &'static NotationForm> {
    FORMS.all().flat_map(|form| form.rows)
}

macro_rules! runs {
    ($($kind:path,)*) => {
        const RUNS: &[&RunForm] = &[$(&$kind),*];
        const RUN_FORMS: &[&Form] = &[$(&$kind.form),*];
    };
}

runs! {
    flying::FLYING,
    hurdles::HURDLES,
    exchange::EXCHANGE,
    in_and_out::IN_AND_OUT,
    whole_part::PART,
    timed::TIMED,
    // Takes any distance that is left.
    plain::PLAIN,
}

impl fmt::Display for RunKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Plain(length) => write!(f, "{length}"),
            Self::Flying { metres, run_in_m } => flying::print(f, metres, run_in_m),
            Self::Hurdles { race_m, part } => hurdles::print(f, race_m, part),
            Self::Exchange { zone } => exchange::print(f, zone),
            Self::InAndOut { length, turns } => in_and_out::print(f, length, turns),
            Self::Part(part) => write!(f, "whole {part}"),
            Self::Timed { seconds } => write!(f, "{}", Duration(seconds)),
        }
    }
}

impl Cursor<'_> {
    /// Whether a count without a times sign comes next: `4 flying 30s`, `6 exchanges zone 1`.
    pub(crate) fn is_count_before_name(&self) -> bool {
        RUNS.iter().any(|kind| (kind.is_counted)(self))
    }

    /// Reads what kind of run comes next; nothing where a problem was reported.
    pub(crate) fn run_kind(&mut self) -> Read<RunKind> {
        for kind in RUNS {
            if let Some(read) = (kind.named)(self)? {
                return Ok(read);
            }
        }
        let length = self.length()?;
        RUNS.iter().find_map(|kind| (kind.behind)(self, &length).transpose()).unwrap_or(Err(Reported))
    }
}

/// Makes from the table of clauses all that has a part for each, so that none can be forgotten.
macro_rules! clauses {
    ($($(#[$doc:meta])* $name:ident: $value:ty = $clause:path,)*) => {
        const CLAUSE_FORMS: &[&Form] = &[$(&$clause.form,)* &recovery::FORM];

        /// The clauses of a run or a series.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct Details {
            $($(#[$doc])* pub $name: Option<Spanned<$value>>,)*
            /// What is done between runs.
            pub recovery: Recovery,
        }

        impl Details {
            /// Reads a clause if one comes next, and says whether it does.
            pub(crate) fn read(&mut self, cursor: &mut Cursor<'_>) -> bool {
                // No clause begins with a bracket.
                if cursor.is_sign(0, '(') {
                    return false;
                }
                $(($clause.read)(cursor, &mut self.$name))||* || jog::read(cursor, &mut self.recovery)
            }

            /// Adds what stands behind a series to what stands inside it; given whether a turn of it
            /// has several runs.
            pub(crate) fn add(&mut self, more: Self, cursor: &mut Cursor<'_>, has_several_runs: bool) {
                $($clause.add(cursor, &mut self.$name, more.$name);)*
                self.recovery.add(more.recovery, cursor, has_several_runs);
            }

            /// Of what stands behind the last run of a list, takes what belongs to that run alone; the
            /// rest belongs to all.
            pub(crate) fn take_for_last_run(&mut self, before: &[&Self], is_alike: bool) -> Self {
                Self {
                    $($name: {
                        let has_earlier_value = before.iter().any(|earlier| earlier.$name.is_some());
                        $clause.take_for_last_run(&mut self.$name, has_earlier_value, is_alike)
                    },)*
                    recovery: {
                        let before: Vec<_> = before.iter().map(|earlier| &earlier.recovery).collect();
                        self.recovery.take_for_last_run(&before)
                    },
                }
            }
        }

        impl fmt::Display for Details {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                for is_last in [false, true] {
                    $(if let Some(value) = &self.$name
                        && ($clause.is_printed_last)(value) == is_last
                    {
                        f.write_str(" ")?;
                        ($clause.print)(value, f)?;
                    })*
                    if !is_last {
                        write!(f, "{}", self.recovery)?;
                    }
                }
                Ok(())
            }
        }

        /// One run of a block, with all its clauses.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Step<'a> {
            /// The run.
            pub run: &'a Run,
            /// The set that it belongs to, from 1.
            pub set: u32,
            $($(#[$doc])* pub $name: Option<&'a Spanned<$value>>,)*
            /// How long there is until the next run.
            pub gap: Option<Gap>,
            /// Whether the runners jog in that time, where no distance is said.
            pub jogs: bool,
            /// How the runners get to the next start.
            pub recovery: Option<RecoveryKind>,
        }

        impl<'a> Step<'a> {
            /// A run inside several series, of which the last is the innermost: what is said about the
            /// run itself goes before what is said about its series.
            pub(crate) fn new(run: &'a Run, series: &[&'a Details], set: u32) -> Self {
                let layers = || std::iter::once(&run.details).chain(series.iter().rev().copied());
                Self {
                    run,
                    set,
                    $($name: layers().find_map(|details| details.$name.as_ref()),)*
                    gap: run.details.recovery.gap.as_deref().copied().or_else(|| {
                        // Where a series says how its runners get to the next start, a rest outside it is not theirs.
                        let is_said = |details: &&Details| {
                            details.recovery.gap.is_some() || details.recovery.kind.is_some()
                        };
                        series.iter().rev().copied().find(is_said)?.recovery.gap.as_deref().copied()
                    }),
                    jogs: layers().find(|details| details.recovery.gap.is_some()).is_some_and(|details| details.recovery.jogs),
                    recovery: layers().find_map(|details| details.recovery.kind.as_deref().copied()),
                }
            }
        }
    };
}

// They are read and printed in this order.
clauses! {
    /// How hard, in a word.
    effort: String = effort::EFFORT,
    /// How fast.
    pace: Pace = pace::PACE,
    /// The lanes, in the order written.
    lanes: Vec<LaneNumber> = lanes::LANES,
    /// Where on the track.
    place: RunPlace = place::PLACE,
    /// How the runners stand at the start.
    stance: Stance = stance::STANCE,
    /// The mark from which the run starts.
    from: String = ends::FROM,
    /// The mark at which the run ends.
    to: String = ends::TO,
    /// Whether all lanes start as one group, on a curved line.
    together: () = together::TOGETHER,
}

/// One run.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What kind of run it is, and how far.
    pub kind: Spanned<RunKind>,
    /// The clauses of this run alone.
    pub details: Details,
}

impl fmt::Display for Run {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.kind.value, self.details)
    }
}

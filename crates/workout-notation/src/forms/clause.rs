//! A clause: a property of a run other than its distance.

use std::fmt;

use crate::cursor::Cursor;
use crate::form::Form;
use crate::spanned::Spanned;

/// All about one clause, whose value is a `T`.
pub(crate) struct Clause<T: 'static> {
    /// How it is recognised and explained.
    pub form: Form,
    /// What a second one for the same run is called.
    pub name: &'static str,
    /// Reads it if it comes next, and says whether it does.
    pub read: fn(&mut Cursor<'_>, &mut Option<Spanned<T>>) -> bool,
    /// Prints it as it is read.
    pub print: fn(&T, &mut fmt::Formatter<'_>) -> fmt::Result,
    /// Whether it is printed after all others, as what follows could be taken for a part of it.
    pub is_printed_last: fn(&T) -> bool,
    /// Whether it belongs to the last run alone if it stands behind the last run of a list; given
    /// whether all runs of the list are alike. It always does if an earlier run has one of its own.
    pub is_of_last_run: fn(&T, bool) -> bool,
}

impl<T> Clause<T> {
    /// Adds what stands behind a series to what stands inside it.
    pub(crate) fn add(
        &self,
        cursor: &mut Cursor<'_>,
        own: &mut Option<Spanned<T>>,
        more: Option<Spanned<T>>,
    ) {
        add(cursor, own, more, self.name);
    }

    /// Of what stands behind the last run of a list, takes what belongs to that run alone.
    pub(crate) fn take_for_last_run(
        &self,
        value: &mut Option<Spanned<T>>,
        has_earlier_value: bool,
        is_alike: bool,
    ) -> Option<Spanned<T>> {
        value.take_if(|value| has_earlier_value || (self.is_of_last_run)(value, is_alike))
    }
}

/// Adds a second value where there is none yet, else reports it.
pub(crate) fn add<T>(
    cursor: &mut Cursor<'_>,
    own: &mut Option<Spanned<T>>,
    more: Option<Spanned<T>>,
    name: &str,
) {
    match more {
        Some(more) if own.is_some() => {
            cursor.problem(more.span, format!("a second {name} for the same run"), "keep one of them");
        }
        Some(more) => *own = Some(more),
        None => {}
    }
}

//! The cautions at the foot of a terminal view.

use session_plan::Caution;

use crate::terminal::table::list;
use crate::words::caution;

/// The cautions under their heading, one to an item.
pub(crate) fn take_care(cautions: &[Caution]) -> String {
    list("Take care", &caution::all(cautions)).unwrap_or_default() + "\n"
}

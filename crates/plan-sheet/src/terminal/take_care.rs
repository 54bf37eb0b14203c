//! The cautions at the foot of a terminal view.

use session_plan::Caution;

use crate::terminal::table::{WIDTH, item, list, wrapped};
use crate::words::caution;

/// The cautions under their heading, one to an item.
pub(crate) fn take_care(cautions: &[Caution]) -> String {
    list("Take care", &caution::all(cautions)).unwrap_or_default() + "\n"
}

/// The cautions of an answer that lays nobody's evening out: what holds for this track as items, the rest in two lines.
pub(crate) fn take_care_in_short(cautions: &[Caution]) -> String {
    let (usual, own): (Vec<&Caution>, Vec<&Caution>) =
        cautions.iter().partition(|caution| caution::is_usual(caution));
    let own = own.into_iter().map(|own| item("!", &caution::caution(own)));
    let usual = wrapped(&caution::usual_in_short(&usual), WIDTH.into()).join("\n");
    own.chain([usual]).collect::<Vec<_>>().join("\n") + "\n"
}

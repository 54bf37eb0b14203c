//! The cautions at the foot of a terminal view.

use session_plan::Caution;

use crate::terminal::table::{heading, item};
use crate::words::caution;

/// The cautions under their heading, one to an item.
pub(crate) fn take_care(cautions: &[Caution]) -> String {
    let items: Vec<String> = caution::all(cautions).iter().map(|caution| item("-", caution)).collect();
    format!("{}\n{}\n", heading("Take care"), items.join("\n"))
}

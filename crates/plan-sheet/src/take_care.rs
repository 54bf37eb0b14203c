//! The cautions at the foot of a terminal view.

use crate::table::{heading, item};

/// The cautions under their heading, one to an item.
pub(crate) fn take_care(cautions: &[String]) -> String {
    let items: Vec<String> = cautions.iter().map(|caution| item("-", caution)).collect();
    format!("{}\n{}\n", heading("Take care"), items.join("\n"))
}

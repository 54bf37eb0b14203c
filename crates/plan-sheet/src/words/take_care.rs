//! The cautions at the foot of a terminal view, and in each row of a table.

use crate::terminal::table::{heading, item};

/// The cautions under their heading, one to an item.
pub(crate) fn take_care(cautions: &[String]) -> String {
    let items: Vec<String> = cautions.iter().map(|caution| item("-", caution)).collect();
    format!("{}\n{}\n", heading("Take care"), items.join("\n"))
}

/// What every row of a table carries, as it has no foot.
pub(crate) const ROW_NOTE: &str = "distances assume the measure line; closed lanes stay closed; look both ways before \
                                   stepping on; keep clear of throws and jumps; venue rules come first";

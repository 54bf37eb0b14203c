//! Plans on the terminal.

pub(crate) mod board;
pub(crate) mod notation_text;
pub(crate) mod plan_text;
pub(crate) mod table;
pub(crate) mod take_care;
pub(crate) mod week_text;

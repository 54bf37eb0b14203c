//! Plans on the terminal.

pub(crate) mod board;
pub(crate) mod brief_places;
pub(crate) mod brief_text;
pub(crate) mod full_text;
pub(crate) mod go_table;
pub(crate) mod notation_text;
pub(crate) mod packed_table;
pub(crate) mod section;
pub(crate) mod table;
pub(crate) mod take_care;
pub(crate) mod week_text;

//! Tables, calendars and messages.

pub(crate) mod calendar;
pub(crate) mod columns;
pub(crate) mod csv_table;
pub(crate) mod message;
pub(crate) mod plan_csv;
pub(crate) mod plan_lines;
pub(crate) mod session_yaml;
pub(crate) mod week_message;
pub(crate) mod yaml;

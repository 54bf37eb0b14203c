//! Session and track files, and what is wrong with them.

pub(crate) mod fault;
pub(crate) mod file_kind;
pub(crate) mod follow;
pub(crate) mod form;
pub(crate) mod form_words;
pub(crate) mod places;
pub(crate) mod quantities;
pub(crate) mod schema;
pub(crate) mod session_file;
pub(crate) mod session_spec;
pub(crate) mod squad_spec;
pub(crate) mod track_fault_words;
pub(crate) mod yaml;

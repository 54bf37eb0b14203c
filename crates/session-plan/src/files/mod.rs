//! Session and track files, and what is wrong with them.

pub(crate) mod document;
pub(crate) mod file_fault;
pub(crate) mod file_kind;
pub(crate) mod limit;
pub(crate) mod node;
pub(crate) mod reader;
pub(crate) mod session_file;
pub(crate) mod session_text;
pub(crate) mod spec;
pub(crate) mod text_places;
pub(crate) mod unsure;
pub(crate) mod written_session;
pub(crate) mod yaml_text;
pub(crate) mod yaml_value;

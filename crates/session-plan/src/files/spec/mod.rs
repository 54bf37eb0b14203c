//! What a session file can hold: a field of these types is a key of the file, and its doc comment the
//! text that an editor shows.

pub(crate) mod block_spec;
pub(crate) mod closure_spec;
pub(crate) mod group_spec;
pub(crate) mod quantities;
pub(crate) mod schema;
pub(crate) mod session_spec;
pub(crate) mod squad_lanes;
pub(crate) mod squad_spec;
pub(crate) mod wind_spec;

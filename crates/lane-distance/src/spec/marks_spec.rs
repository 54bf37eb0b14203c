//! The paint of a track, as its file gives it.

use serde::Deserialize;

use crate::spec::mark_spec::MarkSpec;

/// The paint of a track.
#[derive(Clone, Debug, Default, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct MarksSpec {
    /// Names of mark sets, the most certain first; `standard` unless given.
    #[serde(default)]
    pub sets: Option<Vec<String>>,
    /// Marks that only this track has.
    #[serde(default)]
    pub own: Vec<MarkSpec>,
    /// Marks of the sets that can no longer be seen.
    #[serde(default)]
    pub worn: Vec<WornSpec>,
}

/// A mark that has worn off.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct WornSpec {
    /// Its name.
    pub mark: String,
    /// The lanes where it has gone; every lane unless given.
    #[serde(default)]
    pub lanes: Option<Vec<u8>>,
}

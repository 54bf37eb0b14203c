//! A piece of a path, as a track file gives it.

use serde::Deserialize;

use crate::spec::length_spec::LengthSpec;

/// A piece of the path: either `straight`, or `radius` and `turn`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PieceSpec {
    /// Length of a straight.
    #[serde(default)]
    pub straight: Option<LengthSpec>,
    /// Radius of an arc.
    #[serde(default)]
    pub radius: Option<LengthSpec>,
    /// Turn of an arc to the left, in degrees.
    #[serde(default)]
    pub turn: Option<f64>,
}

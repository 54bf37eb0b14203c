//! The description of a track, as its file gives it.

use serde::Deserialize;

use crate::geometry::lane::InnerEdge;
use crate::spec::closed_spec::ClosedSpec;
use crate::spec::length_spec::LengthSpec;
use crate::spec::marks_spec::MarksSpec;
use crate::spec::one_or_many::OneOrMany;
use crate::spec::piece_spec::PieceSpec;
use crate::spec::tolerances::Tolerances;
use crate::track::hazard::Hazard;

/// The description of a track.
///
/// ```
/// use lane_distance::{LaneNumber, Track};
/// use lane_distance::spec::TrackSpec;
///
/// let spec: TrackSpec = serde_yaml::from_str("
/// name: two straights and two bends
/// path:                        # the inner edge of lane 1, in running order from the finish line
///   - { radius: 36.50, turn: 180 }
///   - straight: 84.39
///   - { radius: 36.50, turn: 180 }
///   - straight: 84.39
/// lanes: 6
/// lane_width: 1.22
/// home_straight: { lanes: 8, chute: 28.61 }
/// ")?;
/// let track = Track::build(&spec).expect("the path closes");
/// assert!((track.lap_m(LaneNumber::of::<2>())? - 407.038).abs() < 0.001);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TrackSpec {
    /// What the track is called on every sheet.
    pub name: String,
    /// Where its dimensions were published or measured.
    #[serde(default)]
    pub source: String,
    /// The inner edge of lane 1, in running order from the finish line: bend, back straight, bend,
    /// home straight.
    pub path: Vec<PieceSpec>,
    /// Which line the radii of `path` belong to.
    #[serde(default)]
    pub radius_at: RadiusAt,
    /// What bounds lane 1 on the infield side.
    #[serde(default)]
    pub inner_edge: InnerEdge,
    /// Number of lanes on the oval.
    pub lanes: u8,
    /// Width of every lane, or of each lane from lane 1 outwards; the outer line is included.
    pub lane_width: OneOrMany<LengthSpec>,
    /// The home straight, where it differs from the oval.
    #[serde(default)]
    pub home_straight: StraightSpec,
    /// The back straight, where it differs from the oval.
    #[serde(default)]
    pub back_straight: StraightSpec,
    /// A surveyed lap of lane 1. It may differ from the computed one by 0.5 m; all distances are
    /// then scaled to it.
    #[serde(default)]
    pub surveyed_lap: Option<LengthSpec>,
    /// Compass bearing in which the home straight is run, in degrees from north.
    #[serde(default)]
    pub bearing: Option<f64>,
    /// Lanes closed to training.
    #[serde(default)]
    pub closed_lanes: ClosedSpec,
    /// The paint.
    #[serde(default)]
    pub marks: MarksSpec,
    /// Stretches that are not safe to stand on, or to run through, while in use.
    #[serde(default)]
    pub hazards: Vec<Hazard>,
    /// How far the track may differ from this description.
    #[serde(default)]
    pub tolerances: Tolerances,
}

/// Which line a radius belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum RadiusAt {
    /// The inner edge of lane 1.
    #[default]
    #[serde(rename = "inner edge")]
    InnerEdge,
    /// The measure line of lane 1.
    #[serde(rename = "measure line")]
    MeasureLine,
}

/// What a straight has beyond the oval.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StraightSpec {
    /// Number of lanes; as many as the oval unless given.
    #[serde(default)]
    pub lanes: Option<u8>,
    /// Length of the chute behind the oval.
    #[serde(default)]
    pub chute: LengthSpec,
}

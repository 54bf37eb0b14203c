//! A cone.

use lane_distance::LaneNumber;
use serde::Serialize;
use session_plan::{Cone, ConeLabel, Plan};

use crate::words::spot::spot;
use crate::words::{cone, walk_words};

/// A cone, worded.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct ConeRow {
    /// What it is called on the walk and on the map.
    pub(crate) label: ConeLabel,
    /// What it marks.
    pub(crate) what: String,
    /// The lane.
    pub(crate) lane: LaneNumber,
    /// Where it stands.
    pub(crate) place: String,
    /// How many steps it is from the paint, where steps are given.
    pub(crate) steps: Option<String>,
    /// The runs that it serves.
    pub(crate) serves: String,
}

impl ConeRow {
    pub(crate) fn of(plan: &Plan, item: &Cone) -> Self {
        Self {
            label: item.label,
            what: cone::marks(&item.uses),
            lane: item.spot.lane,
            place: spot(&item.spot),
            steps: walk_words::steps(plan, item),
            serves: cone::serves(&item.uses),
        }
    }
}

/// Cones that follow each other on the walk and are worded alike but for their lanes.
pub(crate) fn cone_groups(cones: &[ConeRow]) -> impl Iterator<Item = &[ConeRow]> {
    let is_alike = |a: &ConeRow, b: &ConeRow| {
        (&a.what, &a.place, &a.serves) == (&b.what, &b.place, &b.serves) && a.label.is_before(b.label)
    };
    cones.chunk_by(is_alike)
}

/// The lanes of some cones.
pub(crate) fn lanes(cones: &[ConeRow]) -> Vec<LaneNumber> {
    cones.iter().map(|cone| cone.lane).collect()
}

/// What cones are called that follow each other: `5`, or `5 to 7`.
pub(crate) fn labels(cones: &[ConeRow]) -> String {
    match cones {
        [first, .., last] => format!("{} to {}", first.label, last.label),
        [cone] => cone.label.to_string(),
        [] => String::new(),
    }
}

//! A cone.

use lane_distance::LaneNumber;
use serde::Serialize;
use session_plan::{Cone, Plan};

use crate::words::spot::spot;
use crate::words::{cone, walk_words};

/// A cone, worded.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct ConeRow {
    /// Its number on the walk and on the map.
    pub(crate) number: u32,
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
            number: item.order,
            what: cone::marks(item),
            lane: item.spot.lane,
            place: spot(&item.spot),
            steps: walk_words::steps(plan, item),
            serves: cone::serves(item),
        }
    }
}

/// Cones that follow each other on the walk and are worded alike but for their lanes.
pub(crate) fn cone_groups(cones: &[ConeRow]) -> impl Iterator<Item = &[ConeRow]> {
    cones.chunk_by(|a, b| (&a.what, &a.place, &a.serves) == (&b.what, &b.place, &b.serves))
}

/// The lanes of some cones.
pub(crate) fn lanes(cones: &[ConeRow]) -> Vec<LaneNumber> {
    cones.iter().map(|cone| cone.lane).collect()
}

/// The numbers of cones that follow each other: `5`, or `5 to 7`.
pub(crate) fn numbers(cones: &[ConeRow]) -> String {
    match cones {
        [first, .., last] => format!("{} to {}", first.number, last.number),
        [cone] => cone.number.to_string(),
        [] => String::new(),
    }
}

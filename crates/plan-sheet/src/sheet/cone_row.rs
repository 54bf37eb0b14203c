//! A cone as the sheets print it.

use serde::Serialize;
use session_plan::{Cone, Plan};

use crate::words::spot::spot;
use crate::words::{cone, walk_words};

/// A cone of a sheet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ConeRow {
    /// Its number on the walk and on the map.
    pub number: u32,
    /// What it marks.
    pub what: String,
    /// The lane.
    pub lane: u8,
    /// Where it stands.
    pub place: String,
    /// How many steps it is from the paint, where that is to be told.
    pub steps: Option<String>,
    /// The runs that it serves.
    pub serves: String,
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

//! How far it is from one place to another.

use lane_distance::{NoWayError, Placement, Spot, Track};
use serde::Serialize;

use crate::table::{heading, item};
use crate::view::View;

/// How far it is from one place of a lane to another.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measurement {
    /// The lane.
    pub lane: u8,
    /// Where the way starts.
    pub from: Placement,
    /// Where it ends.
    pub to: Placement,
    /// How far it is, in metres.
    pub distance_m: f64,
}

impl Measurement {
    /// The way from one spot to another of the same lane, in the direction of running.
    ///
    /// # Errors
    ///
    /// [`NoWayError`] where no way leads from one course to the other.
    pub fn of(track: &Track, from: Spot, to: Spot) -> Result<Self, NoWayError> {
        Ok(Self {
            lane: from.lane,
            distance_m: track.way_m(from, to)?,
            from: Placement::of(track, from),
            to: Placement::of(track, to),
        })
    }
}

impl View for Measurement {
    fn text(&self) -> String {
        let way = format!("{:.2} m in lane {}", self.distance_m, self.lane);
        let from = item("from", &self.from.words);
        let to = item("to  ", &self.to.words);
        format!("{}\n{from}\n{to}\n", heading(&way))
    }
}

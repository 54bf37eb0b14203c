//! A start and a finish.

use crate::geometry::spot::{PaintReading, Spot};
use crate::track::hazard::Hazard;
use crate::track::track::Track;

/// A start and a finish, a given distance apart along one lane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Where the repetition starts.
    pub start: Spot,
    /// Where it finishes.
    pub finish: Spot,
    /// How far it is, in metres: whole laps and the rest from start to finish.
    pub distance_m: f64,
    /// Whether it is run on a straight the other way, from a start nearer to the finish line.
    pub against: bool,
    /// The start in terms of paint.
    pub start_reading: PaintReading,
    /// The finish in terms of paint.
    pub finish_reading: PaintReading,
}

impl Pair {
    /// How many of the two ends stand on paint.
    pub fn ends_on_paint(&self) -> u8 {
        u8::from(self.start_reading.is_on_paint()) + u8::from(self.finish_reading.is_on_paint())
    }
}

impl Track {
    /// The hazards that a run comes by.
    pub fn hazards_of<'a>(&'a self, pair: &'a Pair) -> impl Iterator<Item = &'a Hazard> {
        self.hazards()
            .iter()
            .filter(|hazard| hazard.is_passed(self.layout(), pair.start, pair.distance_m, pair.against))
    }

    /// The hazard that forbids a run: one in which nobody may stand at its start or its finish, or a closed stretch on
    /// its way.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let run = track.search(LaneNumber::of::<2>(), 200.0).expect("it fits")[0];
    /// assert!(track.obstacle(&run).is_none());
    /// ```
    pub fn obstacle(&self, pair: &Pair) -> Option<&Hazard> {
        self.hazards().iter().find(|hazard| {
            hazard.holds(self.layout(), pair.start)
                || hazard.holds(self.layout(), pair.finish)
                || hazard.bars(self.layout(), pair.start, pair.distance_m, pair.against)
        })
    }

    /// The uncertainty of the distance of a pair, in metres, plus or minus: see
    /// [`Tolerances`](crate::spec::Tolerances).
    pub fn uncertainty_m(&self, pair: &Pair) -> f64 {
        self.run_uncertainty_m(pair.start, pair.distance_m, 2 - pair.ends_on_paint())
    }
}

//! Runs from one end of a straight or a bend to the other.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::Spot;
use crate::search::pair::Pair;
use crate::track::lane_error::LaneError;
use crate::track::track::Track;

impl Track {
    /// The runs over a whole straight in a lane, without its chute: first the home straight, then the back straight
    /// where the track has one.
    ///
    /// What a hazard bars is left out.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let lengths_m = |lane| track.straight_runs(lane).map(|runs| runs.iter().map(|run| run.distance_m).collect());
    /// assert_eq!(lengths_m(LaneNumber::of::<1>()), Ok(vec![84.39, 84.39]));
    /// assert_eq!(lengths_m(LaneNumber::of::<6>()), Ok(vec![84.39, 84.39]));
    /// ```
    ///
    /// # Errors
    ///
    /// [`LaneError`] where the oval has no such lane, or it is closed.
    pub fn straight_runs(&self, lane: LaneNumber) -> Result<Vec<Pair>, LaneError> {
        self.check_lane(Course::Oval, lane)?;
        let straight = |course| {
            let straight_m = self.layout().straight(course)?.straight_m;
            let spot = |to_finish_m| Spot { course, lane, to_finish_m };
            self.whole(spot(straight_m), spot(0.0), straight_m)
        };
        Ok([Course::HomeStraight, Course::BackStraight].into_iter().filter_map(straight).collect())
    }

    /// The runs over a whole bend in a lane, in running order from the finish line. A bend is all that lies between two
    /// straights, and longer in a lane further out.
    ///
    /// What a hazard bars is left out.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let lane = LaneNumber::of::<3>();
    /// let bends_m: f64 = track.bend_runs(lane)?.iter().map(|run| run.distance_m).sum();
    /// let straights_m: f64 = track.straight_runs(lane)?.iter().map(|run| run.distance_m).sum();
    /// assert!((bends_m + straights_m - track.lap_m(lane)?).abs() < 1e-9);
    /// # Ok::<(), lane_distance::LaneError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`LaneError`] where the oval has no such lane, or it is closed.
    pub fn bend_runs(&self, lane: LaneNumber) -> Result<Vec<Pair>, LaneError> {
        self.check_lane(Course::Oval, lane)?;
        let line = self.layout().measure(lane);
        let bend = |(first, after): (usize, usize)| {
            let (starts_m, ends_m) = (line.start_of_m(first), line.start_of_m(after));
            let spot =
                |from_finish_m: f64| Spot::on_oval(lane, line.within_lap_m(line.lap_m() - from_finish_m));
            self.whole(spot(starts_m), spot(ends_m), ends_m - starts_m)
        };
        Ok(self.layout().bends().into_iter().filter_map(bend).collect())
    }

    /// A run between two spots, unless a hazard bars it.
    fn whole(&self, start: Spot, finish: Spot, distance_m: f64) -> Option<Pair> {
        let is_free =
            self.is_clear(start) && self.is_clear(finish) && !self.is_barred(start, distance_m, false);
        is_free.then(|| Pair {
            start,
            finish,
            distance_m,
            against: false,
            start_reading: self.read(start),
            finish_reading: self.read(finish),
        })
    }
}

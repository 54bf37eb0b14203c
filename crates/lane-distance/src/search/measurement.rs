//! How far it is from one place to another.

use crate::geometry::course::Course;
use crate::geometry::spot::Spot;
use crate::track::track::Track;

/// A way that is asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// Where it starts.
    pub from: Spot,
    /// Where it ends, in the same lane or another.
    pub to: Spot,
    /// Whether it is run clockwise.
    pub against: bool,
    /// Whole laps besides, in the lane where it ends.
    pub laps: u32,
}

/// Why two places have no way between them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("there is no way from a place on the {from} to one on the {to} in the direction of running")]
pub struct NoWayError {
    /// The course of the first place.
    pub from: Course,
    /// The course of the second place.
    pub to: Course,
}

impl Track {
    /// How far a way is, in metres. From a spot to itself it is the laps that are asked for, or one.
    /// A change of lane is made by the shortest way ([`crate::Layout::crossing_m`]).
    ///
    /// ```
    /// use lane_distance::Way;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let (from, to) = (track.landmark("400 m start", 3)?, track.landmark("200 m start", 3)?);
    /// let way = Way { from, to, against: false, laps: 2 };
    /// assert!((track.length_m(&way)? - 200.0 - 2.0 * track.lap_m(3)?).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`NoWayError`] where no way leads from one course to the other.
    pub fn length_m(&self, way: &Way) -> Result<f64, NoWayError> {
        let (from, to) = if way.against { (way.to, way.from) } else { (way.from, way.to) };
        let once_m = if from.lane == to.lane {
            self.way_m(from, to)?
        } else {
            let no_way = NoWayError { from: from.course, to: to.course };
            let on_oval = |spot| self.layout().on_course(spot, Course::Oval).ok_or(no_way);
            self.layout().crossing_m(on_oval(from)?, on_oval(to)?).ok_or(no_way)?
        };
        if way.laps == 0 {
            return Ok(once_m);
        }
        let lap_m = self.layout().measure(way.to.lane).lap_m();
        let is_round = from == to;
        Ok(if is_round { 0.0 } else { once_m } + f64::from(way.laps) * lap_m)
    }

    /// What it costs to keep a line `running_m` outside the inner line of a lane instead of its
    /// measure line, in metres for each whole turn: a lap.
    ///
    /// ```
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// // Half a metre from the kerb instead of 0.30 m.
    /// assert!((track.running_line_m(1, 0.5)? - 1.257).abs() < 0.001);
    /// # Ok::<(), lane_distance::LaneError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`crate::LaneError`] where the oval has no such lane.
    pub fn running_line_m(
        &self,
        lane: u8,
        running_m: f64,
    ) -> Result<f64, crate::track::lane_error::LaneError> {
        self.lap_m(lane)?;
        let ground = self.layout().lane(lane);
        let wider_m = running_m - (ground.measure_m - ground.inner_line_m);
        Ok(wider_m * std::f64::consts::TAU * self.layout().scale())
    }

    /// The part of a whole turn that a way within one lane makes: 1 for a lap, 0 on a straight.
    pub fn turns(&self, way: &Way) -> Result<f64, NoWayError> {
        let start = if way.against { way.to } else { way.from };
        Ok(self.layout().turned_rad(start, self.length_m(way)?) / std::f64::consts::TAU)
    }

    /// How far it is from one spot of a lane to another of the same lane, in the direction of
    /// running, in metres. On the oval a spot that lies behind is reached by going round; from a
    /// spot to itself it is a whole lap. From a chute the way goes on along the oval.
    ///
    /// ```
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let way_m = |from, to| -> Result<f64, Box<dyn std::error::Error>> {
    ///     Ok(track.way_m(track.landmark(from, 4)?, track.landmark(to, 4)?)?)
    /// };
    /// assert!((way_m("400 m start", "200 m start")? - 200.0).abs() < 1e-9);
    /// assert_eq!(way_m("110 m hurdles start", "finish line")?, 110.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`NoWayError`] where the second spot lies in a chute that the first does not.
    pub fn way_m(&self, from: Spot, to: Spot) -> Result<f64, NoWayError> {
        let layout = self.layout();
        let on_oval = |spot| layout.on_course(spot, Course::Oval);
        for course in [Course::HomeStraight, Course::BackStraight] {
            if let (Some(from), Some(to)) = (layout.on_course(from, course), layout.on_course(to, course))
                && from.to_finish_m > to.to_finish_m
            {
                return Ok(from.to_finish_m - to.to_finish_m);
            }
        }
        match (on_oval(from), on_oval(to)) {
            (Some(from), Some(to)) => {
                let lap_m = layout.measure(from.lane).lap_m();
                let way_m = (from.to_finish_m - to.to_finish_m).rem_euclid(lap_m);
                Ok(if way_m < 1e-9 { lap_m } else { way_m })
            }
            (None, Some(to)) => {
                // Out of the chute to the end of its straight, and on from there.
                let end = Spot { to_finish_m: 0.0, ..from };
                let end = on_oval(end).ok_or(NoWayError { from: from.course, to: to.course })?;
                let beyond_m = (end.to_finish_m - to.to_finish_m).rem_euclid(layout.measure(to.lane).lap_m());
                Ok(from.to_finish_m + beyond_m)
            }
            _ => Err(NoWayError { from: from.course, to: to.course }),
        }
    }
}

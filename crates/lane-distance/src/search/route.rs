//! How far it is from one spot to another.

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::Spot;
use crate::track::track::Track;

/// From one spot to another, by whole laps or not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Route {
    /// Where it starts.
    pub from: Spot,
    /// Where it ends, in the same lane or another.
    pub to: Spot,
    /// Whether it is run clockwise.
    pub against: bool,
    /// Whole laps to be added, in the lane where it ends.
    pub laps: u32,
}

/// No run in the direction of running leads from one spot to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no route leads from the {from} to the {to} in the direction of running")]
pub struct NoRouteError {
    /// The course of the first spot.
    pub from: Course,
    /// The course of the second spot.
    pub to: Course,
}

impl Track {
    /// Length of a route in metres. From a spot to itself it is the laps of the route, or one lap.
    /// A change of lane is as short as can be ([`crate::Layout::crossing_m`]).
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Route};
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let lane = LaneNumber::of::<3>();
    /// let (from, to) = (track.landmark("400 m start", lane)?, track.landmark("200 m start", lane)?);
    /// let route = Route { from, to, against: false, laps: 2 };
    /// assert!((track.route_m(&route)? - 200.0 - 2.0 * track.lap_m(lane)?).abs() < 1e-9);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`NoRouteError`] where the second spot lies in a chute that the first does not.
    pub fn route_m(&self, route: &Route) -> Result<f64, NoRouteError> {
        let (from, to) = if route.against { (route.to, route.from) } else { (route.from, route.to) };
        let once_m = if from.lane == to.lane {
            self.distance_m(from, to)?
        } else {
            let no_route = NoRouteError { from: from.course, to: to.course };
            let on_oval = |spot| self.layout().on_course(spot, Course::Oval).ok_or(no_route);
            self.layout().crossing_m(on_oval(from)?, on_oval(to)?).ok_or(no_route)?
        };
        if route.laps == 0 {
            return Ok(once_m);
        }
        let lap_m = self.layout().measure(route.to.lane).lap_m();
        let is_round = from == to;
        Ok(if is_round { 0.0 } else { once_m } + f64::from(route.laps) * lap_m)
    }

    /// What it costs to keep a line `running_m` outside the inner line of a lane instead of its
    /// measure line, in metres for each whole turn: a lap.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// // Half a metre from the kerb instead of 0.30 m.
    /// assert!((track.running_line_m(LaneNumber::FIRST, 0.5)? - 1.257).abs() < 0.001);
    /// # Ok::<(), lane_distance::LaneError>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`crate::LaneError`] where the oval has no such lane.
    pub fn running_line_m(
        &self,
        lane: LaneNumber,
        running_m: f64,
    ) -> Result<f64, crate::track::lane_error::LaneError> {
        self.lap_m(lane)?;
        let ground = self.layout().lane(lane);
        let wider_m = running_m - (ground.measure_m - ground.inner_line_m);
        Ok(wider_m * std::f64::consts::TAU * self.layout().scale())
    }

    /// How many times a route within one lane turns round: 1 for a lap, 0 on a straight.
    ///
    /// # Errors
    ///
    /// [`NoRouteError`] where the second spot lies in a chute that the first does not.
    pub fn turns(&self, route: &Route) -> Result<f64, NoRouteError> {
        let start = if route.against { route.to } else { route.from };
        Ok(self.layout().turned_rad(start, self.route_m(route)?) / std::f64::consts::TAU)
    }

    /// How far it is from one spot of a lane to another of the same lane, in the direction of
    /// running, in metres. On the oval a spot that lies behind is reached by going round; from a
    /// spot to itself it is a whole lap. From a chute the run goes on along the oval.
    ///
    /// ```
    /// use lane_distance::LaneNumber;
    ///
    /// let track = lane_distance::Track::built_in("standard").expect("it comes with the crate");
    /// let lane = LaneNumber::of::<4>();
    /// let distance_m = |from, to| -> Result<f64, Box<dyn std::error::Error>> {
    ///     Ok(track.distance_m(track.landmark(from, lane)?, track.landmark(to, lane)?)?)
    /// };
    /// assert!((distance_m("400 m start", "200 m start")? - 200.0).abs() < 1e-9);
    /// assert_eq!(distance_m("110 m hurdles start", "finish line")?, 110.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    ///
    /// # Errors
    ///
    /// [`NoRouteError`] where the second spot lies in a chute that the first does not.
    pub fn distance_m(&self, from: Spot, to: Spot) -> Result<f64, NoRouteError> {
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
                let distance_m = (from.to_finish_m - to.to_finish_m).rem_euclid(lap_m);
                Ok(if distance_m < 1e-9 { lap_m } else { distance_m })
            }
            (None, Some(to)) => {
                // Out of the chute to the end of its straight, and on from there.
                let end = Spot { to_finish_m: 0.0, ..from };
                let end = on_oval(end).ok_or(NoRouteError { from: from.course, to: to.course })?;
                let beyond_m = (end.to_finish_m - to.to_finish_m).rem_euclid(layout.measure(to.lane).lap_m());
                Ok(from.to_finish_m + beyond_m)
            }
            _ => Err(NoRouteError { from: from.course, to: to.course }),
        }
    }
}

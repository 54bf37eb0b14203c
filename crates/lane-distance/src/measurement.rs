//! How far it is from one place to another.

use crate::course::Course;
use crate::spot::Spot;
use crate::track::Track;

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

//! A spot and the paint that it is found by.

use std::sync::Arc;

use serde::Serialize;

use crate::geometry::course::Course;
use crate::geometry::lane_number::LaneNumber;
use crate::geometry::spot::{ON_PAINT_M, PaintReading, Spot};
use crate::track::track::Track;

/// A spot with everything that finds it: coordinates, the mark near it, and the tape from there.
///
/// ```
/// use lane_distance::{LaneNumber, Placement, Spot, Track};
///
/// let track = Track::built_in("standard").expect("it comes with the crate");
/// let start = Placement::of(&track, Spot::on_oval(LaneNumber::of::<2>(), 200.0));
/// assert_eq!((start.mark.as_deref(), start.past_mark_m), (Some("200 m start"), 0.0));
/// let start = Placement::of(&track, Spot::on_oval(LaneNumber::of::<2>(), 300.0));
/// assert_eq!(start.mark.as_deref(), Some("first 4x100 m takeover zone exit"));
/// // 10 m behind it along the measure line, 9.95 m along the lane's inner line.
/// assert!((start.past_mark_m + 10.0).abs() < 1e-9 && (start.tape_m + 9.947).abs() < 0.001);
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Placement {
    /// The course.
    pub course: Course,
    /// The lane's number.
    pub lane: LaneNumber,
    /// Metres from the centre of the infield, along the home straight's direction of running.
    pub x_m: f64,
    /// Metres from the centre of the infield, towards the back straight.
    pub y_m: f64,
    /// Metres along the lane's measure line from the finish line, in the direction of running.
    pub from_finish_line_m: f64,
    /// Metres along the lane's measure line to the finish line.
    pub to_finish_line_m: f64,
    /// The mark that the spot is measured from; nothing where the lane has no paint.
    pub mark: Option<Arc<str>>,
    /// What a walker looks for to find that mark, such as `200 m start line`.
    #[serde(skip)]
    pub look_for: Option<Arc<str>>,
    /// The colour of that mark.
    pub colour: Option<Arc<str>>,
    /// Metres past that mark; negative is behind it.
    pub past_mark_m: f64,
    /// The same laid along the lane's inner line.
    pub tape_m: f64,
    /// How many of the walker's strides that tape is; nothing on the paint, or where the stride is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strides: Option<f64>,
    /// Uncertainty of the distance to the finish line, in metres, plus or minus.
    pub plus_minus_m: f64,
}

impl Placement {
    /// A spot, measured from the paint of its lane.
    pub fn of(track: &Track, spot: Spot) -> Self {
        Self::from_reading(track, spot, track.read(spot))
    }

    /// A spot, with a reading of the paint that is known already.
    pub fn from_reading(track: &Track, spot: Spot, reading: PaintReading) -> Self {
        let point = track.point(spot);
        let mark = reading.mark.and_then(|mark| track.mark(mark));
        Self {
            course: spot.course,
            lane: spot.lane,
            x_m: point.x,
            y_m: point.y,
            from_finish_line_m: track.layout().from_finish_m(spot),
            to_finish_line_m: spot.to_finish_m,
            mark: mark.map(|mark| mark.name.clone()),
            look_for: mark.map(|mark| mark.look_for().into()),
            colour: mark.map(|mark| mark.colour.clone()),
            past_mark_m: reading.past_m,
            tape_m: reading.tape_m,
            strides: None,
            plus_minus_m: track.spot_uncertainty_m(spot, &reading),
        }
    }

    /// The spot itself.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Placement, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let spot = Spot::on_oval(LaneNumber::of::<2>(), 200.0);
    /// assert_eq!(Placement::of(&track, spot).spot(), spot);
    /// ```
    pub const fn spot(&self) -> Spot {
        Spot { course: self.course, lane: self.lane, to_finish_m: self.to_finish_line_m }
    }

    /// Adds how many strides of a walker the tape is, where the spot lies off the paint.
    ///
    /// ```
    /// use lane_distance::{LaneNumber, Placement, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let spot = |to_finish_m| Spot::on_oval(LaneNumber::of::<2>(), to_finish_m);
    /// let strides = |to_finish_m| Placement::of(&track, spot(to_finish_m)).with_strides(0.85).strides;
    /// assert!((strides(300.0).expect("it is off the paint") - 9.947 / 0.85).abs() < 0.001);
    /// assert_eq!(strides(200.0), None);
    /// ```
    pub fn with_strides(mut self, stride_m: f64) -> Self {
        self.strides = (!self.is_on_paint()).then(|| self.tape_m.abs() / stride_m);
        self
    }

    /// Whether the spot stands on the paint of its mark.
    pub fn is_on_paint(&self) -> bool {
        self.mark.is_some() && self.past_mark_m.abs() <= ON_PAINT_M
    }
}

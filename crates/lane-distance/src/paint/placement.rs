//! A spot as it is said.

use serde::Serialize;

use crate::geometry::course::Course;
use crate::geometry::spot::{PaintReading, Spot};
use crate::paint::mark::Form;
use crate::track::track::Track;

/// A spot with everything that is said of it: coordinates, paint and words.
///
/// ```
/// use lane_distance::{Placement, Spot, Track};
///
/// let track = Track::built_in("standard").expect("it comes with the crate");
/// let said = |lane, to_finish_m| Placement::of(&track, Spot::on_oval(lane, to_finish_m)).words;
/// assert_eq!(said(2, 200.0), "on the 200 m start line");
/// assert_eq!(
///     said(2, 300.0),
///     "10.00 m behind the first 4x100 m takeover zone exit (yellow); tape 9.95 m on the inner line"
/// );
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Placement {
    /// The course.
    pub course: Course,
    /// The lane's number.
    pub lane: u8,
    /// Metres from the centre of the infield, along the home straight's direction of running.
    pub x_m: f64,
    /// Metres from the centre of the infield, towards the back straight.
    pub y_m: f64,
    /// Metres along the lane's measure line from the finish line, in the direction of running.
    pub from_finish_line_m: f64,
    /// Metres along the lane's measure line to the finish line.
    pub to_finish_line_m: f64,
    /// The mark that the spot is measured from.
    pub mark: Option<String>,
    /// The colour of that mark.
    pub colour: Option<String>,
    /// Metres past that mark; negative is behind it.
    pub past_mark_m: f64,
    /// The same laid along the lane's inner line.
    pub tape_m: f64,
    /// Uncertainty of the distance to the finish line, in metres, plus or minus.
    pub plus_minus_m: f64,
    /// The spot in words.
    pub words: String,
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
            colour: mark.map(|mark| mark.colour.clone()),
            past_mark_m: reading.past_m,
            tape_m: reading.tape_m,
            plus_minus_m: track.spot_uncertainty_m(spot, &reading),
            words: words(track, spot, reading),
        }
    }

    /// The spot itself.
    ///
    /// ```
    /// use lane_distance::{Placement, Spot, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let spot = Spot::on_oval(2, 200.0);
    /// assert_eq!(Placement::of(&track, spot).spot(), spot);
    /// ```
    pub const fn spot(&self) -> Spot {
        Spot { course: self.course, lane: self.lane, to_finish_m: self.to_finish_line_m }
    }

    /// Whether the spot stands on the paint of its mark.
    pub fn is_on_paint(&self) -> bool {
        self.mark.is_some() && self.past_mark_m.abs() <= crate::geometry::spot::ON_PAINT_M
    }
}

fn words(track: &Track, spot: Spot, reading: PaintReading) -> String {
    let Some(mark) = reading.mark.and_then(|mark| track.mark(mark)) else {
        return format!("{:.2} m before the finish line (no paint in this lane)", spot.to_finish_m);
    };
    let spoken = match mark.form {
        // Ticks are called by their colour already.
        Form::Edge => format!("{} ({})", mark.spoken(), mark.colour),
        _ => mark.spoken(),
    };
    if reading.is_on_paint() {
        return format!("on the {spoken}");
    }
    let side = if reading.past_m < 0.0 { "behind" } else { "past" };
    let (along_m, tape_m) = (reading.past_m.abs(), reading.tape_m.abs());
    let (along, tape) = (format!("{along_m:.2}"), format!("{tape_m:.2}"));
    // A tape that reads the same goes without saying.
    if along == tape {
        format!("{along} m {side} the {spoken}")
    } else {
        format!("{along} m {side} the {spoken}; tape {tape} m on the inner line")
    }
}

//! A place on the track in words.

use std::ops::Deref;

use lane_distance::Placement;
use serde::Serialize;

use crate::words::numbers::halves;

/// A spot with its words.
pub(crate) type WordedSpot = Worded<Placement>;

/// A value with its words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Worded<T> {
    #[serde(flatten)]
    pub(crate) value: T,
    pub(crate) words: String,
}

impl<T> Deref for Worded<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

impl From<Placement> for WordedSpot {
    fn from(value: Placement) -> Self {
        Self { words: spot(&value), value }
    }
}

/// A spot, by the paint near it.
///
/// ```
/// use lane_distance::{LaneNumber, Placement, Track};
///
/// let track = Track::built_in("standard").expect("it comes with the crate");
/// let best = track.search(LaneNumber::of::<2>(), 200.0)?[0];
/// assert_eq!(plan_sheet::spot_words(&Placement::of(&track, best.start)), "on the 200 m start line");
/// # Ok::<(), lane_distance::SearchError>(())
/// ```
pub fn spot(spot: &Placement) -> String {
    let Some(mark) = &spot.look_for else {
        return format!("{:.2} m before the finish line (no paint in this lane)", spot.to_finish_line_m);
    };
    if spot.is_on_paint() {
        return format!("on the {mark}");
    }
    let (along, tape) = (format!("{:.2}", spot.past_mark_m.abs()), format!("{:.2}", spot.tape_m.abs()));
    // On a straight a tape reads the same wherever it lies.
    let line = if along == tape { "" } else { " along the inner line" };
    let steps = spot.strides.map_or_else(String::new, |strides| format!(", {} steps", halves(strides)));
    if spot.past_mark_m < 0.0 {
        format!("{tape} m back{line} from the {mark}{steps}")
    } else {
        format!("{tape} m past the {mark}{line}{steps}")
    }
}

/// The same where a cone stands, without the line that its tape lies on: it tells one cone from another, and nobody
/// measures.
pub(crate) fn near(place: &Placement) -> String {
    match &place.look_for {
        Some(mark) if !place.is_on_paint() => {
            let side = if place.past_mark_m < 0.0 { "back from" } else { "past" };
            format!("{:.2} m {side} the {mark}", place.tape_m.abs())
        }
        _ => spot(place),
    }
}

/// The same where it is clear that somebody starts there: paint is named alone.
pub(crate) fn from_paint(place: &Placement) -> String {
    match &place.look_for {
        Some(mark) if place.is_on_paint() => mark.to_string(),
        _ => spot(place),
    }
}

/// The same for one who runs by: `the 80 m start line`.
pub(crate) fn past(place: &Placement) -> String {
    match &place.look_for {
        Some(mark) if place.is_on_paint() => format!("the {mark}"),
        _ => spot(place),
    }
}

#[cfg(test)]
mod tests {
    use lane_distance::{LaneNumber, Spot, Track};

    use super::*;

    #[test]
    fn a_place_off_the_paint_is_said_with_its_tape_and_steps() {
        let track = Track::built_in("standard").expect("it comes with the crate");
        let place = Placement::of(&track, Spot::on_oval(LaneNumber::of::<2>(), 300.0));
        let words = "9.95 m back along the inner line from the exit of yellow zone 1";
        assert_eq!(spot(&place), words);
        assert_eq!(spot(&place.with_strides(0.85)), format!("{words}, 11½ steps"));
    }
}

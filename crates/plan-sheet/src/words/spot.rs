//! A place on the track in words.

use std::ops::Deref;

use lane_distance::Placement;
use serde::Serialize;

use crate::words::numbers::steps;

/// A spot, and how it is said.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct SaidSpot {
    /// The spot.
    #[serde(flatten)]
    pub(crate) spot: Placement,
    /// The spot in words.
    pub(crate) words: String,
}

impl Deref for SaidSpot {
    type Target = Placement;

    fn deref(&self) -> &Placement {
        &self.spot
    }
}

impl From<Placement> for SaidSpot {
    fn from(spot: Placement) -> Self {
        Self { words: self::spot(&spot), spot }
    }
}

/// A spot, by the paint near it.
pub(crate) fn spot(spot: &Placement) -> String {
    let Some(mark) = &spot.look_for else {
        return format!("{:.2} m before the finish line (no paint in this lane)", spot.to_finish_line_m);
    };
    if spot.is_on_paint() {
        return format!("on the {mark}");
    }
    let side = if spot.past_mark_m < 0.0 { "behind" } else { "past" };
    let (along, tape) = (format!("{:.2}", spot.past_mark_m.abs()), format!("{:.2}", spot.tape_m.abs()));
    let strides = spot.strides.map_or_else(String::new, |strides| format!("; {} steps", steps(strides)));
    // A tape that reads the same goes without saying.
    let tape = if along == tape { String::new() } else { format!("; tape {tape} m on the inner line") };
    format!("{along} m {side} the {mark}{tape}{strides}")
}

/// The same where it is clear that somebody starts there: paint is named alone.
pub(crate) fn from_paint(place: &Placement) -> String {
    match &place.look_for {
        Some(mark) if place.is_on_paint() => mark.clone(),
        _ => spot(place),
    }
}

#[cfg(test)]
mod tests {
    use lane_distance::{Spot, Track};

    use super::*;

    #[test]
    fn a_place_off_the_paint_is_said_with_its_tape_and_steps() {
        let track = Track::built_in("standard").expect("it comes with the crate");
        let place = Placement::of(&track, Spot::on_oval(2, 300.0));
        let words =
            "10.00 m behind the first 4x100 m takeover zone exit (yellow); tape 9.95 m on the inner line";
        assert_eq!(spot(&place), words);
        assert_eq!(spot(&place.with_strides(0.85)), format!("{words}; 11½ steps"));
    }
}

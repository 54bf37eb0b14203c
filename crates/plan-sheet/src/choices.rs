//! Where one repetition can start and finish.

use lane_distance::{Pair, Placement, Track};
use serde::Serialize;

use crate::plan_text::sure;
use crate::table::{heading, table};
use crate::view::View;

/// Pairs of start and finish, best first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choices {
    /// The pairs.
    pub choices: Vec<Choice>,
}

/// A start and a finish.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choice {
    /// Where the repetition starts.
    pub start: Placement,
    /// Where it finishes.
    pub finish: Placement,
    /// How far it is, in metres.
    pub distance_m: f64,
    /// How many of the two ends stand on paint.
    pub ends_on_paint: u8,
    /// How sure the distance is, in metres, plus or minus.
    pub plus_minus_m: f64,
}

impl Choices {
    /// The pairs that a search found.
    pub fn of(track: &Track, pairs: &[Pair]) -> Self {
        let choices = pairs.iter().map(|pair| Choice {
            start: Placement::told(track, pair.start, pair.start_reading),
            finish: Placement::told(track, pair.finish, pair.finish_reading),
            distance_m: pair.distance_m,
            ends_on_paint: pair.ends_on_paint(),
            plus_minus_m: track.sure_m(pair),
        });
        Self { choices: choices.collect() }
    }
}

impl View for Choices {
    fn text(&self) -> String {
        let Some(first) = self.choices.first() else {
            return "No place is left for this distance.\n".to_owned();
        };
        let rows = (1..).zip(&self.choices).map(|(number, choice)| {
            vec![
                number.to_string(),
                choice.start.words.clone(),
                choice.finish.words.clone(),
                choice.start.course.to_string(),
                choice.ends_on_paint.to_string(),
            ]
        });
        let table = table(&["", "Stand", "Finish", "Course", "Ends on paint"], &[0, 4], rows);
        let distance = sure(first.distance_m, first.plus_minus_m);
        let title = format!("{distance} m in lane {}, best first", first.start.lane);
        format!("{}\n{table}\n", heading(&title))
    }
}

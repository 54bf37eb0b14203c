//! Where one repetition can start and finish.

use lane_distance::{Pair, Placement, Track};
use serde::Serialize;
use session_plan::{Caution, cautions};

use crate::answers::view::View;
use crate::json::care::WithCare;
use crate::sheet::sheet_row::distance;
use crate::tables::columns::Columns;
use crate::tables::csv_table::CsvTable;
use crate::terminal::table::{heading, table};
use crate::terminal::take_care::take_care_in_short;
use crate::words::spot::WordedSpot;

/// Pairs of start and finish, best first.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choices {
    /// The pairs.
    pub(crate) choices: Vec<Choice>,
    /// What to take care of.
    #[serde(skip)]
    pub(crate) cautions: Vec<Caution>,
}

/// A start and a finish.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Choice {
    /// Where the repetition starts.
    pub(crate) start: WordedSpot,
    /// Where it finishes.
    pub(crate) finish: WordedSpot,
    /// How far it is, in metres.
    pub(crate) distance_m: f64,
    /// How many of the two ends stand on paint.
    pub(crate) ends_on_paint: u8,
    /// The uncertainty of the distance, in metres, plus or minus.
    pub(crate) plus_minus_m: f64,
}

impl Choices {
    /// The pairs that a search found.
    pub fn of(track: &Track, pairs: &[Pair]) -> Self {
        let choices = pairs.iter().map(|pair| Choice {
            start: Placement::from_reading(track, pair.start, pair.start_reading).into(),
            finish: Placement::from_reading(track, pair.finish, pair.finish_reading).into(),
            distance_m: pair.distance_m,
            ends_on_paint: pair.ends_on_paint(),
            plus_minus_m: track.uncertainty_m(pair),
        });
        Self { choices: choices.collect(), cautions: cautions(track) }
    }
}

impl View for Choices {
    fn data(&self) -> impl Serialize + '_ {
        WithCare::of(self, &self.cautions)
    }

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
        let distance = distance(first.distance_m, first.plus_minus_m);
        let title = format!("{distance} m in lane {}, best first", first.start.lane);
        format!("{}\n{table}\n\n{}", heading(&title), take_care_in_short(&self.cautions))
    }

    fn csv(&self) -> CsvTable {
        let rows: Vec<(u32, &Choice)> = (1..).zip(&self.choices).collect();
        Columns::new()
            .with("choice", |row: &(u32, &Choice)| row.0)
            .with("lane", |row| row.1.start.lane)
            .with("course", |row| row.1.start.course.to_string())
            .with("distance_m", |row| row.1.distance_m)
            .with("plus_minus_m", |row| row.1.plus_minus_m)
            .with("ends_on_paint", |row| u32::from(row.1.ends_on_paint))
            .with_spot("start", |row| &row.1.start)
            .with_spot("finish", |row| &row.1.finish)
            .table(&rows)
    }
}

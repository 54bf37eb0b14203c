//! The paint in a lane.

use lane_distance::{LaneNumber, Placement, Spot, Track};
use serde::Serialize;
use session_plan::{Caution, cautions};

use crate::answers::view::View;
use crate::json::care::WithCare;
use crate::tables::columns::Columns;
use crate::tables::csv_table::CsvTable;
use crate::terminal::table::{heading, item, table};
use crate::terminal::take_care::take_care_in_short;
use crate::words::spot::WordedSpot;

/// The paint in a lane, in walking order from the finish line; chutes come last.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MarkTable {
    /// The marks.
    pub(crate) marks: Vec<MarkRow>,
    /// What to take care of.
    #[serde(skip)]
    pub(crate) cautions: Vec<Caution>,
    #[serde(skip)]
    lane: LaneNumber,
}

/// A mark in a lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct MarkRow {
    /// Where it is.
    #[serde(flatten)]
    pub(crate) spot: WordedSpot,
    /// Its shape on the ground.
    pub(crate) form: &'static str,
    /// What it was painted for.
    #[serde(rename = "for")]
    pub(crate) purpose: String,
    /// Why it misleads someone who trains in this lane.
    pub(crate) trap: Option<String>,
    /// Whether it lies in a chute, behind the oval.
    pub(crate) in_chute: bool,
}

impl MarkTable {
    /// The paint of one lane.
    pub fn of(track: &Track, lane: LaneNumber) -> Self {
        let in_chute = |spot: Spot| {
            let ground = track.layout().straight(spot.course);
            ground.is_some_and(|ground| spot.to_finish_m > ground.straight_m)
        };
        let row = |(spot, id)| {
            let mark = track.mark(id)?;
            let reading = lane_distance::PaintReading { mark: Some(id), past_m: 0.0, tape_m: 0.0 };
            Some(MarkRow {
                spot: Placement::from_reading(track, spot, reading).into(),
                form: mark.form.name(),
                purpose: mark.purpose.clone(),
                trap: mark.trap_in(lane).map(str::to_owned),
                in_chute: in_chute(spot),
            })
        };
        Self {
            marks: track.walk(lane).into_iter().filter_map(row).collect(),
            cautions: cautions(track),
            lane,
        }
    }
}

impl View for MarkTable {
    fn data(&self) -> impl Serialize + '_ {
        WithCare::of(self, &self.cautions)
    }

    fn text(&self) -> String {
        let mut traps: Vec<(&str, &str)> = Vec::new();
        let rows: Vec<Vec<String>> = (self.marks.iter())
            .map(|row| {
                let name = row.spot.mark.as_deref().unwrap_or_default();
                let trap = row.trap.as_deref().map(|trap| traps.push((name, trap)));
                let place = if row.in_chute { " (chute)" } else { "" };
                let colour = row.spot.colour.as_deref().unwrap_or_default();
                vec![
                    format!("{:.2}", row.spot.to_finish_line_m),
                    format!("{name}{}", if trap.is_some() { " (!)" } else { "" }),
                    format!("{colour} {}{place}", row.form),
                    row.purpose.clone(),
                ]
            })
            .collect();
        let header = ["To finish", "Mark", "Look for", "Painted for"];
        let title = format!("The paint in lane {}, walking from the finish line", self.lane);
        let mut text = format!("{}\n{}\n", heading(&title), table(&header, &[0], rows));
        if !traps.is_empty() {
            text += &format!("\n{}\n", heading("Traps (!)"));
            for (name, trap) in traps {
                text += &(item("-", &format!("{name}: {trap}.")) + "\n");
            }
        }
        text + "\n" + &take_care_in_short(&self.cautions)
    }

    fn csv(&self) -> CsvTable {
        Columns::new()
            .with("lane", |row: &MarkRow| row.spot.lane)
            .with("mark", |row| row.spot.mark.clone())
            .with("colour", |row| row.spot.colour.clone())
            .with("form", |row| row.form)
            .with("for", |row| row.purpose.clone())
            .with("course", |row| row.spot.course.to_string())
            .with("to_finish_line_m", |row| row.spot.to_finish_line_m)
            .with("from_finish_line_m", |row| row.spot.from_finish_line_m)
            .with("x_m", |row| row.spot.x_m)
            .with("y_m", |row| row.spot.y_m)
            .with("in_chute", |row| row.in_chute)
            .with("trap", |row| row.trap.clone())
            .table(&self.marks)
    }
}

//! The paint in a lane.

use lane_distance::{Placement, Spot, Track};
use serde::Serialize;

use crate::table::{heading, item, table};
use crate::view::View;

/// The paint in a lane, in walking order from the finish line; chutes come last.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MarkTable {
    /// The marks.
    pub marks: Vec<MarkRow>,
    #[serde(skip)]
    lane: u8,
}

/// A mark in a lane.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MarkRow {
    /// Where it is.
    #[serde(flatten)]
    pub spot: Placement,
    /// Its shape on the ground.
    pub form: &'static str,
    /// What it was painted for.
    #[serde(rename = "for")]
    pub purpose: String,
    /// Why it misleads someone who trains in this lane.
    pub trap: Option<String>,
    /// Whether it lies in a chute, behind the oval.
    pub in_chute: bool,
}

impl MarkTable {
    /// The paint of one lane.
    pub fn of(track: &Track, lane: u8) -> Self {
        let in_chute = |spot: Spot| {
            let ground = track.layout().straight(spot.course);
            ground.is_some_and(|ground| spot.to_finish_m > ground.straight_m)
        };
        let row = |(spot, id)| {
            let mark = track.mark(id);
            let reading = lane_distance::PaintReading { mark: Some(id), past_m: 0.0, tape_m: 0.0 };
            MarkRow {
                spot: Placement::told(track, spot, reading),
                form: mark.form.name(),
                purpose: mark.purpose.clone(),
                trap: mark.trap_in(lane).map(str::to_owned),
                in_chute: in_chute(spot),
            }
        };
        Self { marks: track.walk(lane).into_iter().map(row).collect(), lane }
    }
}

impl View for MarkTable {
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
        text
    }
}

//! Lap and stagger of each lane.

use lane_distance::{Course, Track};
use serde::Serialize;

use crate::table::{heading, table};
use crate::view::View;

/// Lap and stagger of each lane of the oval.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LaneTable {
    /// The lanes, lane 1 first.
    pub lanes: Vec<LaneRow>,
    #[serde(skip)]
    track: String,
    #[serde(skip)]
    closed: Vec<u8>,
}

/// Lap and stagger of one lane, in metres.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LaneRow {
    /// The lane's number.
    pub lane: u8,
    /// A lap along its measure line.
    pub lap_m: f64,
    /// Stagger of 200 m, in lanes all the way.
    pub stagger_200_m: f64,
    /// Stagger of 400 m, in lanes all the way.
    pub stagger_400_m: f64,
    /// Stagger of 800 m, in lanes for one bend.
    pub stagger_800_m: Option<f64>,
    /// Stagger of 4x400 m, in lanes for three bends.
    #[serde(rename = "stagger_4x400_m")]
    pub stagger_4x400_m: Option<f64>,
}

impl LaneTable {
    /// The lanes of a track.
    pub fn of(track: &Track) -> Self {
        let layout = track.layout();
        let row = |lane| {
            Some(LaneRow {
                lane,
                lap_m: track.lap_m(lane).ok()?,
                stagger_200_m: layout.stagger_in_lanes_m(lane, 200.0),
                stagger_400_m: layout.stagger_in_lanes_m(lane, 400.0),
                stagger_800_m: layout.stagger_after_break_m(lane, 800.0, 1),
                stagger_4x400_m: layout.stagger_after_break_m(lane, 1600.0, 3),
            })
        };
        Self {
            lanes: (1..=layout.lanes_of(Course::Oval)).filter_map(row).collect(),
            track: track.name().to_owned(),
            closed: track.closed_lanes().to_vec(),
        }
    }
}

impl View for LaneTable {
    fn text(&self) -> String {
        let metres = |value: f64| format!("{value:.3}");
        let broken = |value: Option<f64>| value.map_or_else(|| "none".to_owned(), metres);
        let rows = self.lanes.iter().map(|row| {
            vec![
                row.lane.to_string(),
                metres(row.lap_m),
                metres(row.stagger_200_m),
                metres(row.stagger_400_m),
                broken(row.stagger_800_m),
                broken(row.stagger_4x400_m),
                if self.closed.contains(&row.lane) { "closed".to_owned() } else { String::new() },
            ]
        });
        let header = ["Lane", "Lap", "200 m", "400 m", "800 m", "4x400 m", ""];
        let title = format!("Lap and stagger of each lane in metres, {}", self.track);
        format!(
            "{}\n{}\nA stagger is how far ahead of lane 1 a lane starts. The 800 m runs in lanes for\n\
             one bend, the 4x400 m for three; both then break for lane 1.\n",
            heading(&title),
            table(&header, &[0, 1, 2, 3, 4, 5], rows),
        )
    }
}

//! Lap and stagger of each lane.

use lane_distance::{Course, LaneNumber, Placement, Track};
use serde::Serialize;
use session_plan::{Caution, cautions};

use crate::answers::view::View;
use crate::json::care::WithCare;
use crate::tables::columns::Columns;
use crate::tables::csv_table::CsvTable;
use crate::terminal::table::{heading, item, table};
use crate::terminal::take_care::take_care_in_short;
use crate::words::spot::WordedSpot;

/// Lap and stagger of each lane of the oval.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LaneTable {
    /// The lanes, lane 1 first.
    pub(crate) lanes: Vec<LaneRow>,
    /// The innermost open lane, for which those in lanes break.
    pub(crate) inside_lane: Option<LaneNumber>,
    /// What to take care of.
    #[serde(skip)]
    pub(crate) cautions: Vec<Caution>,
    #[serde(skip)]
    track: String,
    #[serde(skip)]
    closed: Vec<LaneNumber>,
}

/// Lap and stagger of one lane, in metres.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct LaneRow {
    /// The lane's number.
    pub(crate) lane: LaneNumber,
    /// A lap along its measure line.
    pub(crate) lap_m: f64,
    /// Stagger of 200 m, in lanes all the way.
    pub(crate) stagger_200_m: f64,
    /// Stagger of 400 m, in lanes all the way.
    pub(crate) stagger_400_m: f64,
    /// Stagger of 800 m, in lanes for one bend.
    pub(crate) stagger_800_m: Option<f64>,
    /// Stagger of 4x400 m, in lanes for three bends.
    #[serde(rename = "stagger_4x400_m")]
    pub(crate) stagger_4x400_m: Option<f64>,
    /// Where the 800 m starts with lane 1 closed; nothing where lane 1 is open or this lane closed.
    pub(crate) start_800: Option<ClosedStart>,
}

/// Where a race that breaks for the inside starts while lane 1 is closed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct ClosedStart {
    /// Where to stand.
    pub(crate) spot: WordedSpot,
    /// How far that lies past the painted start, in metres; negative is behind it.
    pub(crate) past_painted_m: f64,
}

impl LaneTable {
    /// The lanes of a track.
    pub fn of(track: &Track) -> Self {
        let layout = track.layout();
        let inside_lane = track.open_lanes(Course::Oval).first().copied();
        let start_800 = |lane: LaneNumber| {
            let inside = inside_lane.filter(|&inside| inside > LaneNumber::FIRST && inside <= lane)?;
            track.check_lane(Course::Oval, lane).ok()?;
            let spot = layout.start_before_break(lane, 800.0, 1, inside)?;
            let painted = layout.start_before_break(lane, 800.0, 1, LaneNumber::FIRST)?;
            Some(ClosedStart {
                spot: Placement::of(track, spot).into(),
                past_painted_m: layout.past_m(painted, spot),
            })
        };
        let row = |lane| {
            Some(LaneRow {
                lane,
                lap_m: track.lap_m(lane).ok()?,
                stagger_200_m: layout.stagger_in_lanes_m(lane, 200.0),
                stagger_400_m: layout.stagger_in_lanes_m(lane, 400.0),
                stagger_800_m: layout.stagger_after_break_m(lane, 800.0, 1),
                stagger_4x400_m: layout.stagger_after_break_m(lane, 1600.0, 3),
                start_800: start_800(lane),
            })
        };
        Self {
            lanes: layout.lane_numbers(Course::Oval).filter_map(row).collect(),
            inside_lane,
            cautions: cautions(track),
            track: track.name().to_owned(),
            closed: track.closed_lanes().to_vec(),
        }
    }
}

impl View for LaneTable {
    fn data(&self) -> impl Serialize + '_ {
        WithCare::of(self, &self.cautions)
    }

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
        let mut text = format!(
            "{}\n{}\nA stagger is how far ahead of lane 1 a lane starts. The 800 m runs in lanes for\n\
             one bend, the 4x400 m for three; both then break for lane 1.\n",
            heading(&title),
            table(&header, &[0, 1, 2, 3, 4, 5], rows),
        );
        let starts = self.lanes.iter().filter_map(|row| Some((row.lane, row.start_800.as_ref()?)));
        let rows: Vec<_> = starts
            .map(|(lane, start)| {
                vec![lane.to_string(), format!("{:+.2}", start.past_painted_m), start.spot.words.clone()]
            })
            .collect();
        if let (false, Some(inside)) = (rows.is_empty(), self.inside_lane) {
            let title = format!("800 m with lane {inside} as the innermost: the painted starts are wrong");
            let header = ["Lane", "Off by", "Stand"];
            text += &format!("\n{}\n{}\n", heading(&title), table(&header, &[0, 1], rows));
            text += &item(
                "-",
                "\"Off by\" is how many metres behind (-) or past (+) the painted 800 m start to stand.",
            );
            text.push('\n');
        }
        text + "\n" + &take_care_in_short(&self.cautions)
    }

    fn csv(&self) -> CsvTable {
        Columns::new()
            .with("lane", |row: &LaneRow| row.lane)
            .with("closed", |row| self.closed.contains(&row.lane))
            .with("lap_m", |row| row.lap_m)
            .with("stagger_200_m", |row| row.stagger_200_m)
            .with("stagger_400_m", |row| row.stagger_400_m)
            .with("stagger_800_m", |row| row.stagger_800_m)
            .with("stagger_4x400_m", |row| row.stagger_4x400_m)
            .with("start_800", |row| row.start_800.as_ref().map(|start| start.spot.words.clone()))
            .with("start_800_past_painted_m", |row| row.start_800.as_ref().map(|start| start.past_painted_m))
            .table(&self.lanes)
    }
}

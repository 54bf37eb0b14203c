//! The curved start line of a group.

use crate::words::numbers::metres;
use lane_distance::{LaneNumber, Placement, Track};
use serde::Serialize;
use session_plan::{Caution, cautions};

use crate::answers::view::View;
use crate::json::care::WithCare;
use crate::tables::columns::Columns;
use crate::tables::csv_table::CsvTable;
use crate::terminal::table::{heading, item, table};
use crate::terminal::take_care::take_care_in_short;
use crate::words::spot::WordedSpot;

/// The curved start line of a group that breaks for the inside at once.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Curve {
    /// The innermost open lane, for which the group breaks.
    pub(crate) inside_lane: LaneNumber,
    /// The distance that is run, in metres; nothing where only a place was asked for.
    pub(crate) distance_m: Option<f64>,
    /// The lanes, from the inside outwards.
    pub(crate) lanes: Vec<CurveLane>,
    /// What to take care of.
    #[serde(skip)]
    pub(crate) cautions: Vec<Caution>,
}

/// One lane's place on a curved start line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct CurveLane {
    /// The lane.
    pub(crate) lane: LaneNumber,
    /// Where to stand in it.
    pub(crate) spot: WordedSpot,
    /// Metres past the line square across the track at the inside lane's start.
    pub(crate) past_square_m: f64,
}

impl Curve {
    /// The curve that leaves the inside lane `to_finish_m` from the finish, in the lanes that are
    /// open.
    pub fn of(track: &Track, inside_lane: LaneNumber, to_finish_m: f64, distance_m: Option<f64>) -> Self {
        let open = track.open_lanes(lane_distance::Course::Oval);
        let points = track.layout().curve(inside_lane, to_finish_m);
        let lanes =
            points.into_iter().filter(|point| open.contains(&point.spot.lane)).map(|point| CurveLane {
                lane: point.spot.lane,
                spot: Placement::from_reading(track, point.spot, track.read_any(point.spot)).into(),
                past_square_m: point.past_square_m,
            });
        Self { inside_lane, distance_m, lanes: lanes.collect(), cautions: cautions(track) }
    }
}

impl View for Curve {
    fn data(&self) -> impl Serialize + '_ {
        WithCare::of(self, &self.cautions)
    }

    fn text(&self) -> String {
        let distance =
            self.distance_m.map_or_else(String::new, |distance_m| format!(" of {} m", metres(distance_m)));
        let title = format!("Group start{distance}, breaking for lane {}", self.inside_lane);
        let rows = self.lanes.iter().map(|lane| {
            vec![lane.lane.to_string(), format!("{:.2}", lane.past_square_m), lane.spot.words.clone()]
        });
        let note = item(
            "-",
            "\"Past square\" is how many metres past the line straight across the track from the innermost \
             start each lane stands, along the lane.",
        );
        let table = table(&["Lane", "Past square", "Stand"], &[0, 1], rows);
        format!("{}\n{table}\n{note}\n\n{}", heading(&title), take_care_in_short(&self.cautions))
    }

    fn csv(&self) -> CsvTable {
        Columns::new()
            .with("lane", |row: &CurveLane| row.lane)
            .with("past_square_m", |row| row.past_square_m)
            .with_spot("stand", |row| &row.spot)
            .table(&self.lanes)
    }
}

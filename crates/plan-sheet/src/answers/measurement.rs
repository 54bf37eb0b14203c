//! How far it is from one place to another.

use askama::Template;
use lane_distance::{LaneNumber, NoRouteError, PaintReading, Placement, Route, Track};
use serde::Serialize;
use session_plan::{Caution, cautions};

use crate::answers::view::View;
use crate::formats::rendered::RenderError;
use crate::json::care::WithCare;
use crate::tables::columns::Columns;
use crate::tables::csv_table::CsvTable;
use crate::terminal::table::{WIDTH, heading, item, wrapped};
use crate::terminal::take_care::take_care_in_short;
use crate::words::numbers::{clock, metres};
use crate::words::spot::WordedSpot;

/// How far it is from one place to another.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measurement {
    /// The lane in which the way starts.
    pub(crate) lane: LaneNumber,
    /// Where it starts.
    pub(crate) from: WordedSpot,
    /// Where it ends; its lane may be another one.
    pub(crate) to: WordedSpot,
    /// Whether it is run clockwise.
    pub(crate) the_other_way: bool,
    /// How far it is, in metres.
    pub(crate) distance_m: f64,
    /// What a time over it means.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) timed: Option<Timed>,
    /// What keeping another line than the measure line costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) running_line: Option<RunningLine>,
    /// What to take care of.
    #[serde(skip)]
    pub(crate) cautions: Vec<Caution>,
}

/// What a time over a measured way means.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct Timed {
    /// The time, in seconds.
    pub(crate) time_s: f64,
    /// The pace, in seconds for a kilometre.
    pub(crate) pace_s_per_km: f64,
    /// The distance that was meant, in metres.
    pub(crate) intended_m: Option<f64>,
    /// The time that the same pace gives for the distance that was meant, in seconds.
    pub(crate) intended_s: Option<f64>,
    /// The seconds that the wrong line cost; negative where it won some.
    pub(crate) lost_s: Option<f64>,
}

/// What keeping another line than the measure line costs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct RunningLine {
    /// The line that is kept, in metres outside the lane's inner line.
    pub(crate) outside_inner_line_m: f64,
    /// How much farther a lap is, in metres.
    pub(crate) lap_m: f64,
    /// How much farther the measured way is, in metres; nothing where it changes lanes.
    pub(crate) way_m: Option<f64>,
}

impl Measurement {
    /// Measures a way; its ends are named by the marks in the question.
    ///
    /// # Errors
    ///
    /// [`NoRouteError`] where the second spot lies in a chute that the first does not.
    pub fn of(track: &Track, route: &Route, readings: [PaintReading; 2]) -> Result<Self, NoRouteError> {
        Ok(Self {
            lane: route.from.lane,
            from: Placement::from_reading(track, route.from, readings[0]).into(),
            to: Placement::from_reading(track, route.to, readings[1]).into(),
            the_other_way: route.against,
            distance_m: track.route_m(route)?,
            timed: None,
            running_line: None,
            cautions: cautions(track),
        })
    }

    /// Adds what a time means for the intended distance.
    pub fn timed(mut self, time_s: f64, intended_m: Option<f64>) -> Self {
        let intended_s = intended_m.map(|intended_m| time_s * intended_m / self.distance_m);
        self.timed = Some(Timed {
            time_s,
            pace_s_per_km: time_s / self.distance_m * 1000.0,
            intended_m,
            intended_s,
            lost_s: intended_s.map(|intended_s| time_s - intended_s),
        });
        self
    }

    /// Adds what keeping a line `outside_m` from the lane's inner line costs.
    ///
    /// # Errors
    ///
    /// [`lane_distance::LaneError`] where the oval has no such lane.
    pub fn with_running_line(
        mut self,
        track: &Track,
        route: &Route,
        outside_m: f64,
    ) -> Result<Self, lane_distance::LaneError> {
        let lap_m = track.running_line_m(route.to.lane, outside_m)?;
        let turns = track.turns(route).ok().filter(|_| route.from.lane == route.to.lane);
        self.running_line = Some(RunningLine {
            outside_inner_line_m: outside_m,
            lap_m,
            way_m: turns.map(|turns| turns * lap_m),
        });
        Ok(self)
    }
}

#[derive(Template)]
#[template(path = "measurement.html")]
struct Page<'a> {
    way: &'a Measurement,
}

impl Measurement {
    /// How far it is, in metres.
    pub const fn distance_m(&self) -> f64 {
        self.distance_m
    }

    /// As a part of a page.
    ///
    /// # Errors
    ///
    /// [`RenderError`] where the part cannot be made, which is a mistake of this project.
    pub fn html(&self) -> Result<String, RenderError> {
        Page { way: self }.render().map_err(|error| RenderError::Mistake(error.to_string()))
    }

    /// How far it is, in which lanes and which way round.
    fn title(&self) -> String {
        let lanes = match (self.lane, self.to.lane) {
            (from, to) if from == to => format!("in lane {from}"),
            (from, to) => format!("from lane {from} to lane {to}"),
        };
        let direction = if self.the_other_way { ", clockwise" } else { "" };
        format!("{:.2} m {lanes}{direction}", self.distance_m)
    }
}

/// The least that a time says, in seconds.
const HUNDREDTH_S: f64 = 0.01;

impl Timed {
    /// What the time means, in words.
    fn words(&self) -> String {
        let mut words = format!("{} is {} a kilometre", clock(self.time_s), clock(self.pace_s_per_km));
        if let (Some(intended_m), Some(intended_s), Some(lost_s)) =
            (self.intended_m, self.intended_s, self.lost_s)
        {
            let off_m = (self.time_s / self.pace_s_per_km).mul_add(1000.0, -intended_m);
            let (off, lost) = (format!("{:.2} m", off_m.abs()), format!("{:.2} s", lost_s.abs()));
            words += &format!(", or {intended_s:.2} s for {} m: ", metres(intended_m));
            words += &if lost_s.abs() < HUNDREDTH_S / 2.0 {
                "the line was right".to_owned()
            } else if lost_s < 0.0 {
                format!("the run was {off} too short, which saved {lost}")
            } else {
                format!("the run was {off} too long, which cost {lost}")
            };
        }
        words
    }
}

impl View for Measurement {
    fn data(&self) -> impl Serialize + '_ {
        WithCare::of(self, &self.cautions)
    }

    fn text(&self) -> String {
        let mut text = heading(&self.title());
        text += &format!("\n{}\n{}\n", item("from", &self.from.words), item("to  ", &self.to.words));
        if let Some(timed) = self.timed {
            text += &(wrapped(&timed.words(), WIDTH.into()).join("\n") + "\n");
        }
        if let Some(line) = self.running_line {
            text += &format!(
                "Keeping {} m outside the inner line makes a lap {:+.2} m",
                metres(line.outside_inner_line_m),
                line.lap_m
            );
            if let Some(way_m) = line.way_m {
                text += &format!(", this way {way_m:+.2} m");
            }
            text += "\n";
        }
        text + "\n" + &take_care_in_short(&self.cautions)
    }

    fn csv(&self) -> CsvTable {
        let (timed, line) = (self.timed, self.running_line);
        Columns::new()
            .with("lane", |way: &Self| way.lane)
            .with("to_lane", |way| way.to.lane)
            .with("the_other_way", |way| way.the_other_way)
            .with("distance_m", |way| way.distance_m)
            .with_spot("from", |way| &way.from)
            .with_spot("to", |way| &way.to)
            .with("time_s", |_| timed.map(|timed| timed.time_s))
            .with("pace_s_per_km", |_| timed.map(|timed| timed.pace_s_per_km))
            .with("intended_m", |_| timed.and_then(|timed| timed.intended_m))
            .with("intended_s", |_| timed.and_then(|timed| timed.intended_s))
            .with("lost_s", |_| timed.and_then(|timed| timed.lost_s))
            .with("running_line_m", |_| line.map(|line| line.outside_inner_line_m))
            .with("running_line_lap_m", |_| line.map(|line| line.lap_m))
            .with("running_line_way_m", |_| line.and_then(|line| line.way_m))
            .table([self])
    }
}

//! What the lines of a lane are for.

use askama::Template;
use lane_distance::{
    Course, LaneNumber, MarkId, OnPaintRun, PaintReading, Placement, Point, RunEnd, Spot, Track,
};

use crate::answers::round_distances::ROUND_DISTANCES_M;
use crate::formats::rendered::RenderError;
use crate::words::numbers::{listed, metres};
use crate::words::spot::near;

/// How many lines are told where somebody points at one.
const NEAREST: usize = 3;

/// As near as a finger points, in metres: a mark this near is meant.
const POINTED_M: f64 = 0.5;

/// What the lines of a lane are for: those near to a place, or all of a colour.
#[derive(Clone, Debug, PartialEq)]
pub struct LinesNear {
    /// The lane.
    pub lane: LaneNumber,
    /// The place that was pointed at, as [`Track::landmark`] reads it.
    pub place: Option<String>,
    /// The same in words.
    words: Option<String>,
    lines: Vec<LineUse>,
}

/// What a line in a lane is for.
#[derive(Clone, Debug, PartialEq)]
struct LineUse {
    name: String,
    /// Its colour and its form.
    look: String,
    purpose: String,
    trap: Option<String>,
    /// How far it is to the finish line; nothing for the finish line itself.
    to_finish: Option<String>,
    starts: Vec<RoundRuns>,
    finishes: Vec<RoundRuns>,
}

/// Round distances that have the same other end.
#[derive(Clone, Debug, PartialEq)]
struct RoundRuns {
    /// The distances, such as `200 and 600 m`.
    distances: String,
    /// What is painted at the other end.
    other: String,
}

#[derive(Template)]
#[template(path = "lines_near.html")]
struct Page<'a> {
    near: &'a LinesNear,
}

impl LinesNear {
    /// The lines nearest to a point on the ground, in the lane that holds it. A mark as near as a finger points is meant.
    ///
    /// ```
    /// use lane_distance::{Point, Track};
    ///
    /// let track = Track::built_in("standard").expect("it comes with the crate");
    /// let near = plan_sheet::LinesNear::to(&track, Point::new(42.0, -38.0));
    /// assert_eq!((near.lane.get(), near.place.as_deref()), (2, Some("finish line")));
    /// ```
    pub fn to(track: &Track, point: Point) -> Self {
        let pointed = track.layout().spot_at(point);
        let mut lines: Vec<(f64, Spot, MarkId)> = track
            .painted(pointed.course, pointed.lane)
            .iter()
            .map(|painted| {
                let spot = Spot { to_finish_m: painted.to_finish_m, ..pointed };
                (track.layout().past_m(spot, pointed).abs(), spot, painted.mark)
            })
            .collect();
        lines.sort_by(|a, b| a.0.total_cmp(&b.0));
        let meant = lines.first().filter(|(off_m, ..)| *off_m <= POINTED_M);
        let spot = meant.map_or(pointed, |(_, spot, _)| *spot);
        Self {
            lane: spot.lane,
            place: track.landmark_name(spot),
            words: Some(near(&Placement::of(track, spot))),
            lines: lines
                .iter()
                .take(NEAREST)
                .map(|(_, spot, mark)| LineUse::of(track, *spot, *mark))
                .collect(),
        }
    }

    /// The lines of a lane that have a colour, in walking order from the finish line; all without one.
    pub fn of_colour(track: &Track, lane: LaneNumber, colour: Option<&str>) -> Self {
        let is_asked = |mark: MarkId| match (colour, track.mark(mark)) {
            (Some(colour), Some(mark)) => {
                mark.colour.split(' ').any(|word| word.eq_ignore_ascii_case(colour))
            }
            _ => true,
        };
        let lines = track.walk(lane).into_iter().filter(|(_, mark)| is_asked(*mark));
        let lines = lines.map(|(spot, mark)| LineUse::of(track, spot, mark)).collect();
        Self { lane, place: None, words: None, lines }
    }

    /// As a part of a page.
    ///
    /// # Errors
    ///
    /// [`RenderError`] where the part cannot be made, which is a mistake of this project.
    pub fn html(&self) -> Result<String, RenderError> {
        Page { near: self }.render().map_err(|error| RenderError::Mistake(error.to_string()))
    }
}

impl LineUse {
    fn of(track: &Track, spot: Spot, id: MarkId) -> Self {
        let reading = PaintReading { mark: Some(id), past_m: 0.0, tape_m: 0.0 };
        let place = Placement::from_reading(track, spot, reading);
        let mark = track.mark(id);
        let look = mark.map_or_else(String::new, |mark| format!("{} {}", mark.colour, mark.form.name()));
        let runs: Vec<OnPaintRun> =
            ROUND_DISTANCES_M.iter().flat_map(|metres| track.on_paint_runs(spot, id, *metres)).collect();
        let at_end = |end: RunEnd| RoundRuns::of(track, runs.iter().filter(move |run| run.end == end));
        Self {
            name: place.mark.map_or_else(String::new, |name| name.to_string()),
            look,
            purpose: mark.map_or_else(String::new, |mark| mark.purpose.clone()),
            trap: mark.and_then(|mark| mark.trap_in(spot.lane)).map(str::to_owned),
            to_finish: to_finish_m(track, spot).map(|metres| format!("{metres:.2} m")),
            starts: at_end(RunEnd::Start),
            finishes: at_end(RunEnd::Finish),
        }
    }
}

/// How far it is from a spot to the finish line; nothing on the line itself, or where no run leads there.
fn to_finish_m(track: &Track, spot: Spot) -> Option<f64> {
    let course =
        if track.layout().has_lane(Course::Oval, spot.lane) { Course::Oval } else { Course::HomeStraight };
    let finish = Spot { course, to_finish_m: 0.0, ..spot };
    let is_there = track.point(spot).distance(track.point(finish)) < 1e-6;
    if is_there { None } else { track.distance_m(spot, finish).ok() }
}

impl RoundRuns {
    /// Runs to or from each other end.
    fn of<'a>(track: &Track, runs: impl Iterator<Item = &'a OnPaintRun>) -> Vec<Self> {
        let mut ends: Vec<(String, Vec<String>)> = Vec::new();
        for run in runs {
            let mark = run.reading.mark.and_then(|mark| track.mark(mark));
            let other = mark.map_or_else(String::new, |mark| mark.look_for());
            let distance = metres(run.distance_m);
            match ends.iter_mut().find(|(known, _)| *known == other) {
                Some((_, distances)) => distances.push(distance),
                None => ends.push((other, vec![distance])),
            }
        }
        let runs = ends.into_iter().map(|(other, distances)| (format!("{} m", listed(&distances)), other));
        runs.map(|(distances, other)| Self { distances, other }).collect()
    }
}

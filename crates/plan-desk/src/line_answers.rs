//! What a line is for, and how far it was.

use lane_distance::{Point, REP_RANGE_M, Route, SearchError};
use plan_sheet::{GroundMapSize, LinesNear, Measurement, ground_map, nearest_round_m};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use workout_notation::visible_line;

use crate::ground::GroundRequest;
use crate::problem::{Field, Problem, Problems, Refusal};
use crate::reply::Reply;

/// A track to point at.
#[derive(Clone, Debug, Default, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub(crate) struct GroundMapRequest {
    /// The track.
    ground: GroundRequest,
}

/// A track to point at.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct GroundMapAnswer {
    /// The track alone as SVG, in metres from the centre of the infield; `y` grows towards the home straight.
    map: String,
}

/// A place on the ground.
#[derive(Clone, Copy, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct GroundPoint {
    /// Metres from the centre of the infield, along the home straight's direction of running.
    x_m: f64,
    /// Metres from there towards the back straight.
    y_m: f64,
}

/// What a line is for.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct LineRequest {
    /// The track.
    #[serde(default)]
    ground: GroundRequest,
    /// The lane, unless a place is given.
    lane: u8,
    /// The colour of the lines that are asked for; all unless given.
    #[serde(default)]
    colour: Option<String>,
    /// The place that was pointed at.
    #[serde(default)]
    at: Option<GroundPoint>,
}

/// What a line is for.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct LineAnswer {
    /// The lines, as HTML.
    html: String,
    /// The lane that was meant.
    lane: u8,
    /// The place that was pointed at, as `measure` and `far` read it.
    place: Option<String>,
}

/// How far it was.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct FarRequest {
    /// The track.
    #[serde(default)]
    ground: GroundRequest,
    /// The lane.
    lane: u8,
    /// Where the run started, such as `400 m start` or `400 m start + 5.20`.
    from: String,
    /// Where it finished.
    to: String,
    /// The time that was run, such as `31.4` or `2:20.5`.
    #[serde(default)]
    time: Option<String>,
    /// The distance that was meant, in metres; the nearest round one unless given.
    #[serde(default)]
    meant_m: Option<f64>,
}

/// How far it was.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct FarAnswer {
    /// The distance and what a time means, as HTML.
    html: String,
    /// Where the run started.
    from: String,
    /// Where it finished.
    to: String,
    /// How far it was, in metres.
    distance_m: f64,
}

pub(crate) fn map(request: &GroundMapRequest) -> Reply {
    match request.ground.closed_venue() {
        Ok(venue) => Reply::json(&GroundMapAnswer { map: ground_map(venue.track(), GroundMapSize::Finger) }),
        Err(problems) => problems.into(),
    }
}

pub(crate) fn line(request: &LineRequest) -> Reply {
    match lines(request) {
        Ok(near) => match near.html() {
            Ok(html) => Reply::json(&LineAnswer { html, lane: near.lane.get(), place: near.place }),
            Err(error) => Reply::refusal(&Refusal::mistake(&error)),
        },
        Err(problems) => problems.into(),
    }
}

fn lines(request: &LineRequest) -> Result<LinesNear, Problems> {
    let venue = request.ground.venue(None)?;
    let track = venue.track();
    if let Some(GroundPoint { x_m, y_m }) = request.at {
        return Ok(LinesNear::to(track, Point::new(x_m, y_m)));
    }
    let lane = track.lane_number(request.lane).map_err(|error| wrong(&error))?;
    Ok(LinesNear::of_colour(track, lane, request.colour.as_deref()))
}

pub(crate) fn far(request: &FarRequest) -> Reply {
    match measured(request) {
        Ok(way) => match way.html() {
            Ok(html) => {
                let (from, to) = (request.from.trim().to_owned(), request.to.trim().to_owned());
                Reply::json(&FarAnswer { html, from, to, distance_m: way.distance_m() })
            }
            Err(error) => Reply::refusal(&Refusal::mistake(&error)),
        },
        Err(problems) => problems.into(),
    }
}

fn measured(request: &FarRequest) -> Result<Measurement, Problems> {
    let venue = request.ground.venue(None)?;
    let track = venue.track();
    let lane = track.lane_number(request.lane).map_err(|error| wrong(&error))?;
    let place =
        |name: &str| track.landmark_with_reading(&visible_line(name), lane).map_err(|error| wrong(&error));
    let ((from, from_reading), (to, to_reading)) = (place(&request.from)?, place(&request.to)?);
    let route = Route { from, to, against: false, laps: 0 };
    let way = Measurement::of(track, &route, [from_reading, to_reading]).map_err(|error| wrong(&error))?;
    let Some(time) = &request.time else { return Ok(way) };
    let time_s = workout_notation::seconds(time).ok().filter(|seconds| *seconds > 0.0);
    let time_s = time_s.ok_or_else(|| {
        let help = Some("write for example `31.4` or `2:20.5`".to_owned());
        let message = format!("`{}` is not a time", visible_line(time));
        Problem { help, ..Problem::new(Field::Request, message) }
    })?;
    let meant_m = request.meant_m.unwrap_or_else(|| nearest_round_m(way.distance_m()));
    if !REP_RANGE_M.contains(&meant_m) {
        return Err(wrong(&SearchError::Distance { distance_m: meant_m }));
    }
    Ok(way.timed(time_s, Some(meant_m)))
}

fn wrong(error: &dyn std::fmt::Display) -> Problems {
    Problem::new(Field::Request, error.to_string()).into()
}

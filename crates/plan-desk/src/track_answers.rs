//! What the track alone answers, as the command line has it.

use lane_distance::Route;
use plan_sheet::{Choices, LaneTable, MarkTable, Measurement, View, plan_fault_words};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use workout_notation::{Block, SourceText};

use crate::ground::GroundRequest;
use crate::problem::{Field, Problem, Problems};
use crate::reply::Reply;

/// The lanes of a track.
#[derive(Clone, Debug, Default, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub(crate) struct LanesRequest {
    /// The track.
    ground: GroundRequest,
}

/// The paint in a lane.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct MarksRequest {
    /// The track.
    #[serde(default)]
    ground: GroundRequest,
    /// The lane to walk.
    lane: u8,
}

/// Where one repetition can start and finish.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SpotsRequest {
    /// The track.
    #[serde(default)]
    ground: GroundRequest,
    /// One repetition, such as `150 in lane 2`.
    text: String,
}

/// How far it is from one place to another.
#[derive(Clone, Debug, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct MeasureRequest {
    /// The track.
    #[serde(default)]
    ground: GroundRequest,
    /// The lane.
    lane: u8,
    /// Where the run starts, such as `400 m start`.
    from: String,
    /// Where it finishes.
    to: String,
}

/// An answer, or what is wrong.
fn given(answer: Result<Reply, Problems>) -> Reply {
    answer.unwrap_or_else(Reply::from)
}

fn answer(view: &impl View) -> Reply {
    Reply::json(&view.data())
}

pub(crate) fn lanes(request: &LanesRequest) -> Reply {
    given(request.ground.closed_venue().map(|venue| answer(&LaneTable::of(venue.track()))))
}

pub(crate) fn marks(request: &MarksRequest) -> Reply {
    given(request.ground.closed_venue().and_then(|venue| {
        let lane = venue.track().lane_number(request.lane);
        let lane = lane.map_err(|error| Problem::new(Field::Request, error.to_string()))?;
        Ok(answer(&MarkTable::of(venue.track(), lane)))
    }))
}

pub(crate) fn spots(request: &SpotsRequest) -> Reply {
    given(request.ground.closed_venue().and_then(|venue| {
        let source = SourceText::new("workout", &request.text).without_tabs();
        let block = Block::parse(source.text()).map_err(|problems| Problems {
            told: problems
                .into_iter()
                .map(|problem| {
                    Problem::in_text(Field::Text, &source, &problem.span, (problem.message, problem.help))
                })
                .collect(),
            more: 0,
        })?;
        let pairs = session_plan::pairs(&venue, &block).map_err(|fault| {
            Problem::in_text(Field::Text, &source, &fault.span, plan_fault_words(&fault.value))
        })?;
        Ok(answer(&Choices::of(venue.track(), &pairs)))
    }))
}

pub(crate) fn measure(request: &MeasureRequest) -> Reply {
    given(request.ground.closed_venue().and_then(|venue| {
        let track = venue.track();
        let wrong = |error: &dyn std::fmt::Display| Problem::new(Field::Request, error.to_string());
        let lane = track.lane_number(request.lane).map_err(|error| wrong(&error))?;
        let place = |name: &str| {
            let found = track.landmark_with_reading(&workout_notation::visible_line(name), lane);
            found.map_err(|error| Problems::from(wrong(&error)))
        };
        let (from, from_reading) = place(&request.from)?;
        let (to, to_reading) = place(&request.to)?;
        let route = Route { from, to, against: false, laps: 0 };
        let measured = Measurement::of(track, &route, [from_reading, to_reading]);
        measured.map(|measured| answer(&measured)).map_err(|error| wrong(&error).into())
    }))
}

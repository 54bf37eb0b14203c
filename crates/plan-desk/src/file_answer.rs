//! An evening as a file.

use chrono::{DateTime, Utc};
use plan_sheet::{Extras, FORMATS, Format, Paper, RenderSettings, session_yaml};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::evening::Evening;
use crate::plan_request::PlanRequest;
use crate::problem::{Field, Problem, Problems, Refusal};
use crate::reply::Reply;

/// The ending of session files.
const YAML: &str = "yaml";

/// Their media type (RFC 9512).
const YAML_TYPE: &str = "application/yaml";

/// An evening that is asked for as a file.
#[derive(Clone, Debug, Default, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub(crate) struct FileRequest {
    /// The evening.
    evening: PlanRequest,
    /// The kind of file: `yaml` for a session file, else an ending that `toeline plan --out` knows.
    ending: String,
    /// Whether it is for US Letter paper, and not A4.
    letter: bool,
    /// Whether there are cards to cut out.
    cards: bool,
    /// Whether the lanes are shown unrolled.
    lanes: bool,
    /// Whether every caution stands in full.
    care: bool,
    /// When the file is made, in seconds since 1970-01-01 UTC.
    now_s: i64,
}

/// The media types of all kinds of file.
pub(crate) fn media_types() -> Vec<&'static str> {
    FORMATS.iter().map(|format| format.media_type).chain([YAML_TYPE]).collect()
}

/// The evening as a file: the first page of pictures.
pub(crate) fn file(request: &FileRequest) -> Reply {
    let evening = match Evening::of(&request.evening) {
        Ok(evening) => evening,
        Err(problems) => return Reply::refusal(&Refusal::wrong(problems)),
    };
    if request.ending == YAML {
        let body = session_yaml(&evening.session, &evening.ground()).into_bytes();
        return Reply { status: 200, content_type: YAML_TYPE, body };
    }
    let wrong =
        |message: String| Reply::refusal(&Refusal::wrong(Problem::new(Field::Request, message).into()));
    let Some(format) = Format::with_ending(&request.ending) else {
        let ending = workout_notation::visible_line(&request.ending).into_owned();
        return wrong(format!(
            "`{ending}` is an unknown kind of file; write {}",
            plan_sheet::known_endings()
        ));
    };
    let settings = RenderSettings {
        paper: if request.letter { Paper::Letter } else { Paper::A4 },
        extras: Extras { cards: request.cards, lanes: request.lanes, care: request.care },
        now: DateTime::<Utc>::from_timestamp(request.now_s, 0).unwrap_or_default(),
    };
    let plans = [evening.plan];
    match format.render(&plans, Some(&plans), &settings) {
        Ok(rendered) => {
            let body = rendered.files.into_iter().next().unwrap_or_default();
            Reply { status: 200, content_type: format.media_type, body }
        }
        Err(error) if error.is_of_input() => wrong(error.to_string()),
        Err(error) => Reply::refusal(&Refusal::mistake(&error)),
    }
}

impl From<Problems> for Reply {
    fn from(problems: Problems) -> Self {
        Self::refusal(&Refusal::wrong(problems))
    }
}

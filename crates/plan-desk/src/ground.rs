//! The track that a request is about.

use lane_distance::Track;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use session_plan::{Limit, TrackName, Venue};
use workout_notation::{SourceText, visible_line};

use crate::problem::{Field, Problem, Problems};

/// The track where none is named.
const STANDARD: &str = "standard";

/// The track that a request is about.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct GroundRequest {
    /// The name of a built-in track; `standard` unless a track file or the session says another.
    pub track: Option<String>,
    /// A track file, which goes before the name.
    pub track_file: Option<TrackFile>,
    /// Lanes that are closed.
    pub closed: Vec<u8>,
}

/// A track file.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TrackFile {
    /// What it is called, such as `wrenbeck-track.yaml`.
    pub name: String,
    /// Its text.
    pub text: String,
}

impl GroundRequest {
    /// Its venue, with every lane open that the track has open; `own` is what a session file calls its track.
    pub(crate) fn venue(&self, own: Option<&TrackName>) -> Result<Venue, Problems> {
        if let Some(file) = &self.track_file {
            if file.text.len() > Limit::FileBytes.most() {
                let message =
                    format!("the track file is too large: at most {} bytes", Limit::FileBytes.most());
                return Err(Problem::new(Field::Track, message).into());
            }
            let source = SourceText::new(&file.name, &file.text);
            return Venue::read(&source).map_err(|faults| Problems::of_file(Field::Track, &faults));
        }
        let name = match (&self.track, own) {
            (Some(name), _) => name,
            (None, None) => STANDARD,
            (None, Some(TrackName::BuiltIn(name))) => name,
            (None, Some(TrackName::File(name))) => {
                let message = format!("the session needs the track file `{}`", visible_line(name));
                let help = Some("open that file as your track, or choose a built-in track".to_owned());
                let needs_track = Some(name.clone());
                return Err(Problem { help, needs_track, ..Problem::new(Field::Track, message) }.into());
            }
        };
        Track::built_in(name).map(Venue::from).ok_or_else(|| {
            let names: Vec<&str> = Track::built_in_names().collect();
            let message = format!("there is no built-in track `{}`", visible_line(name));
            let help = Some(format!("choose one of {}", names.join(", ")));
            Problem { help, ..Problem::new(Field::Track, message) }.into()
        })
    }

    /// What a session file calls it; nothing for the standard track.
    pub(crate) fn name_in_session(&self, own: Option<&TrackName>) -> Option<String> {
        let name = match (&self.track_file, &self.track, own) {
            (Some(file), ..) => &file.name,
            (None, Some(name), _) => name,
            (None, None, Some(TrackName::BuiltIn(name) | TrackName::File(name))) => name,
            (None, None, None) => return None,
        };
        (name != STANDARD).then(|| name.clone())
    }

    /// The same with its lanes closed.
    pub(crate) fn closed_venue(&self) -> Result<Venue, Problems> {
        let closed = self.venue(None)?.with_closed(&self.closed);
        closed.map_err(|error| Problem::new(Field::Closed, error.to_string()).into())
    }
}

//! Track files.

use lane_distance::{Track, TrackSpec};

use crate::problem::{Problems, SourceText};
use crate::yaml;

/// Reads a track from the text of its file.
///
/// ```
/// use session_plan::{SourceText, read_track};
///
/// let text = "
/// name: a short one
/// path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.00 }]
/// lanes: 6
/// lane_width: 1.22
/// ";
/// let source = SourceText { name: "track.yaml".into(), text: text.into() };
/// let error = read_track(&source).expect_err("one straight is shorter");
/// assert!(error.to_string().starts_with("track.yaml:3:7: the path does not close"));
/// ```
///
/// # Errors
///
/// [`Problems`] with the place of everything that is wrong.
pub fn read_track(source: &SourceText) -> Result<Track, Problems> {
    let spec: TrackSpec = yaml::read(source)?;
    Track::build(&spec).map_err(|faults| yaml::locate(source, faults))
}

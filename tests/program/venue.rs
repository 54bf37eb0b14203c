//! A session on a track of its own: both files are written into a temporary folder.

use serde_json::Value;

use crate::answer::told;
use crate::folder::Folder;

/// The 400 m standard track: World Athletics, Track and Field Facilities Manual, chapter 2 (read).
const GROUND: &str = "
name: Test ground
path:
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
  - { radius: 36.50, turn: 180 }
  - straight: 84.39
lanes: 8
lane_width: 1.22
home_straight: { chute: 28.61 }
";

fn folder(track: &str, session: &str) -> Folder {
    let folder = Folder::with("track.yaml", format!("{GROUND}{track}"));
    folder.write("session.yaml", session);
    folder
}

/// The plan of a session, with more lines in its track file.
pub(crate) fn plan_of(track: &str, session: &str) -> Value {
    folder(track, session).json(&["plan", "session.yaml"])
}

/// What is said of a session or a track file that is refused.
pub(crate) fn refused_plan(track: &str, session: &str) -> String {
    told(&folder(track, session).toeline(&["plan", "session.yaml"]).assert().code(2))
}

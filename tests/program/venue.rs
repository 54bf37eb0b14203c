//! A session on a track of its own: both files are written into a temporary folder.

use std::fs;

use serde_json::Value;

use crate::run::toeline;

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

fn run(track: &str, session: &str, more: &[&str]) -> snapbox::cmd::OutputAssert {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    fs::write(folder.path().join("track.yaml"), format!("{GROUND}{track}")).expect("it can be written");
    fs::write(folder.path().join("session.yaml"), session).expect("it can be written");
    toeline(&[&["plan", "session.yaml"], more].concat()).current_dir(folder.path()).assert()
}

/// The plan of a session, with more lines in its track file.
pub(crate) fn plan_of(track: &str, session: &str) -> Value {
    let output = run(track, session, &["--format", "json"]).success();
    serde_json::from_slice(&output.get_output().stdout).expect("it is one JSON value")
}

/// What is said of a session or a track file that is refused.
pub(crate) fn refused_plan(track: &str, session: &str) -> String {
    let output = run(track, session, &[]).code(2);
    String::from_utf8_lossy(&output.get_output().stderr).into_owned()
}

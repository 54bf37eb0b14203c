//! Pages that the built program makes.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use serde_json::Value;
use tempfile::TempDir;

use crate::run::toeline;
use crate::wrenbeck::session;

/// A page in a folder of its own.
pub(crate) struct Made {
    folder: TempDir,
    pub(crate) path: PathBuf,
}

impl Made {
    /// The folder that the page is in.
    pub(crate) fn folder(&self) -> PathBuf {
        self.folder.path().to_owned()
    }
}

/// The pages that were made so far, by the arguments of their commands: most tests use one of two.
static PAGES: Mutex<BTreeMap<Vec<String>, Vec<u8>>> = Mutex::new(BTreeMap::new());

/// The page that a command makes.
pub(crate) fn made(arguments: &[&str]) -> Made {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("page.html");
    let key: Vec<String> = arguments.iter().map(|&argument| argument.to_owned()).collect();
    let known = || PAGES.lock().unwrap_or_else(PoisonError::into_inner);
    let page = known().get(&key).cloned();
    match page {
        Some(page) => fs::write(&path, page).expect("the folder can be written"),
        None => {
            let name = path.to_str().expect("the path is UTF-8");
            toeline(&[arguments, &["--out", name]].concat()).assert().success();
            known().insert(key, fs::read(&path).expect("the page was written"));
        }
    }
    Made { folder, path }
}

/// The 400 m standard track.
pub(crate) const GROUND: &str = "name: Ground
path: [{ radius: 36.50, turn: 180 }, { straight: 84.39 }, { radius: 36.50, turn: 180 }, { straight: 84.39 }]
lanes: 8
lane_width: 1.22
";

/// The page of a session file, on a track of these lines.
pub(crate) fn made_of(track: &str, session: &str) -> Made {
    made_of_several(track, &[session])
}

/// The page of several session files, on a track of these lines.
pub(crate) fn made_of_several(track: &str, sessions: &[&str]) -> Made {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().join("page.html");
    fs::write(folder.path().join("track.yaml"), track).expect("the folder can be written");
    let names: Vec<String> = (1..=sessions.len()).map(|number| format!("session-{number}.yaml")).collect();
    for (name, session) in names.iter().zip(sessions) {
        fs::write(folder.path().join(name), session).expect("the folder can be written");
    }
    let mut arguments = vec!["plan"];
    arguments.extend(names.iter().map(String::as_str));
    arguments.extend(["--out", "page.html"]);
    toeline(&arguments).current_dir(folder.path()).assert().success();
    Made { folder, path }
}

/// The page of a session of the demonstration.
pub(crate) fn made_of_wrenbeck(name: &str) -> Made {
    made(&["plan", &session(name)])
}

/// The plan behind a page, as other programs get it.
pub(crate) fn plan_of(arguments: &[&str]) -> Value {
    let output =
        toeline(&[arguments, &["--format", "json"]].concat()).assert().success().get_output().stdout.clone();
    serde_json::from_slice(&output).expect("it is one JSON value")
}

/// One repetition after the other in one lane.
pub(crate) const LONE: [&str; 2] = ["plan", "6 x 200 in lane 2 @ 34 rest 3min"];

/// Three sprinters side by side, in several blocks.
pub(crate) const SPRINTERS: [&str; 2] = ["plan", "sessions/wrenbeck/tuesday-sprints.yaml"];

/// Three groups, whose waves overlap.
pub(crate) const CLUB_EVENING: [&str; 2] = ["plan", "sessions/wrenbeck/saturday-club-evening.yaml"];

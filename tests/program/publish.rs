//! The planner's page as a folder of files.

use std::fs;
use std::path::Path;

use crate::left_out::left_out;
use crate::run::toeline;

/// Publishes to a folder, if this program holds the planner for a browser; else it says what builds that.
pub(crate) fn publish(site: &Path) -> bool {
    let said = toeline(&["publish", site.to_str().expect("the path is UTF-8")]).assert();
    let output = said.get_output();
    if output.status.success() {
        return true;
    }
    assert_eq!(output.status.code(), Some(2));
    let words = String::from_utf8_lossy(&output.stderr);
    assert!(words.contains("crates/offline-planner/build"), "{words}");
    assert!(!site.exists(), "nothing is left behind");
    left_out("the planner for a browser (crates/offline-planner/build)");
    false
}

#[test]
fn a_page_is_published_or_what_builds_it_is_said() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let site = folder.path().join("club/site");
    if !publish(&site) {
        return;
    }
    let names: Vec<String> = fs::read_dir(&site)
        .expect("it was made")
        .map(|entry| entry.expect("it can be read").file_name().to_string_lossy().into_owned())
        .collect();
    for name in [
        "index.html",
        "run.html",
        "engine.wasm",
        "engine.js",
        "keeper.js",
        "worker.js",
        "toeline.webmanifest",
    ] {
        assert!(names.iter().any(|known| known == name), "{names:?}");
    }
    let page = fs::read_to_string(site.join("index.html")).expect("it is text");
    assert!(page.contains("on the 200 m start line"), "a plan stands in it before a script runs");
    let keeper = fs::read_to_string(site.join("keeper.js")).expect("it is text");
    for name in names.iter().filter(|name| *name != "keeper.js" && *name != "index.html") {
        assert!(keeper.contains(&format!("\"./{name}\"")), "{name} is kept for when there is no network");
    }
    // Nothing in it is from anywhere else.
    for name in &names {
        let bytes = fs::read(site.join(name)).expect("it can be read");
        let text = String::from_utf8_lossy(&bytes);
        let is_elsewhere = |at: &str| {
            !["www.w3.org", "json-schema.org", "spec.openapis.org"].iter().any(|known| at.starts_with(known))
        };
        let from = ["src=\"http", "href=\"http", "import(\"http", "from \"http", "fetch(\"http"];
        assert!(from.iter().all(|words| text.split(words).skip(1).all(|at| !is_elsewhere(at))), "{name}");
    }
}

#[test]
fn a_folder_with_other_files_is_left_alone() {
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    if !publish(&folder.path().join("site")) {
        return;
    }
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let path = folder.path().to_str().expect("the path is UTF-8");
    let own = folder.path().join("index.html");
    fs::write(&own, "the club's own page").expect("it can be written");
    let said = toeline(&["publish", path]).assert().code(2).get_output().stderr.clone();
    assert!(String::from_utf8_lossy(&said).contains("holds other files"));
    assert_eq!(fs::read_to_string(&own).expect("it is there"), "the club's own page");
    fs::remove_file(&own).expect("it can be removed");
    toeline(&["publish", path]).assert().success();
    toeline(&["publish", path]).assert().success();
}

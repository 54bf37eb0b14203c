//! The planner's page in browsers, for both who carry its requests.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use crate::left_out::left_out;
use crate::publish::publish;
use crate::served::Served;

/// The folder of the tests that run in node.
fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/planner")
}

/// What is missing to use the page, if something is.
fn missing() -> Option<&'static str> {
    let runs = |program: &str| Command::new(program).arg("--version").output().is_ok();
    [
        (runs("node"), "node (Debian's package nodejs)"),
        (runs("chromium"), "chromium"),
        (runs("firefox-esr"), "firefox-esr"),
        (tests().join("node_modules/puppeteer-core").is_dir(), "puppeteer-core (npm ci in tests/planner)"),
    ]
    .into_iter()
    .find_map(|(is_there, what)| (!is_there).then_some(what))
}

/// Runs one file of tests against the program and the folder that it publishes.
fn run(file: &str) -> Option<Output> {
    if let Some(what) = missing() {
        left_out(what);
        return None;
    }
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let site = folder.path().join("site");
    if !publish(&site) {
        return None;
    }
    let served = Served::with(&["--sessions", concat!(env!("CARGO_MANIFEST_DIR"), "/sessions/wrenbeck")]);
    let output = Command::new("node")
        .args(["--test", "--test-reporter=tap"])
        .arg(tests().join(file))
        .env("TOELINE_SERVED", format!("http://{}/", served.address()))
        .env("TOELINE_FOLDER", &site)
        .output()
        .expect("node runs");
    Some(output)
}

fn assert_passed(output: &Output, least: usize) {
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}");
    let passed = said.lines().find_map(|line| line.strip_prefix("# pass ")?.parse::<usize>().ok());
    assert!(passed >= Some(least) && said.contains("# skipped 0"), "{said}");
}

#[test]
fn people_use_the_page_in_two_browsers() {
    if let Some(output) = run("page.test.mjs") {
        assert_passed(&output, 70);
    }
}

#[test]
fn both_who_carry_requests_give_the_same_bytes() {
    if let Some(output) = run("same.test.mjs") {
        assert_passed(&output, 1);
    }
}

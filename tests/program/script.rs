//! The script of the page, tested in node: what it reckons needs no browser.

use std::process::Command;

use crate::left_out::left_out;
use crate::run::toeline;
use crate::wrenbeck::{WRENBECK, session};

#[test]
fn the_script_of_the_page_passes_its_own_tests() {
    if Command::new("node").arg("--version").output().is_err() {
        left_out("node (Debian's package nodejs)");
        return;
    }
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let pages: Vec<String> = WRENBECK
        .iter()
        .map(|name| {
            let page = folder.path().join(format!("{name}.html"));
            let page = page.to_str().expect("the path is UTF-8");
            toeline(&["plan", &session(name), "--out", page]).assert().success();
            page.to_owned()
        })
        .collect();
    let tests =
        ["times", "kept", "clocks", "screen", "csv"].map(|name| format!("tests/script/{name}.test.mjs"));
    let output = Command::new("node")
        .args(["--test", "--test-reporter=tap"])
        .args(tests)
        .env("TOELINE_PAGES", pages.join("\n"))
        .output()
        .expect("node runs");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{said}");
    let passed = said.lines().find_map(|line| line.strip_prefix("# pass ")?.parse::<usize>().ok());
    assert!(passed > Some(35) && said.contains("# skipped 0"), "{said}");
}

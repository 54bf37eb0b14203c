//! Tests that need a program which the machine may lack.

use std::io::Write;

/// Says that the test which calls it is left out, past the harness, which hides what a test prints if it passes.
///
/// # Panics
///
/// If `TOELINE_BROWSER` is `required`, which `.ci/run` sets: there nothing may be left out.
pub(crate) fn left_out(needs: &str) {
    let said = format!("it needs {needs}");
    assert!(std::env::var_os("TOELINE_BROWSER").is_none_or(|value| value != "required"), "{said}");
    say(&said);
}

/// Says that the test which calls it is left out, and why.
pub(crate) fn say(why: &str) {
    let test = std::thread::current().name().unwrap_or("a test").to_owned();
    writeln!(std::io::stderr(), "{test} is left out: {why}").expect("standard error is open");
}

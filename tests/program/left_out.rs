//! Tests that need a program which the machine may lack.

use std::io::Write;

/// Says that the test which calls it is left out, past the harness, which hides what a test prints if it passes.
///
/// # Panics
///
/// If `TOELINE_BROWSER` is `required`, which `.ci/run` sets: there nothing may be left out.
pub(crate) fn left_out(needs: &str) {
    let test = std::thread::current().name().unwrap_or("a test").to_owned();
    let said = format!("{test} is left out: it needs {needs}");
    assert!(std::env::var_os("TOELINE_BROWSER").is_none_or(|value| value != "required"), "{said}");
    writeln!(std::io::stderr(), "{said}").expect("standard error is open");
}

//! Runs the built program.

use snapbox::cmd::{Command, cargo_bin};

/// The program, started at the top of the repository, with no colour.
pub(crate) fn toeline(arguments: &[&str]) -> Command {
    Command::new(cargo_bin!("toeline"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1")
        .args(arguments)
}

//! Runs the built program.

use std::path::PathBuf;

use snapbox::assert::DEFAULT_ACTION_ENV;
use snapbox::cmd::{Command, cargo_bin};
use snapbox::{Assert, Redactions};

/// The program, started at the top of the repository, with no colour.
///
/// Where its whole output is compared, a footer of [`cautions`] is one line. A footer that differs from all of
/// them in any letter stays as it is, and so differs from what is expected.
pub(crate) fn toeline(arguments: &[&str]) -> Command {
    Command::new(program())
        .with_assert(comparison())
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("NO_COLOR", "1")
        .args(arguments)
}

/// The program that the tests run: the one that was built with them, or where `TOELINE_PROGRAM` says.
pub(crate) fn program() -> PathBuf {
    std::env::var_os("TOELINE_PROGRAM").map_or_else(|| cargo_bin!("toeline").to_owned(), PathBuf::from)
}

/// How a whole output is compared.
pub(crate) fn comparison() -> Assert {
    let mut footers = Redactions::new();
    footers.extend(cautions()).expect("the names are capitals in brackets");
    Assert::new().action_env(DEFAULT_ACTION_ENV).redact_with(footers)
}

/// The cautions in full that an answer ends with, after what stands for them in whole outputs.
pub(crate) fn cautions() -> [(&'static str, String); 4] {
    let footer = |closed: &str| {
        format!(
            "Take care
- Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
  outside the kerb in lane 1.
{closed}- Look both ways before you step on to the track; give way to runners.
- Keep clear of throws and jumps in use, and of kerb and water-jump edges.
- Venue rules and staff come first. A qualified coach or a doctor judges load
  and pace."
        )
    };
    [
        ("[CAUTIONS]", ""),
        ("[CAUTIONS_LANE_ONE_CLOSED]", "- Closed lane 1 stays closed: do not run, walk or wait in it.\n"),
        (
            "[CAUTIONS_LANE_ONE_KEPT_FOR_RACES]",
            "- Closed lane 1 stays closed (kept for races): do not run, walk or wait in it.\n",
        ),
        (
            "[CAUTIONS_LANES_ONE_AND_TWO_CLOSED]",
            "- Closed lanes 1 and 2 stay closed: do not run, walk or wait in them.\n",
        ),
    ]
    .map(|(name, closed)| (name, footer(closed)))
}

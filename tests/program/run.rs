//! Runs the built program.

use std::path::PathBuf;

use snapbox::assert::DEFAULT_ACTION_ENV;
use snapbox::cmd::{Command, cargo_bin};
use snapbox::{Assert, Redactions};

/// The program, started at the top of the repository, with no colour.
///
/// Where its whole output is compared, a footer of [`cautions`] is one line, and so is what [`WRENBECK`] says again
/// and again. What differs from all of these in any letter stays as it is, and so differs from what is expected.
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
    let mut known = Redactions::new();
    known.extend(cautions()).expect("the names are capitals in brackets");
    known.extend(care()).expect("the names are capitals in brackets");
    known.extend(WRENBECK).expect("the names are capitals in brackets");
    Assert::new().action_env(DEFAULT_ACTION_ENV).redact_with(known)
}

/// What every session of the demonstration says of its track, after what stands for it in whole outputs.
const WRENBECK: [(&str, &str); 3] = [
    (
        "[WRENBECK_RULES]",
        "On this track
- Look both ways, then step on where you start.
- Run through the finish; step off to the right.
- No walking or standing in running lanes.
- Run anticlockwise; on the straights either way.
- Do not cross the infield.
- Runs over 400 m in lane 2.
- Runs of 120 m to 400 m in lanes 2 to 5.
- Runs up to 100 m in lanes 5 to 7 on the straights.
- Hurdles in lanes 6 and 7.
- Jogs and walks in lane 6.",
    ),
    (
        "[PASSES_WRENBECK_GATE]",
        "! Passes the gate outside (the changing rooms' gate): look for people stepping
  on to the track.",
    ),
    (
        "[PASSES_WRENBECK_JAVELIN]",
        "! Passes the javelin runway inside: look for a thrower on the run-up; wait until
  the throw has landed.",
    ),
];

/// The cautions in short that an answer ends with which lays nobody's evening out, after what stands for them.
pub(crate) fn care() -> [(&'static str, String); 3] {
    [
        ("[CARE]", ""),
        ("[CARE_LANE_ONE_CLOSED]", "! Closed lane 1 stays closed: do not run, walk or wait in it.\n"),
        (
            "[CARE_LANES_ONE_AND_TWO_CLOSED]",
            "! Closed lanes 1 and 2 stay closed: do not run, walk or wait in them.\n",
        ),
    ]
    .map(|(name, closed)| {
        let footer = format!(
            "{closed}Distances assume the measure line: 0.20 m outside a lane's inner line, 0.30 m
outside the kerb in lane 1. Look both ways; mind throws and jumps; venue rules
come first."
        );
        (name, footer)
    })
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

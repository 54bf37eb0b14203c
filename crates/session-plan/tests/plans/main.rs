//! Finished plans of squads: what they claim, and whether they keep their promises.

mod claims;

use session_plan::{Plan, SessionFile, Venue};
use workout_notation::SourceText;

/// The plan of a session file, on a track that comes with the crates.
fn planned(track: &str, session: &str) -> Plan {
    let track = lane_distance::Track::built_in(track).unwrap_or_else(|| panic!("no track `{track}`"));
    let source = SourceText { name: "session.yaml".to_owned(), text: session.to_owned() };
    let file = SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}\n{session}"));
    session_plan::plan(&Venue::from(track), &file.session).unwrap_or_else(|errors| panic!("{errors:?}"))
}

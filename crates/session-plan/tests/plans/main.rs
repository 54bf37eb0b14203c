//! Finished plans of squads: what they claim, and whether they keep their promises. The checker and the search
//! are those that the solver is tested with; here they read what a coach gets.

mod asked;
#[path = "../../../wave-plan/tests/squads/checker/mod.rs"]
mod checker;
mod claims;
#[path = "../../../wave-plan/tests/squads/dice.rs"]
mod dice;
mod evening;
mod finished;
mod handings;
mod promises;
#[path = "../../../wave-plan/tests/squads/search/mod.rs"]
mod search;

use session_plan::{Plan, SessionFile, Venue};
use workout_notation::SourceText;

/// The plan of a session file on a built-in track; nothing where it is refused.
fn planned(track: &str, session: &str) -> Option<Plan> {
    let track = lane_distance::Track::built_in(track).unwrap_or_else(|| panic!("no track `{track}`"));
    let source = SourceText::new("session.yaml", session);
    let file = SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}\n{session}"));
    let venue = Venue::from(track).with_closed(&file.closed_lanes).unwrap_or_else(|error| panic!("{error}"));
    session_plan::plan(&venue, &file.session).ok()
}

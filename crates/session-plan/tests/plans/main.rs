//! Finished plans of squads: what they claim, and whether they keep their promises. The checker and the search
//! are those that the solver is tested with; here they read what a coach gets.

mod asked;
#[path = "../../../wave-plan/tests/squads/checker/mod.rs"]
mod checker;
mod claims;
mod common_place;
#[path = "../../../wave-plan/tests/squads/dice.rs"]
mod dice;
mod evening;
mod finished;
mod handings;
mod hazards;
mod promises;
#[path = "../../../wave-plan/tests/squads/search/mod.rs"]
mod search;

use hazards::Hazard;
use session_plan::{Plan, SessionFile, Venue};
use workout_notation::SourceText;

/// The plan of a session file on a built-in track with some hazards; nothing where it is refused.
fn planned(track: &str, hazards: &[Hazard], session: &str) -> Option<Plan> {
    let built_in = concat!(env!("CARGO_MANIFEST_DIR"), "/../lane-distance/tracks");
    let text = std::fs::read_to_string(format!("{built_in}/{track}.yaml"))
        .unwrap_or_else(|error| panic!("no track `{track}`: {error}"));
    let source = SourceText::new("track.yaml", &(text + &hazards::of_track(hazards)));
    let venue = Venue::read(&source).unwrap_or_else(|error| panic!("{error:?}\n{}", source.text()));
    let source = SourceText::new("session.yaml", session);
    let file = SessionFile::read(source).unwrap_or_else(|problems| panic!("{problems}\n{session}"));
    let venue = venue.with_closed(&file.closed_lanes).unwrap_or_else(|error| panic!("{error}"));
    session_plan::plan(&venue, &file.session).ok()
}

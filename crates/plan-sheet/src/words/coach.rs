//! Where the coach stands, in words.

use lane_distance::Side;
use session_plan::CoachPlace;

use crate::words::spot::spot;

/// The place of the coach.
pub(crate) fn coach(place: &CoachPlace) -> String {
    let level = match &place.finish {
        None => "level with the finish line".to_owned(),
        Some(finish) => format!("level with the finish in lane {}: {}", finish.lane, spot(finish)),
    };
    match place.side {
        Side::Outside => format!("outside lane {}, {level}", place.lane),
        _ => format!("on the infield side of lane {}, {level}", place.lane),
    }
}

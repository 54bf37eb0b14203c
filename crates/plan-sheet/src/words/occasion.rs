//! When and where a session is, in words.

use lane_distance::LaneList;
use session_plan::Plan;

use crate::words::day::minute;
use crate::words::numbers::clock;

/// From when to when it is, or how long it lasts.
pub(crate) fn times(plan: &Plan) -> Option<String> {
    let about = if plan.is_about { "about " } else { "" };
    Some(match (plan.begins, plan.ends) {
        (Some(begins), Some(ends)) => format!("{} to {about}{}", minute(begins), minute(ends)),
        (Some(begins), None) => format!("from {}", minute(begins)),
        (None, _) => format!("lasts {about}{}", clock(plan.lasts_s?)),
    })
}

/// What the track is called, and what is closed there.
pub(crate) fn track(plan: &Plan) -> String {
    match plan.track.closed_lanes.as_slice() {
        [] => plan.track.name.clone(),
        closed => format!("{}, {} closed", plan.track.name, LaneList(closed)),
    }
}

//! When and where a session is.

use crate::words::numbers::clock;
use lane_distance::LaneList;
use session_plan::Plan;

use crate::words::day;

/// When and where a session is, in words that every view shares.
pub(crate) struct Occasion {
    /// The day.
    pub(crate) date: Option<String>,
    /// From when to when it is, or how long it lasts.
    pub(crate) times: Option<String>,
    /// What the track is called, and what is closed there.
    pub(crate) track: String,
    /// The wind.
    pub(crate) wind: Option<String>,
}

impl Occasion {
    pub(crate) fn of(plan: &Plan) -> Self {
        let times = match (plan.begins, plan.ends, plan.lasts_s) {
            (Some(begins), Some(ends), _) => {
                Some(format!("{} to {}", day::minute(begins), day::minute(ends)))
            }
            (Some(begins), None, _) => Some(format!("from {}", day::minute(begins))),
            (None, _, Some(lasts_s)) => Some(format!("lasts {}", clock(lasts_s))),
            (None, _, None) => None,
        };
        Self {
            date: plan.date.map(day::in_words),
            times,
            track: match plan.track.closed_lanes.as_slice() {
                [] => plan.track.name.clone(),
                closed => format!("{}, {} closed", plan.track.name, LaneList(closed)),
            },
            wind: plan.wind.clone(),
        }
    }
}

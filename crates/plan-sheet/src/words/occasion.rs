//! When and where a session is.

use session_plan::Plan;
use session_plan::plan_words::clock;

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
            track: match plan.track.closed_words() {
                Some(closed) => format!("{}, {closed}", plan.track.name),
                None => plan.track.name.clone(),
            },
            wind: plan.wind.clone(),
        }
    }
}

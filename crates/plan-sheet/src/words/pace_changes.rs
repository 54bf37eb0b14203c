//! Where runs change from fast to easy, in words.

use lane_distance::LaneNumber;
use session_plan::{PaceChange, Plan, PlanBlock};

use crate::words::numbers::to_cm;
use crate::words::spot::spot;

/// Where the runs of a block change from fast to easy or back, a line for each lane and distance: `Change in lane 3: at
/// 50 m, cone 2; at 100 m, on the 5th green tick`.
pub(crate) fn pace_changes(plan: &Plan, block: &PlanBlock) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for rep in block.reps.iter().filter(|rep| !rep.pace_changes.is_empty()) {
        let line = in_lane(plan, rep.lane, &rep.pace_changes);
        if !lines.contains(&line) {
            lines.push(line);
        }
    }
    lines
}

fn in_lane(plan: &Plan, lane: LaneNumber, changes: &[PaceChange]) -> String {
    let words = |change: &PaceChange| {
        // The list of cones says where each stands.
        let place = match plan.cone_on(&change.spot) {
            Some(cone) => format!("cone {cone}"),
            None => spot(&change.spot),
        };
        format!("at {} m, {place}", to_cm(change.from_start_m))
    };
    format!("Change in lane {lane}: {}.", changes.iter().map(words).collect::<Vec<_>>().join("; "))
}

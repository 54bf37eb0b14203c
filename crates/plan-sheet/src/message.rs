//! Plans as a message.

use lane_distance::LaneList;
use session_plan::Plan;

use crate::plan_lines::{Marks, lines};

/// Plans as a message that can be sent: CommonMark that reads well where nothing renders it, too.
///
/// Whatever was written in a session or track file comes out as text, never as a mark.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Block, Session, Venue};
///
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let block = Block::parse("6 x 200 in lane 2").expect("it is well formed");
/// let plan = session_plan::plan(&venue, &Session::of_block("6 x 200 *easy*", block)).expect("lane 2 is open");
/// let message = plan_sheet::message(&[plan]);
/// assert!(message.starts_with("# 6 x 200 \\*easy\\*\n"));
/// assert!(message.contains("- runs 1 to 6, 200 m in lane 2: start on the 200 m start line"));
/// ```
pub fn message(plans: &[Plan]) -> String {
    plans.iter().map(one).collect::<Vec<_>>().join("\n")
}

fn one(plan: &Plan) -> String {
    let marks = Marks::Markdown;
    let mut head = format!("# {}\n\n", marks.text(&plan.title));
    if let Some(date) = plan.date {
        head += &date.format("%A %-d %B %Y").to_string();
        if let Some(begins) = plan.begins {
            head += &format!(", {}", begins.format("%H:%M"));
        }
        if let Some(ends) = plan.ends {
            head += &format!(" to {}", ends.format("%H:%M"));
        }
        head += ". ";
    }
    head += &format!("Track: {}", marks.text(&plan.track.name));
    if !plan.track.closed_lanes.is_empty() {
        head += &format!(", {} closed", LaneList(&plan.track.closed_lanes));
    }
    format!("{head}.\n\n{}\n", lines(plan, marks))
}

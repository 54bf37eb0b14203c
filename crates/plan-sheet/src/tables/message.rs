//! Plans as a message.

use session_plan::Plan;

use crate::tables::plan_lines::{Marks, lines};
use crate::words::occasion::Occasion;

/// Plans as a message that can be sent: CommonMark that reads well where nothing renders it, too.
///
/// Whatever was written in a session or track file comes out as text, never as a mark.
///
/// ```
/// use lane_distance::Track;
/// use session_plan::{Session, Venue};
/// use workout_notation::Block;
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
    let occasion = Occasion::of(plan);
    let date = occasion.date.map_or_else(String::new, |date| {
        let times = occasion.times.map_or_else(String::new, |times| format!(", {times}"));
        format!("{date}{times}. ")
    });
    let track = marks.text(&occasion.track);
    format!("# {}\n\n{date}Track: {track}.\n\n{}\n", marks.text(&plan.title), lines(plan, marks))
}

//! Plans as a message.

use session_plan::Plan;

use crate::tables::plan_lines::{Marks, lines};
use crate::words::occasion::Occasion;

/// Plans as a message that can be sent: CommonMark that reads well where nothing renders it, too.
///
/// Whatever was written in a session or track file comes out as text, never as a mark.
pub(crate) fn message(plans: &[Plan]) -> String {
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

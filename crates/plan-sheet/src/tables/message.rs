//! Plans as a message.

use session_plan::Plan;

use crate::formats::planned::Planned;
use crate::sheet::sheet::Sheet;
use crate::tables::plan_lines::{Marks, lines};
use crate::tables::week_message::week_message;

/// Plans as a message that can be sent, a week in front: CommonMark that reads well where nothing renders it, too.
///
/// Whatever was written in a session or track file comes out as text, never as a mark.
pub(crate) fn message(planned: Planned<'_>) -> String {
    let week = planned.week.map(week_message);
    week.into_iter().chain(planned.plans.iter().map(one)).collect::<Vec<_>>().join("\n")
}

fn one(plan: &Plan) -> String {
    let marks = Marks::Markdown;
    let sheet = Sheet::of(plan);
    let date = sheet.date.as_ref().map_or_else(String::new, |date| {
        let times = sheet.times.as_ref().map_or_else(String::new, |times| format!(", {times}"));
        format!("{date}{times}. ")
    });
    let track = marks.text(&sheet.track);
    let changed = sheet.changed.as_ref().map_or_else(String::new, |line| format!("{}\n\n", marks.text(line)));
    format!("{changed}# {}\n\n{date}Track: {track}.\n\n{}\n", marks.text(&sheet.title), lines(&sheet, marks))
}

//! A plan as plain lines, for places that keep no columns.

use lane_distance::LaneList;
use session_plan::plan_words::clock;
use session_plan::{Plan, PlanBlock};

use crate::board::{athletes, is_board};
use crate::plan_text::{rows, sure};

/// Lines that can be read on a narrow screen in any type: no table, no terminal codes.
pub(crate) fn lines(plan: &Plan) -> String {
    let mut parts: Vec<String> =
        (1..).zip(&plan.blocks).map(|(number, block)| block_lines(number, block)).collect();
    if let Some(wind) = &plan.wind {
        parts.insert(0, format!("Wind: {wind}"));
    }
    for (title, lines) in [
        ("Please note", [plan.notes.as_slice(), &plan.warnings].concat()),
        ("On this track", plan.etiquette.clone()),
        ("Take care", plan.cautions.clone()),
    ] {
        if !lines.is_empty() {
            let lines: Vec<String> = lines.iter().map(|line| format!("- {line}")).collect();
            parts.push(format!("{title}\n{}", lines.join("\n")));
        }
    }
    parts.join("\n\n")
}

fn block_lines(number: usize, block: &PlanBlock) -> String {
    let whom = block.group.as_ref().map_or_else(String::new, |group| format!(", {group}"));
    let mut lines = vec![format!("{number}{whom}: {}", block.text.trim())];
    for row in rows(block) {
        let rep = row.first;
        let mut line = format!(
            "- {}, {} m in {}: start {}, finish {}",
            if row.from == row.last { format!("run {}", row.last) } else { format!("runs {}", row.reps()) },
            sure(rep.distance_m, rep.plus_minus_m),
            LaneList(&row.lanes),
            rep.start.words,
            rep.finish.words
        );
        if let Some(run_in) = &rep.run_in {
            line += &format!(", run-in {}", run_in.words);
        }
        match (rep.target_from_s.or(rep.target_s), rep.target_from_s.and(rep.target_s)) {
            (Some(from_s), Some(to_s)) => line += &format!(", in {} to {}", clock(from_s), clock(to_s)),
            (Some(target_s), None) => line += &format!(", in {}", clock(target_s)),
            _ => {}
        }
        if let Some(rest_s) = rep.rest_s {
            line += &format!(", then rest {}", clock(rest_s));
        }
        lines.push(line);
    }
    if is_board(block) {
        lines.extend(athletes(block).iter().map(|line| format!("- {line}")));
    }
    lines.extend(block.remarks.iter().map(|remark| format!("! {remark}")));
    lines.join("\n")
}

//! A plan on a terminal.

use std::collections::BTreeSet;

use lane_distance::LaneList;
use session_plan::{Plan, PlanBlock, Rep, SetupItem};

use crate::table::{heading, item, table};

/// The coach's question first: where do I stand, where do they finish.
pub(crate) fn text(plan: &Plan) -> String {
    let mut parts = vec![title(plan)];
    for (number, block) in (1..).zip(&plan.blocks) {
        parts.push(block_text(number, block));
    }
    parts.extend(notes("Please note", &plan.warnings));
    parts.push(setup(plan));
    parts.extend(notes("On this track", &plan.etiquette));
    parts.extend(notes("Take care", &plan.cautions));
    parts.join("\n\n") + "\n"
}

fn title(plan: &Plan) -> String {
    let mut line = heading(&plan.title);
    if let Some(date) = plan.date {
        line += &format!(", {}", date.format("%A %-d %B %Y"));
    }
    let closed = match plan.track.closed_lanes.as_slice() {
        [] => String::new(),
        closed => format!(", {} closed", LaneList(closed)),
    };
    format!("{line}\nTrack: {}{closed}", plan.track.name)
}

fn block_text(number: usize, block: &PlanBlock) -> String {
    let rows = rows(block);
    let timed = rows.iter().any(|row| row.first.target_s.is_some() || row.first.rest_s.is_some());
    let mut header = vec!["Reps", "Lane", "Metres", "Stand", "Finish"];
    if timed {
        header.extend(["Target", "Rest"]);
    }
    let cells = rows.iter().map(|row| {
        let rep = row.first;
        let mut cells = vec![
            row.reps(),
            numbers(&row.lanes),
            sure(rep.distance_m, rep.plus_minus_m),
            rep.start.words.clone(),
            rep.finish.words.clone(),
        ];
        if timed {
            cells.push(rep.target_s.map_or_else(String::new, clock));
            cells.push(rep.rest_s.map_or_else(String::new, clock));
        }
        cells
    });
    let lanes = block.reps.iter().map(|rep| rep.lane).collect::<BTreeSet<_>>().len();
    let total_m: f64 = block.reps.iter().map(|rep| rep.distance_m).sum();
    let each = if lanes > 1 { " in each lane" } else { "" };
    let mut text = format!(
        "{}\n{}\nTotal {} m{each}.",
        heading(&format!("Block {number}: {}", block.text.trim())),
        table(&header, &[2], cells),
        metres(total_m / lanes.max(1) as f64),
    );
    if block.reps.iter().any(|rep| rep.the_other_way) {
        text += " Run the other way: towards the start of the straight.";
    }
    let cautions: BTreeSet<&str> =
        block.reps.iter().flat_map(|rep| &rep.cautions).map(String::as_str).collect();
    for caution in cautions {
        text += &format!("\n{}", item("!", caution));
    }
    text
}

/// A distance, with how sure it is where that matters on the ground.
pub(crate) fn sure(distance_m: f64, plus_minus_m: f64) -> String {
    if plus_minus_m < SHOWN_FROM_M {
        metres(distance_m)
    } else {
        format!("{} ±{plus_minus_m:.1}", metres(distance_m))
    }
}

/// A plus or minus is shown from here on, in metres.
const SHOWN_FROM_M: f64 = 0.1;

/// Repetitions that are alike but for their number and lane.
struct Row<'a> {
    first: &'a Rep,
    last: u32,
    lanes: Vec<u8>,
}

impl Row<'_> {
    fn reps(&self) -> String {
        if self.first.rep == self.last {
            self.last.to_string()
        } else {
            format!("{} to {}", self.first.rep, self.last)
        }
    }
}

fn rows(block: &PlanBlock) -> Vec<Row<'_>> {
    let mut rows: Vec<Row<'_>> = Vec::new();
    for rep in &block.reps {
        let like = |row: &&mut Row<'_>| {
            let first = row.first;
            first.lane == rep.lane
                && first.start == rep.start
                && first.finish == rep.finish
                && first.target_s == rep.target_s
                // The last repetition has no rest after it; that needs no row of its own.
                && (first.rest_s == rep.rest_s || rep.rest_s.is_none())
                && row.last + 1 == rep.rep
        };
        match rows.iter_mut().find(like) {
            Some(row) => row.last = rep.rep,
            None => rows.push(Row { first: rep, last: rep.rep, lanes: vec![rep.lane] }),
        }
    }
    rows.sort_by_key(|row| (row.first.rep, row.first.lane));
    // Lanes side by side whose spots are said in the same words share a row.
    rows.dedup_by(|next, row| {
        let (a, b) = (row.first, next.first);
        let alike = (a.rep, row.last) == (b.rep, next.last)
            && (&a.start.words, &a.finish.words) == (&b.start.words, &b.finish.words)
            && (a.distance_m, a.target_s, a.rest_s) == (b.distance_m, b.target_s, b.rest_s);
        if alike {
            row.lanes.append(&mut next.lanes);
        }
        alike
    });
    rows
}

/// Lanes without the word: `2 to 5`.
fn numbers(lanes: &[u8]) -> String {
    let list = LaneList(lanes).to_string();
    list.trim_start_matches("lanes ").trim_start_matches("lane ").to_owned()
}

fn setup(plan: &Plan) -> String {
    let mut groups: Vec<(&SetupItem, Vec<u8>, u32)> = Vec::new();
    for item in &plan.setup {
        match groups.last_mut() {
            Some((first, lanes, last))
                if (&first.what, &first.serves, &first.spot.words)
                    == (&item.what, &item.serves, &item.spot.words) =>
            {
                lanes.push(item.spot.lane);
                *last = item.order;
            }
            _ => groups.push((item, vec![item.spot.lane], item.order)),
        }
    }
    let rows = groups.iter().map(|(item, lanes, last)| {
        vec![
            if item.order == *last { last.to_string() } else { format!("{} to {last}", item.order) },
            item.what.to_owned(),
            numbers(lanes),
            item.spot.words.clone(),
            item.serves.clone(),
        ]
    });
    let table = table(&["", "Set out", "Lane", "Where", "For"], &[0], rows);
    format!("{}\n{table}", heading("One lap from the finish line sets it out"))
}

fn notes(title: &str, lines: &[String]) -> Option<String> {
    let items: Vec<String> = lines.iter().map(|line| item("-", line)).collect();
    (!items.is_empty()).then(|| format!("{}\n{}", heading(title), items.join("\n")))
}

/// Metres without needless decimals.
pub(crate) fn metres(metres: f64) -> String {
    let text = format!("{metres:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A duration as a stopwatch shows it.
pub(crate) fn clock(seconds: f64) -> String {
    if seconds < 60.0 {
        return format!("{} s", metres((seconds * 10.0).round() / 10.0));
    }
    let tenths = (seconds * 10.0).round() as u64;
    let (minutes, rest) = (tenths / 600, tenths % 600);
    if rest % 10 == 0 {
        format!("{minutes}:{:02}", rest / 10)
    } else {
        format!("{minutes}:{:02}.{}", rest / 10, rest % 10)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_read_like_a_stopwatch() {
        let shown = [48.0, 48.25, 60.0, 90.0, 72.5, 179.97].map(clock);
        assert_eq!(shown, ["48 s", "48.3 s", "1:00", "1:30", "1:12.5", "3:00"]);
    }
}

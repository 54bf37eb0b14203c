//! A squad's block on a terminal: who goes when, and what each athlete does.

use chrono::NaiveTime;
use lane_distance::LaneNumber;
use session_plan::ConeLabel;

use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::lane_choice;
use crate::terminal::table::{columns, heading, item};
use crate::words::athlete::athletes;
use crate::words::cone::at_cones;
use crate::words::day::time_at;
use crate::words::wave_words::WHO_GOES_WHEN;

/// The waves of a block in the order of their starts, with the clock, who runs where, and when they
/// should be in; then each athlete in a line.
pub(crate) fn board(block: &SheetBlock, begins: Option<NaiveTime>) -> String {
    let has_go = block.rows.iter().any(|row| row.go.is_some());
    let runs: Vec<&[SheetRow]> = block.runs().collect();
    let table = columns(
        &runs,
        "",
        &[
            (has_go, "Go", &|run| run[0].go.clone().unwrap_or_default()),
            (true, "Rep", &|run| run[0].rep.to_string()),
            (true, "Wave", &|run| run[0].wave.to_string()),
            (true, "Lane: who", &|run| who(run)),
            (true, "From", &|run| from(run)),
            (has_go, "In at", &|run| done(run, begins)),
        ],
    );
    let mut text = format!("{}\n{table}", heading(WHO_GOES_WHEN));
    for line in athletes(block) {
        text += &format!("\n{}", item("-", &line));
    }
    text
}

/// Who runs in which lane; those who share several lanes choose.
fn who(run: &[SheetRow]) -> String {
    let mut shared: Vec<(Vec<LaneNumber>, &[String])> = Vec::new();
    for row in run {
        match shared.iter_mut().find(|(_, athletes)| *athletes == row.athletes) {
            Some((lanes, _)) => lanes.push(row.lane),
            None => shared.push((vec![row.lane], &row.athletes)),
        }
    }
    let words =
        shared.iter().map(|(lanes, athletes)| format!("{}: {}", lane_choice(lanes), athletes.join(", ")));
    words.collect::<Vec<_>>().join("; ")
}

/// Where a wave starts: at cones, whose places stand above, or at paint that is called alike in all its lanes.
fn from(run: &[SheetRow]) -> String {
    let cone = |row: &SheetRow| if row.run_in.is_some() { row.run_in_cone } else { row.start_cone };
    let cones: Vec<ConeLabel> = run.iter().filter_map(cone).collect();
    let has_baton = run.iter().any(|row| row.baton.is_some());
    if cones.len() == run.len() && !has_baton {
        return at_cones(&cones).unwrap_or_default();
    }
    if run.iter().all(|row| row.from == run[0].from) { run[0].from.clone() } else { "as above".to_owned() }
}

/// When the first and the last are in.
fn done(run: &[SheetRow], begins: Option<NaiveTime>) -> String {
    let Some(last_s) = run.iter().filter_map(|row| row.done_s).reduce(f64::max) else { return String::new() };
    let first_s = run.iter().filter_map(|row| row.in_from_s).fold(last_s, f64::min);
    match (time_at(begins, first_s), time_at(begins, last_s)) {
        (first, last) if first == last => last,
        (first, last) => format!("{first} to {last}"),
    }
}

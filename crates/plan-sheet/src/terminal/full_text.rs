//! All of a plan on a terminal.

use chrono::NaiveTime;
use lane_distance::LaneList;
use session_plan::ConeLabel;

use crate::sheet::cone_row::{self, ConeRow};
use crate::sheet::place_row::PlaceRow;
use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::sheet_row::SheetRow;
use crate::sheet::spans::joined;
use crate::terminal::board::board;
use crate::terminal::table::{WIDTH, columns, heading, item, list, wrapped};
use crate::words::block_words::{the_other_way, ways};
use crate::words::cone::at_cones;
use crate::words::wave_words::goes;
use crate::words::{block_words, capital};

/// The coach's question first: where do I stand, where do they finish.
pub(crate) fn text(sheet: &Sheet) -> String {
    let mut parts = vec![title(sheet)];
    parts.extend(sheet.blocks.iter().map(|block| block_text(block, sheet.begins)));
    parts.extend(list("Please note", &sheet.notes));
    parts.extend((!sheet.cones.is_empty()).then(|| setup(sheet)));
    parts.extend(sheet.no_cones.map(str::to_owned));
    parts.extend(list("On this track", &sheet.etiquette));
    parts.extend(list("Take care", &sheet.cautions));
    parts.join("\n\n") + "\n"
}

fn title(sheet: &Sheet) -> String {
    let date = sheet.date.as_ref().map_or_else(String::new, |date| format!(", {date}"));
    let mut lines: Vec<String> = sheet
        .changed
        .iter()
        .map(|changed| format!("{}\n", wrapped(changed, WIDTH.into()).join("\n")))
        .collect();
    lines.extend([format!("{}{date}", heading(&sheet.title)), format!("Track: {}", sheet.track)]);
    lines.extend(sheet.times.as_deref().map(capital));
    lines.extend(sheet.overrun.iter().map(|line| item("!", line)));
    lines.extend(sheet.wind.as_ref().map(|wind| format!("Wind: {wind}")));
    lines.join("\n")
}

fn block_text(block: &SheetBlock, begins: Option<NaiveTime>) -> String {
    let mut parts = vec![heading(&block_words::title(block))];
    parts.extend(block.unsure.iter().chain(&block.impossible).map(|line| item("!", line)));
    if block.rows.is_empty() {
        let lasts = block.lasts.as_ref();
        parts.push(lasts.map_or_else(|| "No set place.".to_owned(), |lasts| format!("Lasts {lasts}.")));
    } else {
        let rows = block.places_and_times();
        parts.push(places(block, &rows));
        parts.extend(block.total.clone());
        if block.has_names() {
            parts.push(format!("\n{}", board(block, begins)));
        } else if !has_go_of_each(&rows) {
            parts.extend(block.waves.first().and_then(|wave| goes(wave, begins)));
        }
        parts.extend(run_lines(block, &rows).iter().map(|line| item("-", line)));
    }
    parts.extend(block.remarks.iter().chain(&block.cautions).map(|line| item("!", line)));
    parts.join("\n")
}

/// What there is to know of the runs that has no column.
fn run_lines(block: &SheetBlock, rows: &[PlaceRow]) -> Vec<String> {
    let splits = block_words::splits(block);
    let coach = block.coach.as_deref().map(block_words::coach);
    the_other_way(rows).into_iter().chain(splits).chain(ways(block, rows)).chain(coach).collect()
}

/// Whether each row is one run, where start times tell most.
fn has_go_of_each(rows: &[PlaceRow]) -> bool {
    rows.len() > 1 && rows.iter().all(|row| row.reps.len() == 1 && row.run.go.is_some())
}

/// Where its runs start and finish, with the columns that the block needs.
fn places(block: &SheetBlock, rows: &[PlaceRow]) -> String {
    // A squad's times are its athletes', and stand with them.
    let has_times = !block.has_names();
    let any = |has: fn(&SheetRow) -> bool| has_times && rows.iter().any(|row| has(&row.run));
    // The waves below name the cones alone.
    let place = |cones: &[ConeLabel], words: &str| match at_cones(cones).filter(|_| !has_times) {
        Some(cones) => format!("{cones}: {words}"),
        None => words.to_owned(),
    };
    columns(
        rows,
        "Metres",
        &[
            (any(|run| run.set > 1), "Set", &|row| row.run.set.to_string()),
            (true, "Reps", &|row| joined(&row.reps)),
            (true, "Lane", &|row| LaneList(&row.lanes).numbers()),
            (true, "Metres", &|row| row.run.metres.clone()),
            (true, "Stand", &|row| place(&row.stand_cones, &row.run.stand)),
            (rows.iter().any(|row| row.run.fast_from.is_some()), "Fast from", &|row| {
                row.run.fast_from.as_ref().map(|start| place(&row.start_cones, start)).unwrap_or_default()
            }),
            (true, "Finish", &|row| place(&row.finish_cones, &row.run.finish)),
            (any(|run| run.target_time().is_some()), "Target", &|row| {
                row.run.target_time().unwrap_or_default().to_owned()
            }),
            (any(|run| run.rest.is_some()), "Rest", &|row| row.run.rest.clone().unwrap_or_default()),
            (has_times && has_go_of_each(rows), "Go at", &|row| row.run.go.clone().unwrap_or_default()),
        ],
    )
}

fn setup(sheet: &Sheet) -> String {
    let groups: Vec<&[ConeRow]> = cone_row::cone_groups(&sheet.cones).collect();
    let table = columns(
        &groups,
        "Cone",
        &[
            (true, "Cone", &|cones| cone_row::labels(cones)),
            (true, "Lane", &|cones| LaneList(&cone_row::lanes(cones)).numbers()),
            (true, "Where", &|cones| cones[0].place.clone()),
            (sheet.stride.is_some(), "Steps", &|cones| cones[0].steps.clone().unwrap_or_default()),
            (true, "For", &|cones| cones[0].serves.clone()),
        ],
    );
    let stride = sheet.stride.as_ref().map_or_else(String::new, |stride| format!("\n{stride}"));
    format!("{}\n{table}\n{}{stride}", heading(sheet.walk_title), sheet.walk)
}

//! A plan on a terminal.

use chrono::NaiveTime;
use lane_distance::LaneList;

use crate::sheet::cone_row::{self, ConeRow};
use crate::sheet::place_row::PlaceRow;
use crate::sheet::sheet::Sheet;
use crate::sheet::sheet_block::SheetBlock;
use crate::sheet::spans::joined;
use crate::terminal::board::board;
use crate::terminal::table::{heading, item, table};
use crate::words::{block_words, capital};

/// The coach's question first: where do I stand, where do they finish.
pub(crate) fn text(sheet: &Sheet) -> String {
    let mut parts = vec![title(sheet)];
    parts.extend(sheet.blocks.iter().map(|block| block_text(block, sheet.begins)));
    parts.extend(notes("Please note", &sheet.notes));
    parts.extend((!sheet.cones.is_empty()).then(|| setup(sheet)));
    parts.extend(notes("On this track", &sheet.etiquette));
    parts.extend(notes("Take care", &sheet.cautions));
    parts.join("\n\n") + "\n"
}

fn title(sheet: &Sheet) -> String {
    let date = sheet.date.as_ref().map_or_else(String::new, |date| format!(", {date}"));
    let mut lines = vec![format!("{}{date}", heading(&sheet.title)), format!("Track: {}", sheet.track)];
    lines.extend(sheet.times.as_deref().map(capital));
    lines.extend(sheet.wind.as_ref().map(|wind| format!("Wind: {wind}")));
    lines.join("\n")
}

fn block_text(block: &SheetBlock, begins: Option<NaiveTime>) -> String {
    let mut parts = vec![heading(&block_words::title(block))];
    if block.rows.is_empty() {
        let lasts = block.lasts.as_ref();
        parts.push(lasts.map_or_else(|| "No set place.".to_owned(), |lasts| format!("Lasts {lasts}.")));
    } else {
        let rows = block.places_and_times();
        let columns = if block.has_names() { Columns::default() } else { Columns::of(&rows) };
        let cells = rows.iter().map(|row| columns.cells(row));
        parts.push(table(&columns.header(), &columns.right(), cells));
        parts.push(block_words::total(block));
        if block.has_names() {
            parts.push(format!("\n{}", board(block, begins)));
        }
        parts.extend(run_lines(block, &rows).iter().map(|line| item("-", line)));
    }
    parts.extend(block.remarks.iter().chain(&block.cautions).map(|line| item("!", line)));
    parts.join("\n")
}

/// What there is to know of the runs that has no column.
fn run_lines(block: &SheetBlock, rows: &[PlaceRow]) -> Vec<String> {
    let mut lines = Vec::new();
    if rows.iter().any(|row| row.run.the_other_way) {
        lines.push("Run the other way: towards the start of the straight.".to_owned());
    }
    lines.extend(block_words::splits(block));
    for row in rows {
        let Some(run_in) = &row.run.run_in else { continue };
        let of = if row.is_throughout { String::new() } else { format!(" of run {}", joined(&row.reps)) };
        lines.push(format!("Run-in{of} in {}: {run_in}", LaneList(&row.lanes)));
    }
    lines.extend(block.coach.as_ref().map(|coach| format!("Coach: {coach}.")));
    lines
}

/// The columns that a block needs.
#[derive(Default)]
struct Columns {
    sets: bool,
    targets: bool,
    rests: bool,
    go: bool,
}

impl Columns {
    fn of(rows: &[PlaceRow]) -> Self {
        Self {
            sets: rows.iter().any(|row| row.run.set > 1),
            targets: rows.iter().any(|row| row.run.target_time().is_some()),
            rests: rows.iter().any(|row| row.run.rest.is_some()),
            // Start times tell most where each row is one run.
            go: rows.len() > 1 && rows.iter().all(|row| row.reps.len() == 1 && row.run.go.is_some()),
        }
    }

    fn header(&self) -> Vec<&'static str> {
        let all = [
            (self.sets, "Set"),
            (true, "Reps"),
            (true, "Lane"),
            (true, "Metres"),
            (true, "Stand"),
            (true, "Finish"),
            (self.targets, "Target"),
            (self.rests, "Rest"),
            (self.go, "Go at"),
        ];
        all.into_iter().filter(|(is_there, _)| *is_there).map(|(_, name)| name).collect()
    }

    fn right(&self) -> [usize; 1] {
        [if self.sets { 3 } else { 2 }]
    }

    fn cells(&self, row: &PlaceRow) -> Vec<String> {
        let run = &row.run;
        let all = [
            (self.sets, run.set.to_string()),
            (true, joined(&row.reps)),
            (true, LaneList(&row.lanes).numbers()),
            (true, run.metres.clone()),
            (true, run.start.clone()),
            (true, run.finish.clone()),
            (self.targets, run.target_time().unwrap_or_default().to_owned()),
            (self.rests, run.rest.clone().unwrap_or_default()),
            (self.go, run.go.clone().unwrap_or_default()),
        ];
        all.into_iter().filter(|(is_there, _)| *is_there).map(|(_, cell)| cell).collect()
    }
}

fn setup(sheet: &Sheet) -> String {
    let has_steps = sheet.stride.is_some();
    let rows = cone_row::cone_groups(&sheet.cones).map(|cones| {
        let ConeRow { place, steps, serves, .. } = &cones[0];
        let mut cells = vec![
            cone_row::numbers(cones),
            LaneList(&cone_row::lanes(cones)).numbers(),
            place.clone(),
            serves.clone(),
        ];
        if has_steps {
            cells.insert(3, steps.clone().unwrap_or_default());
        }
        cells
    });
    let header: &[&str] = if has_steps {
        &["Cone", "Lane", "Where", "Steps", "For"]
    } else {
        &["Cone", "Lane", "Where", "For"]
    };
    let stride = sheet.stride.as_ref().map_or_else(String::new, |stride| format!("\n{stride}"));
    format!("{}\n{}\n{}{stride}", heading(sheet.walk_title), table(header, &[0], rows), sheet.walk)
}

fn notes(title: &str, lines: &[String]) -> Option<String> {
    let items: Vec<String> = lines.iter().map(|line| item("-", line)).collect();
    (!items.is_empty()).then(|| format!("{}\n{}", heading(title), items.join("\n")))
}

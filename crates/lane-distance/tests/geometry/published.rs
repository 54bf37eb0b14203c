//! Reads the tables of published values under `tests/reference`.

use std::collections::HashMap;

/// One row, by the names of its columns.
pub(crate) type Row = HashMap<&'static str, String>;

/// The rows of a table whose first line names the columns; a quoted cell may hold commas.
pub(crate) fn rows(table: &'static str) -> Vec<Row> {
    let mut lines = table.lines();
    let columns: Vec<&str> = lines.next().expect("a table names its columns").split(',').collect();
    lines
        .map(|line| {
            let cells = cells(line);
            assert_eq!(cells.len(), columns.len(), "a row with another number of cells: {line}");
            columns.iter().copied().zip(cells).collect()
        })
        .collect()
}

/// Where a row is published and how it came here, to be said beside a difference.
pub(crate) fn source(row: &Row) -> String {
    match row["how"].as_str() {
        how if how.starts_with("memory") => format!("{}, from {how}", row["source"]),
        how => format!("{}, {how}", row["source"]),
    }
}

fn cells(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut is_quoted = false;
    for letter in line.chars() {
        match letter {
            '"' => is_quoted = !is_quoted,
            ',' if !is_quoted => cells.push(String::new()),
            _ => cells.last_mut().expect("there is a first cell").push(letter),
        }
    }
    cells
}

//! Tables without rules, for views that must fit a screen.

use crate::terminal::table::{WIDTH, heading, wrapped};

/// No column is made narrower than this, in characters.
const NARROWEST: usize = 8;

/// A table without rules, whose columns are as wide as what stands in them.
pub(crate) struct PackedTable {
    /// The lines of the names of the columns.
    pub(crate) header: Vec<String>,
    /// The lines of each row.
    pub(crate) rows: Vec<Vec<String>>,
}

impl PackedTable {
    /// A table of rows of cells, each of a line or several; columns in which nothing stands are left out. Where a row
    /// would be too long, the widest columns are broken at spaces.
    pub(crate) fn new(header: &[&str], rows: &[Vec<String>]) -> Self {
        let shown: Vec<usize> =
            (0..header.len()).filter(|&column| rows.iter().any(|row| !row[column].is_empty())).collect();
        let natural = |column: usize| {
            let cells = rows.iter().flat_map(|row| row[column].lines()).chain([header[column]]);
            cells.map(|line| line.chars().count()).max().unwrap_or_default()
        };
        let mut widths: Vec<usize> = shown.iter().map(|&column| natural(column)).collect();
        let gaps = shown.len().saturating_sub(1);
        let room = |gap: usize| usize::from(WIDTH).saturating_sub(gap * gaps);
        let gap = if widths.iter().sum::<usize>() <= room(2) || widths.iter().sum::<usize>() > room(1) {
            2
        } else {
            1
        };
        while widths.iter().sum::<usize>() > room(gap) {
            match widths.iter_mut().max().filter(|width| **width > NARROWEST) {
                Some(width) => *width -= 1,
                None => break,
            }
        }
        let line = |cells: Vec<String>| {
            let padded: Vec<String> =
                cells.iter().zip(&widths).map(|(cell, &width)| format!("{cell:width$}")).collect();
            padded.join(&" ".repeat(gap)).trim_end().to_owned()
        };
        let row = |row: &Vec<String>| -> Vec<String> {
            let cells: Vec<Vec<String>> = (shown.iter().zip(&widths))
                .map(|(&column, &width)| row[column].lines().flat_map(|line| wrapped(line, width)).collect())
                .collect();
            let height = cells.iter().map(Vec::len).max().unwrap_or_default();
            let cell = |lines: &Vec<String>, at: usize| lines.get(at).cloned().unwrap_or_default();
            (0..height).map(|at| line(cells.iter().map(|lines| cell(lines, at)).collect())).collect()
        };
        let names: Vec<String> = header.iter().map(|&name| name.to_owned()).collect();
        Self {
            header: row(&names).iter().map(|line| heading(line)).collect(),
            rows: rows.iter().map(row).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_leaves_out_empty_columns_and_breaks_the_widest() {
        let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
        let long = "word ".repeat(20);
        let table =
            PackedTable::new(&["Go", "Rest", "Who"], &[row(["0 s", "", "Ada"]), row(["9 s", "", &long])]);
        assert_eq!(table.header, [heading("Go   Who")]);
        assert_eq!(table.rows[0], ["0 s  Ada"]);
        assert_eq!(table.rows[1].len(), 2);
        assert!(table.rows[1].iter().all(|line| line.chars().count() <= 80));
    }
}

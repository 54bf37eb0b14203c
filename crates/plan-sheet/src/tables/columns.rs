//! The columns of a table for spreadsheets.

use lane_distance::Placement;

use crate::tables::csv_table::{Cell, CsvTable};
use crate::words::caution::ROW_NOTE;
use crate::words::spot::spot as words;

/// Columns in their order, each with its name and how a row fills it.
pub(crate) struct Columns<'a, R>(Vec<(String, Fill<'a, R>)>);

/// How a row fills a column.
type Fill<'a, R> = Box<dyn Fn(&R) -> Cell + 'a>;

impl<'a, R: 'a> Columns<'a, R> {
    pub(crate) const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds a column.
    pub(crate) fn with<C: Into<Cell>>(mut self, name: &str, cell: impl Fn(&R) -> C + 'a) -> Self {
        self.0.push((name.to_owned(), Box::new(move |row| cell(row).into())));
        self
    }

    /// Adds the columns of a spot; the first holds its words.
    pub(crate) fn with_spot(self, name: &str, spot: impl Fn(&R) -> &Placement + Copy + 'a) -> Self {
        self.with(name, move |row| words(spot(row)))
            .with(&format!("{name}_mark"), move |row| spot(row).mark.clone())
            .with(&format!("{name}_colour"), move |row| spot(row).colour.clone())
            .with(&format!("{name}_past_mark_m"), move |row| spot(row).past_mark_m)
            .with(&format!("{name}_tape_m"), move |row| spot(row).tape_m)
            .with(&format!("{name}_from_finish_line_m"), move |row| spot(row).from_finish_line_m)
            .with(&format!("{name}_x_m"), move |row| spot(row).x_m)
            .with(&format!("{name}_y_m"), move |row| spot(row).y_m)
    }

    /// The table of some rows, with the note that each row carries in the last column.
    pub(crate) fn table<'r>(self, rows: impl IntoIterator<Item = &'r R>) -> CsvTable
    where
        R: 'r,
    {
        let columns = self.with("note", |_| ROW_NOTE).0;
        let mut table = CsvTable::new(columns.iter().map(|(name, _)| name.as_str()));
        for row in rows {
            table.row(columns.iter().map(|(_, cell)| cell(row)).collect::<Vec<_>>());
        }
        table
    }
}

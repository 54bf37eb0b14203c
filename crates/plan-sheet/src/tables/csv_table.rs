//! Answers as rows for spreadsheets and programs.

use std::sync::Arc;

use csv::{Terminator, WriterBuilder};
use lane_distance::LaneNumber;

/// A header and rows. Lines end as RFC 4180 says; numbers are rounded to a millionth.
///
/// Text from a session or track file could be taken for a formula by a spreadsheet: a cell that
/// begins as one, with space in front or not, gets an apostrophe in front, as the OWASP notes on CSV injection advise.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CsvTable {
    header: Vec<String>,
    rows: Vec<Vec<Cell>>,
}

/// A cell of a row.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Cell(String);

/// What spreadsheets take for the beginning of a formula: in ASCII and as wide letters.
const FORMULA: [char; 10] = ['=', '+', '-', '@', '\t', '\r', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];

/// Whether a spreadsheet may step over a letter in front of a formula: space of any width, none included, and marks of
/// the order of bytes.
fn is_unseen(letter: char) -> bool {
    letter.is_whitespace() || matches!(letter, '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{feff}')
}

impl CsvTable {
    /// A table without rows.
    pub(crate) fn new<'a>(header: impl IntoIterator<Item = &'a str>) -> Self {
        Self { header: header.into_iter().map(str::to_owned).collect(), rows: Vec::new() }
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: impl Into<Vec<Cell>>) {
        self.rows.push(cells.into());
    }

    /// The text of tables of one kind, one below the other, under the header of the first.
    pub(crate) fn joined(tables: impl IntoIterator<Item = Self>) -> String {
        let mut tables = tables.into_iter().peekable();
        let mut writer =
            WriterBuilder::new().terminator(Terminator::CRLF).flexible(true).from_writer(Vec::new());
        let header = tables.peek().map(|table| table.header.clone());
        let rows = tables.flat_map(|table| table.rows);
        let rows = rows.map(|row| row.into_iter().map(|cell| cell.0).collect());
        for row in header.into_iter().chain(rows) {
            // Memory takes every row, whatever its length.
            writer.write_record(&row).expect("a row is written to memory");
        }
        // Nothing can fail to be flushed to memory, and what was put in was text.
        let bytes = writer.into_inner().expect("memory needs no flush");
        String::from_utf8(bytes).expect("rows of text are text")
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        let begins = text.trim_start_matches(is_unseen);
        let is_formula = text.starts_with(FORMULA) || begins.starts_with(FORMULA);
        Self(if is_formula { format!("'{text}") } else { text.to_owned() })
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        text.as_str().into()
    }
}

impl From<Arc<str>> for Cell {
    fn from(text: Arc<str>) -> Self {
        (*text).into()
    }
}

impl From<bool> for Cell {
    fn from(is: bool) -> Self {
        Self(if is { "yes" } else { "no" }.to_owned())
    }
}

impl From<f64> for Cell {
    fn from(number: f64) -> Self {
        let text = format!("{number:.6}");
        let text = text.trim_end_matches('0').trim_end_matches('.');
        // A number that rounds to nothing has no sign.
        Self(if text == "-0" { "0".to_owned() } else { text.to_owned() })
    }
}

impl From<u32> for Cell {
    fn from(number: u32) -> Self {
        Self(number.to_string())
    }
}

impl From<LaneNumber> for Cell {
    fn from(lane: LaneNumber) -> Self {
        u32::from(lane.get()).into()
    }
}

impl<T: Into<Self>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Self {
        value.map_or_else(Self::default, Into::into)
    }
}

#[cfg(test)]
mod tests {
    use super::{Cell, CsvTable};

    #[test]
    fn what_a_spreadsheet_would_run_is_text() {
        for text in [
            "=1+1",
            "+1",
            "-1",
            "@SUM(1)",
            "\t=1",
            "\r=1",
            "\u{ff1d}1",
            " =1",
            "\n=1",
            "\u{a0}=1",
            "\u{feff}=1",
            "\u{200b}@1",
            "\n \u{2009}+1",
        ] {
            assert_eq!(Cell::from(text).0, format!("'{text}"));
        }
        assert_eq!(Cell::from("6 x 200 = a lot").0, "6 x 200 = a lot");
    }

    #[test]
    fn a_reader_of_the_same_standard_reads_back_what_was_written() {
        let text = "a \"quoted\", long\nname; Zo\u{eb}";
        let mut table = CsvTable::new(["a", "b"]);
        table.row([text.into(), Cell::from(None::<f64>)]);
        let written = CsvTable::joined([table.clone(), table]);
        let mut reader = csv::Reader::from_reader(written.as_bytes());
        let rows: Vec<_> = reader.records().map(|row| row.expect("it is well formed")).collect();
        assert_eq!(rows.len(), 2, "the header stands once");
        assert_eq!((&rows[1][0], &rows[1][1]), (text, ""));
    }

    #[test]
    fn numbers_have_no_needless_digits() {
        let numbers = [200.0, -9.95, 1.0 / 3.0, -1e-9, 0.0].map(|number| Cell::from(number).0);
        assert_eq!(numbers, ["200", "-9.95", "0.333333", "0", "0"]);
    }
}

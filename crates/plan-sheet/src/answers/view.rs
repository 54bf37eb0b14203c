//! What every answer can be shown as.

use serde::Serialize;
use session_plan::Plan;

use crate::json::plan_json::PlanJson;
use crate::sheet::sheet::Sheet;
use crate::tables::csv_table::CsvTable;
use crate::tables::plan_csv;
use crate::terminal::plan_text;

/// An answer that can be shown to a person or given to a program.
pub trait View {
    /// What its JSON holds, unrounded.
    fn data(&self) -> impl Serialize + '_;

    /// For a terminal of 80 columns; headings are bold.
    fn text(&self) -> String;

    /// For a spreadsheet: a row for each run, choice, lane or mark.
    fn csv(&self) -> CsvTable;

    /// For another program: one JSON value and a line end, unrounded.
    ///
    /// # Errors
    ///
    /// [`serde_json::Error`] where a value has no JSON; no answer of this project has such values.
    fn json(&self) -> Result<String, serde_json::Error> {
        Ok(serde_json::to_string_pretty(&self.data())? + "\n")
    }
}

impl View for Plan {
    fn data(&self) -> impl Serialize + '_ {
        PlanJson::from(self)
    }

    fn text(&self) -> String {
        plan_text::text(&Sheet::of(self))
    }

    fn csv(&self) -> CsvTable {
        plan_csv::csv(self)
    }
}

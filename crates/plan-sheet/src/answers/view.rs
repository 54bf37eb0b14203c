//! What every answer can be shown as.

use serde::Serialize;
use session_plan::{Plan, Week};

use crate::json::lines::in_lines;
use crate::json::plan_json::PlanJson;
use crate::sheet::sheet::Sheet;
use crate::tables::csv_table::CsvTable;
use crate::tables::plan_csv;
use crate::terminal::{brief_text, full_text};

/// An answer that can be shown to a person or given to a program.
pub trait View {
    /// What its JSON holds, unrounded.
    fn data(&self) -> impl Serialize + '_;

    /// For a terminal of 80 columns; headings are bold.
    fn text(&self) -> String;

    /// For a spreadsheet: a row for each run, choice, lane or mark.
    fn csv(&self) -> CsvTable;

    /// The week that it shows, which some kinds of file print in front of its plans.
    fn week(&self) -> Option<&Week> {
        None
    }

    /// For another program: one JSON value and a line end, unrounded.
    ///
    /// # Errors
    ///
    /// [`serde_json::Error`] where a value has no JSON; no answer of this project has such values.
    fn json(&self) -> Result<String, serde_json::Error> {
        in_lines(&self.data())
    }
}

impl View for Plan {
    fn data(&self) -> impl Serialize + '_ {
        PlanJson::from(self)
    }

    fn text(&self) -> String {
        brief_text::text(&Sheet::of(self))
    }

    fn csv(&self) -> CsvTable {
        plan_csv::csv(self)
    }
}

/// A plan of which everything is shown on a terminal, on more than a screen.
///
/// ```
/// use lane_distance::Track;
/// use plan_sheet::{InFull, View};
/// use session_plan::{Session, Venue};
/// use workout_notation::Workout;
///
/// let blocks = Workout::parse_blocks("6 x 200 in lane 2").expect("it is well formed");
/// let venue = Venue::from(Track::built_in("standard").expect("it comes with the crate"));
/// let plan = session_plan::plan(&venue, &Session::of_blocks("6 x 200", blocks)).expect("it can be laid out");
/// assert!(plan.text().lines().count() <= 23);
/// assert!(InFull(&plan).text().contains("Distances assume the measure line"));
/// ```
#[derive(Clone, Copy, Debug)]
pub struct InFull<'a>(pub &'a Plan);

impl View for InFull<'_> {
    fn data(&self) -> impl Serialize + '_ {
        self.0.data()
    }

    fn text(&self) -> String {
        full_text::text(&Sheet::of(self.0))
    }

    fn csv(&self) -> CsvTable {
        self.0.csv()
    }
}

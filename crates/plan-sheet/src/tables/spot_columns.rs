//! A spot in columns.

use lane_distance::Placement;

use crate::tables::csv_table::Cell;
use crate::words::spot::spot as words;

/// The columns of a spot, as endings of their names.
const COLUMNS: [&str; 8] =
    ["", "_mark", "_colour", "_past_mark_m", "_tape_m", "_from_finish_line_m", "_x_m", "_y_m"];

/// The names of a spot's columns; the first holds its words.
pub(crate) fn header(spot: &str) -> impl Iterator<Item = String> {
    COLUMNS.into_iter().map(move |column| format!("{spot}{column}"))
}

/// A spot in those columns.
pub(crate) fn cells(spot: &Placement) -> [Cell; COLUMNS.len()] {
    [
        words(spot).into(),
        spot.mark.as_deref().into(),
        spot.colour.as_deref().into(),
        spot.past_mark_m.into(),
        spot.tape_m.into(),
        spot.from_finish_line_m.into(),
        spot.x_m.into(),
        spot.y_m.into(),
    ]
}
